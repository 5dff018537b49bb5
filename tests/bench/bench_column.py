"""How many rows of sizes a second `column` works through, and in how much memory.

Run it by itself: python tests/bench/bench_column.py [ROWS]

Figures are ratios: of processor time to a bare copy of the same file by the csv module with as many
cells added, always the same ones; of memory to a file a tenth as long; and to a loop of the csv module and
pint's own reading of a plain size (on a small sample; only sizes that pint reads as they are meant, such as
10.3 mm). `doubtful` sizes go to the reader of statements: an improper fraction may be a mixed number whose blank
was lost.
"""

from __future__ import annotations

import csv
import random
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from statistics import median
from time import perf_counter

SAMPLE, PINT_SAMPLE = 50_000, 2_000
#: What a bare copy adds to every row: cells as long as those of `column`.
CONSTANT = ["2 1/32 in", "2.03125", "51.59375", "2 1/32 in", "0.003691", "0.09375", "inch and error inch", ""]
_COPY = f"""
import csv, sys
with open(sys.argv[1], newline="", encoding="utf-8") as file, open(sys.argv[2], "w", newline="", encoding="utf-8") as out:
    writer = csv.writer(out)
    for row in csv.reader(file):
        writer.writerow([*row, *{CONSTANT!r}])
"""
_COLUMN = """
import sys
from fractions_shop.command.cli import main
main(["column", sys.argv[1], "--size", "width", "--replace", "--out", sys.argv[2]])
"""
_USED = """
import resource
used = resource.getrusage(resource.RUSAGE_SELF)
print(used.ru_utime + used.ru_stime, used.ru_maxrss)
"""


def millimetres(count: int) -> Iterator[str]:
    """Sizes as a caliper or a drawing program gives them, every one another."""
    return (f"{n / 1000:.3f} mm" for n in range(count))


def distinct(count: int) -> Iterator[str]:
    """Plain sizes, hardly any of them twice."""
    for n in range(count):
        yield (
            f"{n % 9973} {2 * (n // 9973 % 32) + 1}/64 in", f"{n / 1000:.3f} mm", f"{n / 100_000:.5f} in", f"{n % 9973}' {n // 9973 % 12} 1/4\"",
        )[n % 4]  # fmt: skip


def repeated(count: int) -> Iterator[str]:
    """The few hundred sizes of a real list, over and over."""
    choose = random.Random(2).randrange
    return (f"{choose(12)} {2 * choose(16) + 1}/32 in" for _ in range(count))


def doubtful(count: int) -> Iterator[str]:
    """Improper fractions, of which most may be mixed numbers that lost their blank."""
    return (f"{n}/64 in" for n in range(count))


def faulty(count: int) -> Iterator[str]:
    """Sizes of which one in a hundred is none, each in its own way."""
    return (f"about {n}" if n % 100 == 0 else size for n, size in enumerate(distinct(count)))


def written(path: Path, sizes: Iterator[str]) -> Path:
    """A file of three columns, the sizes in the middle."""
    with path.open("w", encoding="utf-8") as file:
        file.write("part,width,note\n")
        file.writelines(f"tray {n},{size},a note\n" for n, size in enumerate(sizes))
    return path


def timed(code: str, path: Path) -> tuple[float, float]:
    """Processor seconds and megabytes of a whole process that runs `code` on the file."""
    done = subprocess.run(
        [sys.executable, "-c", code + _USED, str(path), str(path.with_suffix(".out"))],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    seconds, kilobytes = done.stdout.split()
    return float(seconds), int(kilobytes) / 1024


def with_pint(path: Path) -> float:
    """Seconds for a sample by csv and pint, in inches and millimetres."""
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
    """Seconds for a sample by `Column`, without the start of a process."""
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
    kinds: dict[str, tuple[Callable[[int], Iterator[str]], int]] = {
        "millimetres": (millimetres, rows),
        "mixed forms": (distinct, rows),
        "repeated": (repeated, rows),
        "1 % bad": (faulty, rows // 10),
        "doubtful": (doubtful, rows // 50),
    }
    with tempfile.TemporaryDirectory() as folder:
        few_file, many_file = Path(folder) / "few.csv", Path(folder) / "many.csv"
        for name, (sizes, count) in kinds.items():
            written(few_file, sizes(count // 10))
            written(many_file, sizes(count))
            # In turns, so that both meet the machine as it is.
            pairs = [(timed(_COPY, many_file), timed(_COLUMN, many_file)) for _ in range(3)]
            ratio = median(ours[0] / copy[0] for copy, ours in pairs)
            seconds, memory = min(ours for _, ours in pairs)
            print(
                f"{name:12} {count:>9,} rows  {count / seconds:>9,.0f} a second  {ratio:6.2f} of a copy  "
                f"{memory:5.1f} MB, {memory / timed(_COLUMN, few_file)[1]:.2f} of a tenth as long"
            )
        sample = written(Path(folder) / "sample.csv", millimetres(SAMPLE))
        few = written(Path(folder) / "few_for_pint.csv", millimetres(PINT_SAMPLE))
        ours = min(in_process(sample) for _ in range(3)) / SAMPLE
        print(f"csv and pint: {with_pint(few) / PINT_SAMPLE / ours:.0f} times as long a row")


if __name__ == "__main__":
    main()
