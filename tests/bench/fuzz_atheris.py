"""Coverage-guided fuzzing of statements, columns and sheets by atheris; only faults in words may come out.

Install atheris beside the package (pip install atheris; it is no part of the test extra) and
run by itself, with whatever options libFuzzer takes:

    python tests/bench/fuzz_atheris.py -max_total_time=300 -max_len=1000
    python tests/bench/fuzz_atheris.py -atheris_runs=20000

The first byte says what the rest is: text as it stands, choices for a statement by the grammar,
for a sheet, or for a column.
"""

from __future__ import annotations

import sys
from contextlib import suppress
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

import atheris

# Compiled modules are left alone: lark and the regular expressions are not ours to cover.
with atheris.instrument_imports(include=["fractions_shop"]):
    from fractions_shop import (
        Session,
        requests,  # noqa: F401 - loaded now, so that they are covered
    )
    from fractions_shop.command.column import Column, HeaderError
    from fractions_shop.errors import InputError
    from fractions_shop.language import grammar  # noqa: F401 - loaded now, so that they are covered
    from fractions_shop.requests import (  # noqa: F401
        checking,
        data,
        hardware,
        making,
        spacing,
    )
    from fractions_shop.show.sheet import Sheet

from hostile import Bytes, bent, column, disguised, sheet, statement

#: Names that every sitting begins with.
FIRST = ("a = 2 1/32 in", "b = 10 mm ± 2 thou", "pitch = 13/32 in", "width = 3", "bay = 12 deg")


def answer(line: str) -> None:
    """One statement after the named sizes, its text and its object."""
    bench = Session()
    for row in FIRST:
        bench.answer(row)
    with suppress(InputError):
        found = bench.answer(line)
        if found is not None:
            found.text()
            found.data()


def one_input(raw: bytes) -> None:
    """What atheris calls: the first byte chooses what the others make."""
    kind, rest = (raw[0] % 6 if raw else 0), raw[1:]
    chooser = Bytes(rest)
    if kind <= 1:
        answer(rest.decode("utf-8", "surrogateescape"))
    elif kind == 2:
        answer(statement(chooser))
    elif kind == 3:
        answer(bent(chooser, disguised(chooser, statement(chooser))))
    elif kind == 4:
        with suppress(HeaderError):
            list(Column("size", unit="mm").widen(column(chooser, 6)))
    else:
        job = Sheet.from_text(sheet(chooser, 6)).run()
        job.to_text()
        job.to_json()


if __name__ == "__main__":
    atheris.Setup(sys.argv, one_input)
    atheris.Fuzz()
