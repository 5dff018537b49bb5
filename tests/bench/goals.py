"""The speeds that were asked for, each beside its figure: the rows of README's table of speed.

`tests/bench/bench_all.py` prints them. Seconds are a machine's own, and a busy one doubles them; ratios are of
figures taken in turn in one run. Processor time, but of what stands on a screen, of a start, and where the row says so.
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from statistics import median
from time import process_time
from typing import NamedTuple

import bench_column
import bench_core
import bench_identify
import bench_page
import bench_prompt
import bench_reconcile
import bench_sheet
import bench_start
import bench_written

from fractions_shop import Session, blocks, divide, find_sizes, identify, pack, places, share, snap, written


class Row(NamedTuple):
    """What was measured, what it came to, what that is beside something else, and what was asked for."""

    what: str
    came_to: str
    beside: str
    asked: str

    def __str__(self) -> str:
        return f"| {self.what} | {self.came_to} | {self.beside} | {self.asked} |"


def each(work: Callable[[], object], times: int = 200, rounds: int = 5) -> float:
    """Processor seconds of one call: the best of the rounds, since what else a machine does can only add."""
    work()
    taken = []
    for _ in range(rounds):
        started = process_time()
        for _ in range(times):
            work()
        taken.append((process_time() - started) / times)
    return min(taken)


def told(seconds: float) -> str:
    """A time in the unit that it is read in."""
    if seconds < 0.001:
        return f"{seconds * 1e6:.0f} µs"
    return f"{seconds * 1e3:.1f} ms" if seconds < 0.1 else f"{seconds:.2f} s"


def from_nothing() -> Iterator[Row]:
    """One answer of the command, as the processor counts it, and beside pint by the clock."""
    here = bench_start.HERE
    times = bench_start.least([here])
    bare, plain = times[here, ""], times[here, bench_start.STATEMENTS[0]]
    yield Row(
        "one answer, `2 1/32 in`, the whole process", told(plain), f"{plain / bare:.1f} bare Pythons", "6"
    )
    for statement in ("divide 2 in into 5 up", "thread 6 BA", "thread M3", "recover 51.5 mm"):
        took = times[here, statement]
        yield Row(f"one answer, `{statement}`", told(took), f"{took / plain:.2f} of that plain answer", "1.5")
    clock = bench_core.in_turn(
        {"pint": ("-c", bench_core.PINT), "ours": ("-c", bench_core.OURS, "2 1/32 in / 5")}
    )
    beside = f"{clock['ours'] / clock['pint']:.2f} of pint doing it exactly"
    yield Row("one answer, `2 1/32 in / 5`, by the clock", told(clock["ours"]), beside, "")


def at_work() -> Iterator[Row]:
    """Statements of a session that is warm."""
    from fractions import Fraction

    import pint

    from fractions_shop.language import parser

    bench, registry = Session(), pint.UnitRegistry(non_int_type=Fraction)
    theirs = each(lambda: registry.parse_expression("2.03125 inch / 5"), 50)
    for text in ("2 1/32 in / 5", "divide 2 in into 5 up"):
        took = each(lambda text=text: bench.answer(text))
        yield Row(
            f"a statement, warm, `{text}`", told(took), f"{took / theirs:.2f} of one pint expression", ""
        )
    request = each(lambda: parser.parse("divide 2 in into 5 up"))
    yield Row("the same request read by the grammar alone", told(request), "", "100 µs")
    for text, most in (("thread 6 BA", "2 ms"), ("recover 51.5 mm", "3 ms")):
        took = each(lambda text=text: bench.ask(text).text(), 50)
        yield Row(f"`{text}` with its text, warm", told(took), "", most)


def reading() -> Iterator[Row]:
    """Sizes as they are written, one by one and by the million."""
    plain = bench_core.bulk()
    for row in plain:
        what, came_to, beside = row.strip("| ").split(" | ")
        yield Row(what, came_to, beside, "")
    line = each(lambda: written(bench_written.LINE))
    yield Row(f"`written` on a line of {len(bench_written.LINE)} signs", told(line), "", "200 µs")
    page = bench_written.page()
    whole = each(lambda: find_sizes(page), 1)
    yield Row(f"`find` on {len(page.split()):,} words", told(whole), "", "0.3 s")
    with tempfile.TemporaryDirectory() as folder:
        count = 1_000_000
        file = bench_column.written(Path(folder) / "many.csv", bench_column.millimetres(count))
        pairs = [
            (
                bench_column.timed(bench_column._COPY, file),
                bench_column.timed(bench_column._COLUMN, file),
            )
            for _ in range(3)
        ]
    ratio = median(ours[0] / copy[0] for copy, ours in pairs)
    seconds = min(ours[0] for _, ours in pairs)
    yield Row(
        "`column`, a million different sizes",
        f"{count / seconds:,.0f} rows a second",
        f"{ratio:.1f} bare copies by csv",
        "2.5",
    )


def spacing() -> Iterator[Row]:
    """Spacings, shares, places, shims and threads, one call of the library."""
    stack = blocks(81)
    for what, work, most in (
        ("`divide` 2 in into 5", lambda: divide("2 in", 5), "1 ms"),
        ("`divide` into 5 and 7", lambda: divide("2 in", (5, 7)), "1 ms"),
        ("`divide` between any", lambda: divide("12 1/32 in", 5, bodies="any"), "1 ms"),
        ("`share` among two kinds, 24 in", lambda: share("24 in", (4, 2)), "1 ms"),
        ("`share` among three kinds, 24 in", lambda: share("24 in", (4, 2, 3)), "1 ms"),
        ("`places`, a grid of 6 by 4", lambda: places(across=(6, "1 in"), up=(4, "2 in")), "1 ms"),
        ("`snap`", lambda: snap("10.3 mm"), "1 ms"),
        ("`pack` from 81 gauge blocks", lambda: pack("5.0073 in", stack), "1 ms"),
        ("`identify`", lambda: identify("0.108 in", "48 tpi"), "10 ms"),
    ):
        yield Row(what, told(each(work, 20)), "", most)


def sums() -> Iterator[Row]:
    """Sizes that add up, reconciled; as the processor counts it."""
    for count, most in ((3, "10 ms"), (6, "100 ms")):
        right, wrong = bench_reconcile.costs(count)
        yield Row(
            f"`reconcile`, {count} free sizes", f"{right:.0f} ms", f"{wrong:.0f} ms with a misreading", most
        )
        least, most_open = bench_reconcile.open_costs(count)[0]
        yield Row(
            f"`reconcile`, {count} free sizes, the reader's step open too",
            f"{least:.0f} to {most_open:.0f} ms",
            "",
            most,
        )


def sheets() -> Iterator[Row]:
    """Sheets worked out and written, the least of five, and a name set again in one."""
    bench_sheet.measured(100)
    per_line = []
    for lines, most in ((1_000, "0.12 s"), (10_000, "linear")):
        seconds = min(runs[0] + runs[-1] for runs in (bench_sheet.measured(lines) for _ in range(5)))
        per_line.append(seconds / lines)
        beside = f"{per_line[-1] / per_line[0]:.2f} times as much a line"
        yield Row(f"a sheet of {lines:,} lines, with its text", f"{seconds:.2f} s", beside, most)
    bench_page.measured(100)
    drawings, parts = bench_page.measured(1_000)
    yield Row(f"a page of 1,000 lines with {drawings} drawings", f"{sum(parts):.2f} s", "", "1 s")
    yield Row("a name set again, 199 lines rest on it", told(set_again()), "", "20 ms")


def set_again() -> float:
    """Processor seconds until a sheet of 200 lines is as it is after its first name is set again."""
    from fractions_shop.sheet.living import LivingSheet
    from fractions_shop.sheet.rows import Rows
    from fractions_shop.show.sheet import Sheet

    text = "\n".join(["a = 2 1/32 in", *(f"b{n} = a + {n} / 64 * 1 in" for n in range(1, 200))])
    taken = []
    for n in range(5):
        sheet = LivingSheet(Sheet.from_text(""), Rows.of(text.encode()))
        started = process_time()
        sheet.enter(f"a = {n + 3} in")
        taken.append(process_time() - started)
    return min(taken)


def at_the_prompt() -> Iterator[Row]:
    """A key to the screen, and the start."""
    ours, bare, _ = bench_prompt.keys()
    yield Row(
        "a key at the prompt, to the screen",
        told(median(ours)),
        f"{median(ours) / median(bare):.2f} of a bare prompt of prompt_toolkit",
        "2",
    )
    toolkit, start = bench_prompt.starts(
        "import prompt_toolkit.application; print('ready')", bench_prompt.START
    )
    yield Row(
        "start of the prompt", told(start), f"{start / toolkit:.1f} of loading prompt_toolkit alone", ""
    )


def found_right() -> Iterator[Row]:
    """How often sizes of real texts are read as meant, and worn screws are named; no times."""
    sys.path.insert(0, str(Path(__file__).parents[1]))
    import score_written

    rows = score_written.rows()
    verdicts = [score_written.verdict(*row) for row in rows]
    right, wrong = verdicts.count("right") / len(rows), verdicts.count("wrong")
    yield Row(
        f"{len(rows)} sizes of public texts", f"{right:.1%} read as meant", f"{wrong} wrongly", "95 %, none"
    )
    every = [t for t in bench_identify.all_threads() if t.standing != "beyond the standard"]
    association = [t for t in every if t.series == "BA"]
    for name, pool, asked in (("all series", every, "95 %, 99 %"), ("BA", association, "80 %, 95 %")):
        first, three, _, best = bench_identify.shares(pool, "up to 3 % out", bench_identify.SCREWS)
        yield Row(
            f"{bench_identify.SCREWS} worn screws of {name}, pitch by leaf",
            f"{first:.1%} named first, {three:.1%} among three",
            f"best possible {best:.1%}",
            asked,
        )


PARTS = (from_nothing, at_work, reading, spacing, sums, sheets, at_the_prompt, found_right)
