"""Every benchmark one after another, as the tables that the README carries.

    python tests/bench/bench_all.py            the table of speed, each figure beside what was asked (about 5 minutes)
    python tests/bench/bench_all.py --write    the same, and written into the README with its date
    python tests/bench/bench_all.py --long     and the simulations of `recover` and `reconcile` (about 15 minutes more)
    python tests/bench/bench_all.py --each     each script in turn, with all that it measures

Run it on a machine that does nothing else: seconds double on a busy one. What matters are the ratios.
"""

from __future__ import annotations

import platform
import re
import subprocess
import sys
from datetime import date
from pathlib import Path

HERE = Path(__file__).parent
README = HERE.parents[1] / "README.md"
#: The README's line that tells when, and the rows of its table up to those of the simulations.
WHEN = re.compile(r"^Measured on .*?:\n", re.MULTILINE | re.DOTALL)
ROWS = re.compile(r"(^\| what \| came to .*?\n\| --- .*?\n)(.*?)(?=^\| \*)", re.MULTILINE | re.DOTALL)
SCRIPTS = (
    "core",
    "start",
    "spacing",
    "pack",
    "tables",
    "threads",
    "identify",
    "column",
    "written",
    "sheet",
    "page",
    "prompt",
)
#: Simulations of `recover` and `reconcile`.
LONG = ("recover", "reliability", "lists", "reconcile")


def when() -> str:
    """The day, the machine and the Python, as the README tells them."""
    return (
        f"Measured on {date.today().isoformat()}, {platform.machine()}, {platform.system()}, "
        f"Python {platform.python_version()}:\n"
    )


def table() -> list[str]:
    """The rows of the table of speed, each printed as it is measured."""
    import goals

    rows = []
    print("| what | came to | beside that | asked |\n| --- | --- | --- | --- |")
    for part in goals.PARTS:
        for row in part():
            rows.append(str(row))
            print(row, flush=True)
    return rows


def write(rows: list[str]) -> None:
    """Put the rows and their date into the README, before those of the simulations."""
    text = WHEN.sub(when(), README.read_text(encoding="utf-8"), count=1)
    told = "".join(f"{row}\n" for row in rows)
    README.write_text(ROWS.sub(lambda match: match[1] + told, text, count=1), encoding="utf-8")


def main() -> int:
    """Print the table, then what each script that was asked for prints, under its name."""
    print(when())
    asked = sys.argv[1:]
    if "--each" not in asked:
        rows = table()
        if "--write" in asked:
            write(rows)
    status = 0
    for name in (*(SCRIPTS if "--each" in asked else ()), *(LONG if "--long" in asked else ())):
        print(f"\n## {name}\n", flush=True)
        done = subprocess.run([sys.executable, HERE / f"bench_{name}.py"], check=False)
        status = status or done.returncode
    return status


if __name__ == "__main__":
    sys.exit(main())
