"""How long one answer takes from nothing, as the processor counts it, against a bare Python and the plain path.

    python tests/bench/bench_start.py                      this checkout
    python tests/bench/bench_start.py OTHER_CHECKOUT       and another, in turn with it

The commands are run in turn, so that a busy moment falls on all alike, and the least of each is told:
what else the machine does can only add. Every interpreter keeps its compiled modules, as an installed
package has them. Another checkout is what `git worktree add OTHER_CHECKOUT COMMIT` makes; the packages
are those of this interpreter.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
from pathlib import Path

HERE = Path(__file__).parents[2]
#: The plain path first: the others are told as so many times it.
STATEMENTS = (
    "2 1/32 in", "2 1/32 in / 5", "divide 2 in into 5 up", "snap 10.3 mm", "18 SWG", "thread 6 BA", "thread M3",
    "thread 1/4-20 UNC", "tapping(6 BA)", "identify 0.25 in, 20 tpi", "recover 51.5 mm",
    "recover 51.5 mm, 2 1/32 in, 10.3 mm", "substitute 6 BA",
)  # fmt: skip
ROUNDS = 20


def processor_seconds(checkout: Path, compiled: str, *arguments: str) -> float:
    """What the processor spent on a whole Python process that finds the package in a checkout."""
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    environment = {**kept, "PYTHONPATH": str(checkout), "PYTHONPYCACHEPREFIX": compiled}
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(
        [sys.executable, *arguments], check=True, capture_output=True, env=environment, cwd=checkout
    )
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def least(checkouts: list[Path]) -> dict[tuple[Path, str], float]:
    """The least of each statement in each checkout, and of an empty program (``)."""
    times: dict[tuple[Path, str], list[float]] = {}
    with tempfile.TemporaryDirectory() as compiled:
        for turn in range(ROUNDS + 1):
            for checkout in checkouts:
                for statement in ("", *STATEMENTS):
                    arguments = ("-m", "fractions_shop", statement) if statement else ("-c", "pass")
                    took = processor_seconds(checkout, compiled, *arguments)
                    if turn:  # the first round compiles the modules
                        times.setdefault((checkout, statement), []).append(took)
    return {key: min(each) for key, each in times.items()}


def table(checkouts: list[Path]) -> list[str]:
    """Rows of a Markdown table: a statement and, for each checkout, milliseconds and how many plain paths."""
    times = least(checkouts)
    plain = STATEMENTS[0]
    rows = ["| from nothing | " + " | ".join(str(checkout) for checkout in checkouts) + " |"]
    rows.append("| --- |" + " --- |" * len(checkouts))
    for statement in ("", *STATEMENTS):
        cells = [
            f"{1000 * times[checkout, statement]:.1f} ms, {times[checkout, statement] / times[checkout, '']:.1f} "
            f"bare Pythons, {times[checkout, statement] / times[checkout, plain]:.2f} plain"
            for checkout in checkouts
        ]
        rows.append(f"| `{statement or 'a bare Python'}` | {' | '.join(cells)} |")
    return rows


if __name__ == "__main__":
    print("\n".join(table([HERE, *(Path(each).resolve() for each in sys.argv[1:])])))
