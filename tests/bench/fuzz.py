"""Fuzz the reader with made and bent lines, sheets and columns: only faults in words, and quickly.

Run it by itself: python tests/bench/fuzz.py --statements 700000 --sheets 4000 --columns 12000
A seed makes the same lines again. Each line is timed by the CPU that it took (answer, text and
JSON object together); the slowest are run again by themselves, so that a busy moment is not
taken for a slow line. Nothing but InputError may come out of a statement; a sheet may raise
nothing at all, a column its HeaderError. The worst of each kind are printed at the end.
"""

from __future__ import annotations

import argparse
import heapq
import json
import os
import random
import resource
import signal
import sys
import traceback
import unicodedata
from collections import Counter
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from time import process_time

sys.path.insert(0, str(Path(__file__).parents[1]))

from hostile import Chooser, column, line, sheet

from fractions_shop import Session, read
from fractions_shop.command.column import Column, HeaderError
from fractions_shop.errors import InputError
from fractions_shop.layout.bulk import plain_pair
from fractions_shop.size.notation import read_plain

#: Milliseconds that a line of 1,000 characters may take.
ALLOWED = 50.0
#: Seconds after which a line counts as hanging.
HANGS = 20.0
#: No name lasts longer than this many statements.
SITTING = 24
#: What is named at the start of each sitting.
FIRST = ("a = 2 1/32 in", "b = 10 mm ± 2 thou", "pitch = 13/32 in", "width = 3", "bay = 12 deg")


#: Kinds of character that a terminal acts upon, or that turn a line about.
OBEYED = {"Cc", "Cf", "Cs", "Zl", "Zp"}


class Hang(BaseException):
    """A line that does not come back."""


@dataclass
class Tally:
    """What came of every line of one sort, its slowest, and its faults."""

    what: str
    counts: Counter[str] = field(default_factory=Counter)
    seconds: float = 0.0
    whole: float = 0.0
    slowest: list[tuple[float, str]] = field(default_factory=list)
    faults: dict[str, str] = field(default_factory=dict)

    def took(self, seconds: float, text: str) -> None:
        self.seconds += seconds
        if len(self.slowest) < 12:
            heapq.heappush(self.slowest, (seconds, text))
        elif seconds > self.slowest[0][0]:
            heapq.heapreplace(self.slowest, (seconds, text))

    def broke(self, error: BaseException, text: str) -> None:
        last = traceback.extract_tb(error.__traceback__)[-1]
        where = f"{type(error).__name__} at {Path(last.filename).name}:{last.lineno}: {str(error)[:120]}"
        self.counts["BROKE"] += 1
        key = f"{type(error).__name__} {Path(last.filename).name}:{last.lineno}"
        if key not in self.faults:
            self.faults[key] = f"{where}\n      {text!r}"
            print("BROKE", self.what, self.faults[key], flush=True)


def _ring(signum: int, frame: object) -> None:
    raise Hang(f"no answer in {HANGS} s of CPU")


def statement(bench: Session, text: str) -> str:
    """Answer, text and object of one statement; what came of it, in a word."""
    try:
        answer = bench.answer(text)
    except InputError as error:
        return _in_words(error, text)
    if answer is None:
        return "blank"
    assert answer.text(), "an answer without words"
    json.dumps(answer.data(), allow_nan=False)
    return "answered"


def _in_words(error: InputError, text: str) -> str:
    assert error.message, "a fault without words"
    assert 0 <= error.start <= max(error.end, len(text)), "a fault out of place"
    said = str(error).translate(dict.fromkeys(b"\t\n"))
    assert not OBEYED.intersection(map(unicodedata.category, said)), "a fault that a terminal would obey"
    return "refused"


def one_sheet(text: str) -> str:
    from fractions_shop.show.sheet import Sheet

    job = Sheet.from_text(text).run()
    _ = job.checks, job.parts, job.ok
    job.to_text()
    job.to_markdown()
    job.to_csv()
    json.loads(job.to_json())
    job.to_html()
    return "worked"


def one_column(lines: list[str]) -> str:
    try:
        head = lines[0]
        comma = next((sign for sign in ";\t" if sign in head), ",")
        done = "".join(Column("size", unit="mm", delimiter=comma).widen(lines))
    except HeaderError:
        return "no such heading"
    return f"{'widened' if done else 'nothing'}"


def again(run: Callable[[], object]) -> float:
    """The least CPU of three runs."""
    best = float("inf")
    for _ in range(3):
        started = process_time()
        run()
        best = min(best, process_time() - started)
    return best


