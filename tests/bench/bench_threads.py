"""How long threads take, as a part of what is allowed: under 1 is within it.

Run it by itself: python tests/bench/bench_threads.py
"""

from __future__ import annotations

from statistics import median
from time import perf_counter

from fresh import fresh

from fractions_shop.threads.identify import identify
from fractions_shop.threads.lookup import thread
from fractions_shop.threads.names import looks_like_thread
from fractions_shop.threads.series import all_threads
from fractions_shop.threads.substitute import substitute

#: Milliseconds allowed.
ANSWER, LOAD = 10, 20

LOADING = """
from time import perf_counter
from fractions_shop.threads.series import all_threads
start = perf_counter()
all_threads()
print(1000 * (perf_counter() - start))
"""


def warm(call: object, times: int = 30) -> float:
    """The median time of a call in milliseconds, after one to warm up."""
    call()  # type: ignore[operator]
    taken = []
    for _ in range(times):
        start = perf_counter()
        call()  # type: ignore[operator]
        taken.append(1000 * (perf_counter() - start))
    return median(taken)


def main() -> None:
    all_threads()
    print(f"all threads, loaded      {fresh(LOADING) / LOAD:6.2f} of {LOAD} ms")
    for label, call in (
        ("identify 2.75 mm, 0.53 mm", lambda: identify("2.75 mm", "0.53 mm")),
        ("identify 1/4 in, 26 tpi", lambda: identify("1/4 in", "26 tpi")),
        ("identify far from any", lambda: identify("100 mm", "0.1 mm")),
        ("thread 1/4-20", lambda: thread("1/4-20")),
        ("tapping 6 BA", lambda: thread("6 BA").tapping()),
        ("over wires 1/4-20", lambda: thread("1/4-20").over_wires()),
        ("substitute 6 BA metric", lambda: substitute("6 BA", "metric")),
        ("substitute 6 BA", lambda: substitute("6 BA")),
        ("1000 looks_like_thread", lambda: [looks_like_thread("2 1/32 in / 5") for _ in range(1000)]),
    ):
        print(f"{label:24} {warm(call) / ANSWER:6.2f} of {ANSWER} ms")


if __name__ == "__main__":
    main()
