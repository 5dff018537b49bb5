"""How long a sheet takes against the number of its lines: `python tests/bench/bench_sheet.py [LINES ...]`.

The usual sheet has sizes given, sums of them, spacings, checks, parts; names are
used before and after they are set; another has lines that draw on no other, and one is a chain of names. Shown: seconds to work it out; that for each line as a ratio
to the smallest sheet (1 is linear); and what the verdict and each output cost beside working it out,
as a share of that.
"""

from __future__ import annotations

import sys
from time import process_time

from fractions_shop.show.sheet import Sheet


def text(lines: int) -> str:
    """A sheet of about so many lines."""
    rows: list[str] = ["## Bench"]
    n = 0
    while len(rows) < lines:
        n += 1
        rows += [
            f"bay_{n} = width_{n} / 5",
            f"width_{n} = {n % 40 + 2} 1/32 in",
            f"rail_{n} = divide width_{n} into 5 up",
            f"gap_{n} = rail_{n} - bay_{n} + {n % 7 + 1} thou ± 1 thou",
            f"check rail_{n} * 5 = width_{n} within 1/8 in",
            f"part rail {n}: {n % 9 + 1} of brass, 1/16 in by 1/4 in by width_{n}",
            "# a note",
            f"chain_{n} = chain_{n - 1} + width_{n}" if n > 1 else "chain_1 = 1 in",
            f"ans + {n} mm",
            f"snap {n} mm to 32nds",
        ]
    return "\n".join(rows[:lines])


def independent(lines: int) -> str:
    """A sheet whose lines draw on no other."""
    return "\n".join(f"width_{n} = {n % 40 + 2} 1/32 in / {n % 7 + 2}" for n in range(lines))


def chain(lines: int) -> str:
    """A sheet in which every name draws on the one before."""
    return "\n".join(f"at_{n} = {f'at_{n - 1} + ' if n else ''}{n % 40 + 2} 1/32 in" for n in range(lines))


KINDS = {"usual": text, "independent": independent, "one chain": chain}
#: What is measured of a worked sheet, beside working it out.
OUTPUTS = ("verdict", "to_csv", "to_json", "to_text")


def measured(lines: int, kind: str = "usual") -> list[float]:
    """Seconds to work out a sheet of so many lines, then for each of OUTPUTS from a sheet worked out anew."""
    written, seconds = KINDS[kind](lines), []
    for output in ("run", *OUTPUTS):
        sheet = Sheet.from_text(written)
        begin = process_time()
        sheet.run()
        if output != "run":
            begin = process_time()
            asked = getattr(sheet, output)
            if callable(asked):
                asked()
        seconds.append(process_time() - begin)
    assert sheet.ok, sheet.faults[:3]
    return seconds


def main(sizes: list[int]) -> None:
    """Measure and show."""
    measured(100)  # rooms and grammar are loaded once, at start
    print(f"{'kind':12} {'lines':>8} {'worked':>9} {'ratio':>7}", *(f"{output:>8}" for output in OUTPUTS))
    for kind in KINDS:
        first = 0.0
        for lines in sizes:
            worked, *outputs = measured(lines, kind)
            first = first or worked / lines
            print(
                f"{kind:12} {lines:>8,} {worked:>9.3f} {worked / lines / first:>7.2f}",
                *(f"{seconds / worked:>8.2f}" for seconds in outputs),
            )


if __name__ == "__main__":
    main([int(n) for n in sys.argv[1:]] or [1_000, 10_000])
