"""How many rows of sizes a second `column` works through, and in how much memory.

Run it by itself: python tests/bench/bench_column.py [ROWS]

Figures are ratios: to the 100,000 rows a second that are wanted, to the memory of a file
a tenth as long, and to a loop of the csv module and pint's own reading of a plain size
(on a small sample; only sizes that pint reads as they are meant, such as 10.3 mm).
"""

from __future__ import annotations

import csv
import random
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from time import perf_counter

WANTED = 100_000
SAMPLE = 2_000


def distinct(count: int) -> Iterator[str]:
    """Plain sizes, hardly any of them twice."""
    for n in range(count):
        yield (
            f"{n % 9973} {2 * (n // 9973 % 32) + 1}/64 in", f"{n / 1000:.3f} mm", f"{n / 100_000:.5f} in", f"{n}/64 in",
        )[n % 4]  # fmt: skip


def repeated(count: int) -> Iterator[str]:
    """The few hundred sizes of a real list, over and over."""
    choose = random.Random(2).randrange
    return (f"{choose(12)} {2 * choose(16) + 1}/32 in" for _ in range(count))


def faulty(count: int) -> Iterator[str]:
    """Sizes of which one in a hundred is none, each in its own way."""
    return (f"about {n}" if n % 100 == 0 else size for n, size in enumerate(distinct(count)))


def written(path: Path, sizes: Iterator[str]) -> Path:
    """A file of three columns, the sizes in the middle."""
    with path.open("w", encoding="utf-8") as file:
        file.write("part,width,note\n")
        file.writelines(f"tray {n},{size},a note\n" for n, size in enumerate(sizes))
    return path


def timed(path: Path) -> tuple[float, float]:
    """Seconds and megabytes of the whole command in a process of its own."""
    code = (
        "import resource, sys\nfrom fractions_shop.command.cli import main\nmain(sys.argv[1:])\n"
        "print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss)"
    )
    start = perf_counter()
    done = subprocess.run(
        [sys.executable, "-c", code, "column", str(path), "--size", "width", "--out", str(path.with_suffix(".out"))],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    return perf_counter() - start, int(done.stdout) / 1024


def with_pint(path: Path) -> float:
    """Seconds for the same sample by csv and pint, in inches and millimetres."""
    import pint

    registry = pint.UnitRegistry()
    registry("1 mm")
    start = perf_counter()
    with (
        path.open(encoding="utf-8", newline="") as file,
        path.with_suffix(".pint").open("w", newline="") as out,
    ):
        writer = csv.writer(out)
        reader = csv.reader(file)
        next(reader)
        for row in reader:
            size = registry(row[1])
            writer.writerow([*row, size.to("inch").magnitude, size.to("mm").magnitude])
    return perf_counter() - start


def in_process(path: Path) -> float:
    """Seconds for the same sample by `Column`, without the start of a process."""
    from fractions_shop.command.column import Column

    start = perf_counter()
    with (
        path.open(encoding="utf-8", newline="") as file,
        path.with_suffix(".ours").open("w", newline="") as out,
    ):
        out.writelines(Column("width").widen(file))
    return perf_counter() - start


def main() -> None:
    """Print each figure."""
    rows = int(sys.argv[1]) if len(sys.argv) > 1 else 1_000_000
    kinds: dict[str, Callable[[int], Iterator[str]]] = {
        "distinct": distinct,
        "repeated": repeated,
        "1 % bad": faulty,
    }
    with tempfile.TemporaryDirectory() as folder:
        for name, sizes in kinds.items():
            few = timed(written(Path(folder) / "few.csv", sizes(rows // 10)))
            many = timed(written(Path(folder) / "many.csv", sizes(rows)))
            rate = rows / many[0]
            print(
                f"{name:9} {rows:>9,} rows  {rate:>11,.0f} a second  {rate / WANTED:6.2f} of what is wanted  "
                f"{many[1]:6.1f} MB, {many[1] / few[1]:.2f} of a tenth as long"
            )
        sample = written(Path(folder) / "sample.csv", (f"{n / 1000:.3f} mm" for n in range(SAMPLE)))
        ours = min(in_process(sample) for _ in range(3))
        print(f"csv and pint, {SAMPLE:,} rows: {with_pint(sample) / ours:.0f} times as long")


if __name__ == "__main__":
    main()
