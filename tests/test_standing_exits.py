"""The law of standing, row by row: no figure of any table comes out anywhere without its standing's word.

One row of every table, series and standing that needs a word goes through every form in which it may be shown.
"""

from __future__ import annotations

import io
import json
from collections.abc import Iterator
from typing import Any

import pytest
from pypdf import PdfReader

from fractions_shop import InputError, Session, Sheet, identify, recover
from fractions_shop.size.standing import is_sound
from fractions_shop.tables import rows
from fractions_shop.tables.drills import all_drills
from fractions_shop.tables.gauges import all_gauges
from fractions_shop.threads.series import told_apart
from fractions_shop.threads.thread import Thread


def _named() -> Iterator[tuple[str, str, str]]:
    """Kind, name as it is written and standing of all that may be named."""
    for each in all_drills():
        yield f"drill {each.series}", f"{each.name} drill", each.standing
    for gauge in all_gauges():
        yield f"gauge {gauge.series}", gauge.name, gauge.standing
    for screw in told_apart():
        yield f"thread {screw.series}", screw.name, screw.standing


def _one_of_each() -> dict[tuple[str, str], str]:
    found: dict[tuple[str, str], str] = {}
    for kind, name, standing in _named():
        if not is_sound(standing):
            found.setdefault((kind, standing), name)
    return found


ONE_OF_EACH = _one_of_each()


def _statements(kind: str, name: str) -> list[str]:
    if kind.startswith("thread"):
        parts = ("major", "pitch", "minor", "depth", "effective", "screw_minor", "tapping", "clearance")
        return [f"thread {name}", name, f"a = {name}", *(f"{part}({name})" for part in parts)]
    return [f"{kind.split()[0]} {name}", f"a = {name}", f"{name} + 1 in"]


def _forms(statement: str, answer: Any) -> dict[str, str]:
    """All that an answer, and a sheet of that one line, can be written as."""
    sheet = Sheet.from_text(f"{statement}\n")
    forms = {
        "text": answer.text(),
        "narrow text": answer.text(40),
        "short verdict": answer.gist(),
        "JSON": json.dumps(answer.data()),
        "sheet text": sheet.to_text(),
        "Markdown": sheet.to_markdown(),
        "page": sheet.to_html(),
        "sheet JSON": json.dumps(sheet.to_data()),
    }
    if hasattr(answer.result, "text"):
        forms["text of the library"] = answer.result.text()
    if statement.startswith("a = "):
        forms["CSV"] = sheet.to_csv()
        forms["PDF"] = " ".join(page.extract_text() for page in PdfReader(io.BytesIO(sheet.to_pdf())).pages)
    return {form: " ".join(text.split()) for form, text in forms.items()}


@pytest.mark.parametrize(
    ("kind", "standing"), ONE_OF_EACH, ids=[f"{kind}, {standing}" for kind, standing in ONE_OF_EACH]
)
def test_no_row_comes_out_without_its_word(kind: str, standing: str) -> None:
    for statement in _statements(kind, ONE_OF_EACH[kind, standing]):
        try:
            answer = Session().answer(statement)
        except InputError:
            # A taper has no single engagement, and no clearance is known over 64 mm.
            assert kind in ("thread R", "thread NPT", "thread G"), statement
            continue
        assert answer is not None
        # Clearance and depth may rest on another row: they have its standing.
        told = standing if answer.value is None else answer.value.standing
        for form, text in _forms(statement, answer).items():
            assert is_sound(told) or told in text, (statement, form)


def _taper_name(row: dict[str, str]) -> str:
    if "pin" not in row["kind"]:
        return f"taper {row['kind']} {row['number']}"
    return f"taper pin {row['number']} mm" if row["unit"] == "mm" else f"taper pin No {row['number']}"


TAPERS = {(row["kind"], row["standing"]): row for row in rows("tapers") if not is_sound(row["standing"])}


@pytest.mark.parametrize("row", TAPERS.values(), ids=map(_taper_name, TAPERS.values()))
def test_no_taper_comes_out_without_its_word(row: dict[str, str]) -> None:
    statement = _taper_name(row)
    answer = Session().answer(statement)
    assert answer is not None
    for form, text in _forms(statement, answer).items():
        assert row["standing"] in text, (statement, form)


@pytest.mark.parametrize(
    "statement", ["fit 1/2 in LC3", "fit 1/2 in FN2", "fit 20 mm H7/u6", "spanner 3/8 BSW"]
)
def test_no_fit_or_spanner_of_one_source_comes_out_without_its_word(statement: str) -> None:
    answer = Session().answer(statement)
    assert answer is not None
    for form, text in _forms(statement, answer).items():
        assert "one source" in text, form


UNSOUND = [each for each in told_apart() if not is_sound(each.standing)]


@pytest.mark.parametrize("screw", UNSOUND[::4], ids=[each.name for each in UNSOUND[::4]])
def test_recover_and_identify_tell_it_of_each_thread_they_name(screw: Thread) -> None:
    found = identify(screw.major, screw.pitch, count=12)
    assert f"{screw.name} ({screw.standing})" in " ".join(found.text().split())
    near = recover(screw.major, within="0.001 mm", among="threads")
    mine = [each for each in near.candidates if each.name == screw.name]
    for each in mine:
        assert each.size.standing == screw.standing
        assert screw.standing in near.text()
