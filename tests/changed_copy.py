"""A copy of the checkout with something added to it, and what its package makes of that."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

from processes import of_a_copy


def tried_in(home: Path, code: str) -> dict[str, Any]:
    """What `code`, run in the copy at `home` once its grammar is renewed, prints as an object.

    Its `home` must lie in the copy: the package that was tried is the changed one.
    """
    said = ""
    for order in ([str(home / "tests" / "renew_grammar.py")], ["-c", code]):
        done = subprocess.run(
            [sys.executable, *order],
            env=of_a_copy(home),
            cwd=home,
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.returncode == 0, done.stderr
        said = done.stdout
    tried: dict[str, Any] = json.loads(said)
    assert tried["home"].startswith(str(home))
    return tried
