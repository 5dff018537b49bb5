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

import fractions_shop
from fractions_shop import InputError, Quantity, Session, Sheet, find_sizes, identify, recover, written
from fractions_shop.command.words import find
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


#: Calls of the library with a size from memory in each place where it takes one.
LITTLE = "No 90 drill"
CALLS = [
    "snap(LITTLE)", "snap(LITTLE, within='1/64 in')", "divide(LITTLE, 3)", "divide('1 in', 3, bodies=LITTLE)",
    "divide('1 in', 3, ends=LITTLE)", "divide(LITTLE, (2, 3))", "divide_for('1 in', 3, LITTLE)",
    "how_many('1 in', about=LITTLE)", "share(LITTLE, (1, 2))", "mark(LITTLE, 3)", "mark('1 in', 3, start=LITTLE)",
    "places(LITTLE, '1 in')", "places(('1 in', LITTLE), ('2 in', '1 in'))", "places('1 in', along=f'300 * {LITTLE}')",
    "bolt_circle(3, LITTLE)", "crown(3, across=LITTLE, radius='1 in')", "crown(3, across='1 in', radius='9 in', tallest=f'12 * {LITTLE}')",
    "drills(LITTLE)", "pack(LITTLE, ['0.001 in'])", "pack('1 in', [LITTLE])", "cut_from(LITTLE, {'a': ('0.001 in', 2)})",
    "cut_from('1 in', {'a': (LITTLE, 2)})", "fit(LITTLE, 'H7')", "fit(LITTLE, 'H7/g6')", "identify(LITTLE, '0.1 mm')",
    "recover(LITTLE, within='0.1 mm')", "recover([LITTLE, '2 in'], within='0.1 mm')", "reading(LITTLE, within='0.1 mm')",
    "scale_from('1 in', LITTLE)", "spanner(LITTLE)", "face(LITTLE, '1 in')", "hole(LITTLE, ('1 in', '1 in'))",
    "hole('1 in', (LITTLE, '1 in'))", "slot('1 in', LITTLE, ('1 in', '1 in'))",
    "walls(face('1 in', '1 in'), [hole(LITTLE, ('0.01 in', '0.5 in'))])",
    "walls(face('1 in', '1 in'), [hole('1/8 in', (LITTLE, '0.5 in')), slot('1/2 in', '1/8 in', ('1/2 in', '1/8 in'))])",
    "find_sizes(LITTLE)", "find_sizes(LITTLE)[0]", "written(LITTLE)", "read_column([LITTLE])", "Quantity(LITTLE) * 3",
]  # fmt: skip


@pytest.mark.parametrize("call", CALLS)
def test_no_answer_of_the_library_drops_the_word_of_a_size_it_was_given(call: str) -> None:
    """Snap, places, readings, walls and sizes found in a text said nothing."""
    result = eval(call, {**vars(fractions_shop), **{name: getattr(fractions_shop, name) for name in fractions_shop.__all__}, "LITTLE": LITTLE})  # fmt: skip
    for form, text in {
        "text": result.text(), "narrow text": result.text(40), "notebook": result._repr_html_(),
        "JSON": json.dumps(result.data()),
    }.items():  # fmt: skip
        assert "from memory" in " ".join(text.split()), form


@pytest.mark.parametrize("form", find.FORMS)
def test_find_tells_it_in_every_form(form: str) -> None:
    text = f"drilled {LITTLE} here, 2 1/32 in wide, and of 22 zinc gauge"
    said = "".join(find.written(text, find_sizes(text), form))
    assert ("from memory" in said, "one source" in said) == (True, True)


def test_how_far_a_measured_size_is_trusted_is_told_everywhere() -> None:
    """It was approximate, and did not say by how much."""
    size = Quantity.measured(10.31, "mm", within="0.02 mm")
    assert size.data()["within"] == {"inch": "1/1270", "mm": "1/50", "approximate": False}
    assert "approximate, within 0.02 mm" in size.text()
    assert "within</th><td>0.02 mm" in size._repr_html_()
    assert repr(size).endswith("approximate, within 1/50 mm)")
    assert fractions_shop.snap(size).data()["asked"]["within"]["mm"] == "1/50"
    assert "within" not in Quantity("10.31 mm").data()


def test_a_plain_number_of_a_text_is_no_slope() -> None:
    """It was told as so many ft a foot."""
    assert "4, no unit" in written("4").text()
    assert "a foot" not in written("4").text() + repr(written("2 1/32")) + repr(written("3 of 1/4 in"))
    assert "1/2 in a foot (1 in 24)" in written("1/2 in per ft").text()
