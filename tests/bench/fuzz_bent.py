"""Spoil real text and ask for it: `nice -n 15 python tests/bench/fuzz_bent.py --statements 1000000 --sheets 3000`.

The lines are those of `tests/bent_text.py`: the manual, cases, examples and public texts, spoilt. Nothing but a fault
in our own words may come of a statement, nothing at all of a sheet, and of a column no more than what is wrong
with its head. Everything is told in every form: a statement's answer as text in three widths, in one line, as an
object held to the JSON Schema, and for a notebook; a sheet as text, Markdown, page, drawing, CSV, JSON and, one in ten,
PDF, DXF and coordinates. Lines over 50 ms of CPU and sheets over a second are run again by themselves, and told if
they take as long again. A seed makes the same lines again.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import re
import resource
import signal
import sys
import tempfile
import time
import traceback
from collections import Counter
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from time import process_time

sys.path.insert(0, str(Path(__file__).parents[1]))

import bent_text
from jsonschema import Draft202012Validator
from referencing import Registry, Resource

import fractions_shop
from fractions_shop import Session, read
from fractions_shop.command.column import Column, HeaderError
from fractions_shop.command.spreadsheet import lines as workbook_lines
from fractions_shop.command.streams import Stop
from fractions_shop.errors import InputError, ShopError
from fractions_shop.show.sheet import Sheet

PACKAGE = Path(fractions_shop.__file__).parent
SCHEMA = json.loads((PACKAGE / "requests/answer.schema.json").read_text("utf-8"))
SHEET_SCHEMA = json.loads((PACKAGE / "show/sheet.schema.json").read_text("utf-8"))
ANSWER = Draft202012Validator(SCHEMA)
WHOLE = Draft202012Validator(
    SHEET_SCHEMA, registry=Registry().with_resource(SCHEMA["$id"], Resource.from_contents(SCHEMA))
)
#: Seconds of CPU that a statement and a sheet may take.
A_LINE, A_SHEET, HANGS = 0.05, 1.0, 20.0
#: Control characters, line and paragraph ends, orders to write backwards, halves of pairs.
OBEYED = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\ud800-\udfff]")


class Hang(BaseException):
    """What does not come back."""


class Count:
    """What came of each kind, and every way in which something broke, told once."""

    def __init__(self) -> None:
        self.counts: Counter[str] = Counter()
        self.broken: Counter[str] = Counter()
        self.slow: list[tuple[float, str, str]] = []

    def broke(self, kind: str, error: BaseException, what: object) -> None:
        last = traceback.extract_tb(error.__traceback__)[-1]
        key = f"{type(error).__name__} {Path(last.filename).name}:{last.lineno}"
        self.broken[key] += 1
        if self.broken[key] <= 3:
            print(f"BROKE {kind}: {key}: {str(error)[:200]}\n   {what!r}", flush=True)

    def took(
        self, kind: str, seconds: float, allowed: float, again: Callable[[], object], what: object
    ) -> None:
        if seconds <= allowed:
            return
        best = seconds
        for _ in range(2):
            begun = process_time()
            with suppress(Exception):
                again()
            best = min(best, process_time() - begun)
        if best > allowed:
            self.slow.append((best, kind, repr(what)))
            print(f"SLOW {kind}: {best * 1000:.0f} ms: {repr(what)[-700:]}", flush=True)


def _ring(signum: int, frame: object) -> None:
    raise Hang(f"no answer in {HANGS} s of CPU")


def bounded(run: Callable[[], str]) -> str:
    signal.setitimer(signal.ITIMER_VIRTUAL, HANGS)
    try:
        return run()
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)


def clean(text: str) -> None:
    found = OBEYED.search(text)
    assert found is None, f"a sign that a terminal obeys: {found and found[0]!r}"


def statement(bench: Session, text: str, whole: bool) -> str:
    try:
        answer = bench.answer(text)
    except InputError as error:
        return refused(error, text)
    if answer is None:
        return "blank"
    assert answer.text(pictures=False)
    data = answer.data()
    json.dumps(data, allow_nan=False)
    if whole:
        for width in (20, 60, 200):
            clean(answer.text(width))
        assert answer.gist()
        answer._repr_html_()
        ANSWER.validate(data)
        with suppress(ShopError):
            read(text)
    return f"answered {answer.kind}"


def refused(error: InputError, text: str) -> str:
    assert error.message
    assert 0 <= error.start <= max(error.end, len(text))
    clean(str(error))
    return "refused"


def statements(r: random.Random, texts: bent_text.Texts, number: int, count: Count) -> None:
    done = 0
    while done < number:
        bench, said = Session(), []
        for line in bent_text.Sitting(r, texts).lines():
            done += 1
            said.append(line)
            begun, whole = process_time(), done % 12 == 0
            try:
                count.counts[bounded(lambda b=bench, t=line, w=whole: statement(b, t, w))] += 1
            except Hang as error:
                count.broke("statement", error, said)
                break
            except Exception as error:
                count.broke("statement", error, said)
            took = process_time() - begun
            if not whole:
                count.took("statement", took, A_LINE, lambda s=tuple(said): sat(s), said)
            if done % 50_000 == 0:
                told = sum(n for kind, n in count.counts.items() if kind.startswith("answered"))
                print(
                    f"{done:,} statements, {told:,} answered, {peak():.0f} MB at most, {time.process_time():.0f} s of CPU",
                    flush=True,
                )


def sat(said: tuple[str, ...]) -> float:
    """The last of some lines in a sitting of its own: only that one is to be timed, so the rest is taken off."""
    bench = Session()
    for line in said[:-1]:
        with suppress(ShopError):
            bench.answer(line)
    begun = process_time()
    with suppress(ShopError):
        statement(bench, said[-1], False)
    return process_time() - begun


def sheet(text: str, everything: bool) -> str:
    job = Sheet.from_text(text).run()
    clean(job.to_text())
    for made in (job.to_markdown(), job.to_csv(), job.to_html()):
        assert made
    data = json.loads(job.to_json())
    with suppress(ShopError):
        job.to_svg()
    if everything:
        WHOLE.validate(data)
        for write in (job.to_pdf, job.to_dxf, job.to_coordinates):
            with suppress(ShopError):
                write()
        for row in job.worked[:5]:
            assert row
    return "ok" if job.ok else "not ok"


def sheets(r: random.Random, texts: bent_text.Texts, number: int, count: Count) -> None:
    for n in range(number):
        text = bent_text.spoilt_sheet(r, texts)
        begun, everything = process_time(), n % 10 == 0
        try:
            count.counts["sheet " + bounded(lambda t=text, e=everything: sheet(t, e))] += 1
        except (Hang, Exception) as error:
            count.broke("sheet", error, text)
        if not everything:
            count.took("sheet", process_time() - begun, A_SHEET, lambda t=text: sheet(t, False), text)
        if n % 500 == 499:
            print(
                f"{n + 1:,} sheets, {peak():.0f} MB at most, {time.process_time():.0f} s of CPU", flush=True
            )


def columns(r: random.Random, texts: bent_text.Texts, number: int, count: Count) -> None:
    import csv
    import io

    import openpyxl

    for n in range(number):
        rows = bent_text.spoilt_table(r, texts)
        out = io.StringIO()
        for row in rows:
            with suppress(csv.Error):
                csv.writer(
                    out, lineterminator="\n", quoting=r.choice((csv.QUOTE_MINIMAL, csv.QUOTE_ALL))
                ).writerow(row)
        text = out.getvalue()
        if not r.randrange(3):
            at = r.randrange(len(text) + 1)
            text = text[:at] + r.choice(('"', "\x00", "\r", ";", '""', "\ufeff", "\t")) + text[at:]
        try:
            count.counts["csv " + widened(text.splitlines(keepends=True))] += 1
        except Exception as error:
            count.broke("csv", error, text)
        if n % 4:
            continue
        book = openpyxl.Workbook()
        for row in rows:
            with suppress(openpyxl.utils.exceptions.IllegalCharacterError, UnicodeError):
                book.active.append([r.choice((cell, cell, 1.25, 3, True, None)) for cell in row])
        raw = io.BytesIO()
        try:
            book.save(raw)
        except UnicodeError:
            continue
        data = bytearray(raw.getvalue())
        if not r.randrange(3):
            for _ in range(r.randrange(1, 20)):
                data[r.randrange(len(data))] = r.randrange(256)
        if not r.randrange(9):
            del data[r.randrange(len(data)) :]
        try:
            count.counts[
                "workbook " + widened(list(workbook_lines(io.BytesIO(bytes(data)), "a.xlsx", ",", None)))
            ] += 1
        except Stop:
            count.counts["workbook refused"] += 1
        except Exception as error:
            path = Path(tempfile.gettempdir()) / f"broken-{n}-{os.getpid()}.xlsx"
            path.write_bytes(bytes(data))
            count.broke("workbook", error, str(path))


def widened(lines: list[str]) -> str:
    try:
        done = "".join(Column("size", unit="mm", delimiter=",").widen(lines))
    except HeaderError:
        return "without the heading"
    return "widened" if done else "empty"


def prompts(r: random.Random, texts: bent_text.Texts, number: int, count: Count) -> None:
    """Random keys at the full prompt, in a folder of its own."""
    sys.path.insert(0, str(Path(__file__).parents[1] / "prompt"))
    from emulator import Terminal

    for _ in range(number):
        seed = r.randrange(2**32)
        own = random.Random(seed)
        wide, high = own.choice((80, 80, 40, 20, 132)), own.choice((40, 24, 10, 5))
        typed = bent_text.keys(own, texts, 400)
        try:
            with Terminal(wide, high, pictures=bool(own.randrange(2))) as t:
                for key in typed:
                    if not t.thread.is_alive():
                        break
                    t.press(key)
                t.press("\x1b", "\x03", "\x03")
                deadline = time.monotonic() + 120
                while t.thread.is_alive() and time.monotonic() < deadline:
                    t.press("\x03", "\x04")
                    t.thread.join(0.2)
                assert not t.thread.is_alive(), "the prompt does not leave"
                assert t.fault is None, t.fault
                if t.status != 0:
                    raise AssertionError(f"status {t.status}")
            count.counts["prompt left in order"] += 1
        except Exception as error:
            cause = t.fault if isinstance(t.fault, BaseException) else error
            count.broke("prompt", cause, (seed, wide, high, "".join(typed)))


def peak() -> float:
    """The most memory that this process has held, in MB."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def main() -> int:
    parse = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parse.add_argument("--seed", type=int, default=1927)
    for name, usual in (("statements", 20_000), ("sheets", 200), ("columns", 400), ("prompts", 0)):
        parse.add_argument(f"--{name}", type=int, default=usual)
    asked = parse.parse_args()
    signal.signal(signal.SIGVTALRM, _ring)
    home = tempfile.mkdtemp()
    os.environ.update(HOME=home, XDG_STATE_HOME=home, XDG_CONFIG_HOME=home)
    os.chdir(home)
    texts, count = bent_text.Texts.read(), Count()
    for warm in (
        "1 hand",
        "thread 6 BA",
        "drill 1 mm",
        "gauge 1 mm",
        "recover 1 mm among drills, gauges, threads, stock",
    ):
        statement(Session(), warm, True)
    statements(random.Random(asked.seed), texts, asked.statements, count)
    sheets(random.Random(asked.seed + 1), texts, asked.sheets, count)
    columns(random.Random(asked.seed + 2), texts, asked.columns, count)
    prompts(random.Random(asked.seed + 3), texts, asked.prompts, count)
    for kind, n in sorted(count.counts.items()):
        print(f"{n:>9,}  {kind}")
    print(f"broken: {dict(count.broken) or 'nothing'}; slow: {len(count.slow)}; {peak():.0f} MB at most; "
          f"{process_time():.0f} s of CPU; seed {asked.seed}")  # fmt: skip
    return int(bool(count.broken or count.slow))


if __name__ == "__main__":
    sys.exit(main())
