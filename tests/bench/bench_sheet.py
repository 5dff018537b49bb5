"""How long a sheet takes against the number of its lines: `python tests/bench/bench_sheet.py [LINES ...]`.

The sheet is of the usual kind: sizes given, sums of them, spacings, checks, parts; names are
used before and after they are set. Shown: seconds to work it out, seconds with its text, and
each as a ratio to the smallest sheet for each line (1 is linear).
"""

from __future__ import annotations

import sys
from time import perf_counter

from fractions_shop.sheet.session import Session
from fractions_shop.sheet.sheet import Sheet


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


def main(sizes: list[int]) -> None:
    """Measure and show."""
    Session().answer("check 1 in + 1 mm = 2 in within 1 in")  # the grammar is built once, at start
    Session().answer("divide 2 in into 5")
    first: tuple[float, float] | None = None
    print(f"{'lines':>8} {'worked':>9} {'+ text':>9} {'ratio':>7} {'ratio':>7}")
    for lines in sizes:
        written = text(lines)
        begin = perf_counter()
        sheet = Sheet.from_text(written).run()
        worked = perf_counter() - begin
        sheet.to_text()
        whole = perf_counter() - begin
        first = first or (worked / lines, whole / lines)
        ratios = worked / lines / first[0], whole / lines / first[1]
        print(f"{lines:>8,} {worked:>9.3f} {whole:>9.3f} {ratios[0]:>7.2f} {ratios[1]:>7.2f}")
        assert sheet.ok, sheet.faults[:3]


if __name__ == "__main__":
    main([int(n) for n in sys.argv[1:]] or [1_000, 10_000, 100_000])