def fuzz_statements(r: random.Random, number: int) -> Tally:
    tally = Tally("statements")
    bench, said = Session(), [""]
    for n in range(number):
        if n % SITTING == 0:
            bench, said = Session(), list(FIRST)
            for row in FIRST:
                bench.answer(row)
        kind, text = line(r)
        said.append(text)
        started = process_time()
        signal.setitimer(signal.ITIMER_VIRTUAL, HANGS)
        try:
            tally.counts[f"{kind}: {statement(bench, text)}"] += 1
            if n % 5 == 0:
                _library(text)
        except Hang as error:
            tally.broke(error, text)
        except Exception as error:
            tally.broke(error, text)
        finally:
            signal.setitimer(signal.ITIMER_VIRTUAL, 0)
        tally.took(process_time() - started, "\n".join(said[-1:] if n % 2 else said))
        if n % 100_000 == 99_999:
            print(f"{n + 1:,} statements, {peak():.0f} MB at most", flush=True)
    tally.slowest = sorted(
        ((again(lambda t=text: _sitting(t)), text) for _, text in tally.slowest), reverse=True
    )
    return tally


def _library(text: str) -> None:
    for reader in (read_plain, plain_pair, read):
        with suppress(InputError):
            reader(text)


def _sitting(text: str) -> None:
    bench = Session()
    for row in text.split("\n"):
        with suppress(Exception):
            statement(bench, row)


def fuzz_wholes(
    what: str, r: random.Random, number: int, make: Callable[[Chooser], object], run: Callable[[object], str]
) -> Tally:
    tally = Tally(what)
    for _ in range(number):
        made = make(r)
        rows = len(made) if isinstance(made, list) else made.count("\n") + made.count("\r") + 1
        tally.counts["rows"] += rows
        started = process_time()
        signal.setitimer(signal.ITIMER_VIRTUAL, HANGS * 3)
        try:
            tally.counts[run(made)] += 1
        except Hang as error:
            tally.broke(error, repr(made))
        except Exception as error:
            tally.broke(error, repr(made))
        finally:
            signal.setitimer(signal.ITIMER_VIRTUAL, 0)
        tally.took((process_time() - started) / rows, repr(made))
        tally.whole += process_time() - started
    tally.slowest.sort(reverse=True)
    return tally


def peak() -> float:
    """The most memory that this process has held, in MB."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def report(tally: Tally, show: int) -> None:
    total = sum(n for kind, n in tally.counts.items() if kind != "rows")
    print(f"\n{tally.what}: {total:,} in {tally.whole or tally.seconds:.0f} s of CPU")
    for kind, n in sorted(tally.counts.items()):
        print(f"  {n:>9,}  {kind}")
    print("  the slowest, in ms (a row of it, for sheets and columns):")
    for seconds, text in tally.slowest[:show]:
        mark = "  OVER" if seconds * 1000 > ALLOWED else ""
        last = text.rpartition("\n")[2]
        print(f"  {seconds * 1000:9.1f}{mark}  {len(last)} characters: {last[:110]!r}")
    for fault in tally.faults.values():
        print(f"  BROKE {fault}")


def main() -> int:
    parse = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parse.add_argument("--seed", type=int, default=1883)
    parse.add_argument("--statements", type=int, default=20_000)
    parse.add_argument("--sheets", type=int, default=200)
    parse.add_argument("--columns", type=int, default=500)
    parse.add_argument("--show", type=int, default=8)
    asked = parse.parse_args()
    signal.signal(signal.SIGVTALRM, _ring)
    statement(Session(), "1 hand")  # pint and the tables load once
    for warm in (
        "thread 6 BA",
        "drill 1 mm",
        "gauge 1 mm",
        "recover 1 mm among drills, gauges, threads, stock",
    ):
        statement(Session(), warm)
    start = peak()
    tallies = []
    if asked.statements:
        tallies.append(fuzz_statements(random.Random(asked.seed), asked.statements))
    if asked.sheets:
        tallies.append(fuzz_wholes("sheets", random.Random(asked.seed + 1), asked.sheets, sheet, one_sheet))
    if asked.columns:
        tallies.append(
            fuzz_wholes("columns", random.Random(asked.seed + 2), asked.columns, column, one_column)
        )
    for tally in tallies:
        report(tally, asked.show)
    print(
        f"\nmemory: {start:.0f} MB before, {peak():.0f} MB at most; seed {asked.seed}; Python {sys.version.split()[0]}"
    )
    return 1 if any(tally.faults for tally in tallies) else 0


if __name__ == "__main__":
    os.environ.setdefault("PYTHONHASHSEED", "0")
    sys.exit(main())
