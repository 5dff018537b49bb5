"""How quick sizes with words around them are read: a line, a page of running text, and plain sizes beside them.

Run it by itself: python tests/bench/bench_written.py
"""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from statistics import median
from time import perf_counter

from fractions_shop import find_sizes, written
from fractions_shop.language.parser import parse
from fractions_shop.layout.bulk import plain_pair

DATA = Path(__file__).parents[1] / "data"
LINE = "the runners of the upper trays are of brass, 1/16 in. thick, and eased at back"


def per_call(call: Callable[[], object], times: int, rounds: int = 9) -> float:
    """The median over rounds of the seconds that one call takes."""
    call()
    found = []
    for _ in range(rounds):
        started = perf_counter()
        for _ in range(times):
            call()
        found.append((perf_counter() - started) / times)
    return median(found)


def page() -> str:
    """Running text of some 3,000 words."""
    text = re.sub("[«»]", "", (DATA / "shop_book.txt").read_text("utf-8"))
    return "\n\n".join([text] * (3000 // len(text.split()) + 1))


def main() -> None:
    """Print the rows."""
    text = page()
    words = len(text.split())
    plain = per_call(lambda: plain_pair("2 1/32 in"), 2000)
    statement = per_call(lambda: parse("2 1/32 in + 3/8 in"), 500)
    line = per_call(lambda: written(LINE), 200)
    whole = per_call(lambda: find_sizes(text), 1, 5)
    split = per_call(lambda: re.findall(r"\w+", text), 5)
    print("| what | took | ratio |\n| --- | --- | --- |")
    print(f"| a plain size of a column | {plain * 1e6:.1f} µs | |")
    print(f"| a plain statement, parsed | {statement * 1e6:.0f} µs | {statement / plain:.1f} plain sizes |")
    print(
        f"| `written` on {len(LINE)} characters | {line * 1e6:.0f} µs | {line / statement:.1f} plain statements |"
    )
    print(
        f"| `find_sizes` on {words:,} words | {whole * 1e3:.0f} ms | {whole / split:.0f} times cutting it into words |"
    )


if __name__ == "__main__":
    main()
