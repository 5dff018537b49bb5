"""How long a page with drawings takes against its lines: `python tests/bench/bench_page.py [LINES ...]`.

Of each 1,000 lines there are 20 drawings: strips of marks and parts. Shown: CPU seconds to work the sheet out, to make
the document and to write the page; all of it as a share of a second for each 1,000 lines; and that for each line as a
ratio to the smallest sheet (1 is linear).
"""

from __future__ import annotations

import sys
from itertools import pairwise
from time import process_time

from fractions_shop.show.page import page
from fractions_shop.show.sheet import Sheet


def text(lines: int) -> str:
    """A sheet of about so many lines, one in fifty of them with a drawing."""
    rows = ["## Bench"]
    k = 0
    while len(rows) < lines:
        rows += [
            f"a{k} = {k + 1} in + 3/32 in", f"b{k} = a{k} / 7", f"c{k} = a{k} + b{k} ± 1/64 in",
            f"check b{k} * 7 = a{k}", f"snap a{k} to 32nds", f"d{k} = {k % 5 + 2} in", f"divide d{k} into 5",
            f"e{k} = d{k} * 2", f"# note {k}", f"f{k} = e{k} - 1/8 in",
        ]  # fmt: skip
        if k % 10 == 9:
            rows += [f"mark d{k} into 5", f"part p{k}: {k + 1} of brass, 1/4 in by 1 in by e{k}"]
        k += 1
    return "\n".join(rows[:lines])


def measured(lines: int) -> tuple[int, list[float]]:
    """How many drawings there are, and the seconds of the three steps."""
    made = Sheet.from_text(text(lines))
    times = [process_time()]
    made.run()
    times.append(process_time())
    document = made._document()
    times.append(process_time())
    page(document)
    times.append(process_time())
    return len(document.pictures), [after - before for before, after in pairwise(times)]


def main(sizes: list[int]) -> None:
    """Measure and show."""
    measured(100)  # rooms and grammar are loaded once, at start
    first = 0.0
    print(
        f"{'lines':>7} {'drawings':>8} {'worked':>7} {'document':>8} {'page':>6} {'of 1 s':>7} {'ratio':>6}"
    )
    for lines in sizes:
        drawings, seconds = measured(lines)
        share = sum(seconds) * 1000 / lines
        first = first or share
        told = " ".join(f"{each:>{wide}.2f}" for each, wide in zip(seconds, (7, 8, 6), strict=True))
        print(f"{lines:>7,} {drawings:>8} {told} {share:>7.2f} {share / first:>6.2f}")


if __name__ == "__main__":
    main([int(n) for n in sys.argv[1:]] or [1_000, 2_000, 4_000, 8_000])
