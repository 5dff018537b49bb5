"""The environments of the processes that tests start."""

from __future__ import annotations

import os
from pathlib import Path


def with_libraries() -> dict[str, str]:
    """For one that loads large libraries: their bytecode lies beside them, not in the folder of this run."""
    environment = dict(os.environ)
    if environment.pop("PYTHONPYCACHEPREFIX", None):
        environment["PYTHONDONTWRITEBYTECODE"] = "1"
    return environment


def of_a_copy(home: Path, *paths: Path) -> dict[str, str]:
    """For one that runs a copy of the checkout at `home`: its bytecode and all else that it keeps lies in the copy.

    `paths` are where else its modules are looked for.
    """
    environment = with_libraries()
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    kept = {name: str(home / "home") for name in ("XDG_CACHE_HOME", "XDG_STATE_HOME", "XDG_CONFIG_HOME")}
    return environment | kept | {"PYTHONPATH": os.pathsep.join(map(str, (home, *paths)))}
