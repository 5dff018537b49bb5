"""How long a sheet takes against the number of its lines: `python tests/bench/bench_sheet.py [LINES ...]`.

The sheet is of the usual kind: sizes given, sums of them, spacings, checks, parts; names are
used before and after they are set. Shown: seconds to work it out; that for each line as a ratio
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


#: What is measured of a worked sheet, beside working it out.
OUTPUTS = ("verdict", "to_csv", "to_json", "to_text")


def measured(lines: int) -> list[float]:
    """Seconds to work out a sheet of so many lines, then for each of OUTPUTS from a sheet worked out anew."""
    written, seconds = text(lines), []
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
    first = 0.0
    print(f"{'lines':>8} {'worked':>9} {'ratio':>7}", *(f"{output:>8}" for output in OUTPUTS))
    for lines in sizes:
        worked, *outputs = measured(lines)
        first = first or worked / lines
        print(
            f"{lines:>8,} {worked:>9.3f} {worked / lines / first:>7.2f}",
            *(f"{seconds / worked:>8.2f}" for seconds in outputs),
        )


if __name__ == "__main__":
    main([int(n) for n in sys.argv[1:]] or [2_000, 10_000, 50_000])
