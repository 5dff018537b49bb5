"""Every benchmark one after another, as the tables that the README carries.

    python tests/bench/bench_all.py            all but the simulations of `recover` and `reconcile` (about 2 minutes)
    python tests/bench/bench_all.py --long     those too (about 15 minutes more)

Each script can be run by itself. Figures are medians of one run; what matters are the ratios.
"""

from __future__ import annotations

import platform
import subprocess
import sys
from datetime import date
from pathlib import Path

HERE = Path(__file__).parent
SCRIPTS = (
    "core",
    "start",
    "spacing",
    "pack",
    "tables",
    "threads",
    "column",
    "written",
    "sheet",
    "page",
    "prompt",
)
#: Simulations of `recover` and `reconcile`.
LONG = ("recover", "reliability", "lists", "reconcile")


def main() -> int:
    """Run them and print what each prints under its name."""
    print(
        f"{date.today().isoformat()}, Python {platform.python_version()}, {platform.machine()}, {platform.system()}"
    )
    status = 0
    for name in (*SCRIPTS, *(LONG if "--long" in sys.argv[1:] else ())):
        print(f"\n## {name}\n", flush=True)
        done = subprocess.run([sys.executable, HERE / f"bench_{name}.py"], check=False)
        status = status or done.returncode
    return status


if __name__ == "__main__":
    sys.exit(main())
