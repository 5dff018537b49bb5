"""`save` and `load`: a sheet goes through the prompt and nothing of it is lost."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop.prompt import commands, saving
from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.own_words import own_word
from fractions_shop.sheet.lines import read_lines
from fractions_shop.show.sheet import Sheet

SHEET = """\
## Specimen-slide cabinet
# measured in the attic

## Runner
width = 2 1/32 in  # fitted dry
bay = width / 5
# the back edge is eased
part runner: 24 of brass, 1/16 in by 1/4 in by 11 in; ease the back edge
check bay * 5 = width
early = late * 2
late = 3 in

## Frame
part frame: 2 of oak, bay by 1/2 in
# end
"""


def told(model: PromptModel, line: str, width: int = 300) -> str:
    word = own_word(line)
    assert word is not None
    return "\n".join(commands.run(model, *word, width))


@pytest.fixture
def path(tmp_path: Path) -> Path:
    made = tmp_path / "trays.shop"
    made.write_text(SHEET, encoding="utf-8")
    return made


def test_a_sheet_loaded_and_saved_over_has_all_that_it_had(path: Path) -> None:
    before = Sheet.read(path)
    model = PromptModel()
    assert told(model, f"load {path}").endswith(
        "4 statements answered, 1 not; 2 part lines left to the sheet command"
    )
    assert told(model, f"save over {path}") == (
        f"4 statements written to {path}, and the rule first; 9 other lines that were loaded stand where they stood"
    )
    rows = path.read_text(encoding="utf-8").splitlines()
    rows.remove("rule 64ths")
    assert rows == SHEET.splitlines()
    after = Sheet.read(path)
    assert after.title == before.title == "Specimen-slide cabinet"
    assert (after.ok, after.parts, after.sizes) == (True, before.parts, before.sizes)


def test_saving_again_and_again_adds_nothing(path: Path) -> None:
    texts = []
    for _ in range(3):
        model = PromptModel()
        told(model, f"load {path}")
        told(model, f"save over {path}")
        texts.append(path.read_text(encoding="utf-8"))
    assert texts[0] == texts[1] == texts[2]


def test_what_is_answered_after_loading_comes_at_the_end(path: Path) -> None:
    model = PromptModel()
    told(model, f"load {path}")
    model.enter("gap = 1/8 in")
    told(model, f"save over {path}")
    assert path.read_text(encoding="utf-8").endswith("# end\ngap = 1/8 in\n")


def test_undo_takes_statements_and_leaves_notes_and_parts(path: Path) -> None:
    path.write_text("## Tray\na = 2 in\n# a note\nb = a * 2\npart p: 2 of oak, 1 in\n")
    model = PromptModel()
    told(model, f"load {path}")
    told(model, "undo")
    told(model, "undo")
    told(model, f"save over {path}")
    assert path.read_text().splitlines() == [
        "## Tray", "rule 64ths", "2 in", "# a note", "part p: 2 of oak, 1 in",
    ]  # fmt: skip


LOSSES = {
    "title": "## Runner",
    "note": "# fitted dry",
    "part": "part runner: 24 of brass",
    "comment": "a = 2 in # fitted dry",
    "no statement": "slats of oak, as found",
}


@pytest.mark.parametrize("what", LOSSES)
def test_what_the_session_has_not_is_not_written_over(what: str, path: Path) -> None:
    path.write_text(f"a = 2 in\n{LOSSES[what]}\n")
    before = path.read_bytes()
    model = PromptModel()
    model.enter("a = 3 in")
    with pytest.raises(commands.Refused) as caught:
        told(model, f"save over {path}")
    assert str(caught.value) == (
        f"{path} has what this session has not, and it would be lost: line 2, {LOSSES[what]}; "
        "load it first, or save to another file"
    )
    assert path.read_bytes() == before
    told(model, f"load {path}")
    told(model, f"save over {path}")
    assert LOSSES[what] in path.read_text().splitlines()


def test_statements_alone_may_be_written_over(path: Path) -> None:
    path.write_text("rule 64ths\na = 2 in\n\n#\n")
    model = PromptModel()
    model.enter("a = 3 in")
    told(model, f"save over {path}")
    assert path.read_text() == "rule 64ths\na = 3 in\n"


@pytest.mark.parametrize("data", [b"\xff\xfe\x00", b"2 in\n" * 300_000], ids=["no text", "too long"])
def test_a_file_that_is_no_sheet_is_not_written_over(data: bytes, path: Path) -> None:
    path.write_bytes(data)
    model = PromptModel()
    model.enter("a = 3 in")
    with pytest.raises(commands.Refused, match="; save to another file"):
        told(model, f"save over {path}")
    assert path.read_bytes() == data


def test_a_load_that_is_interrupted_loses_nothing_either(path: Path) -> None:
    model = PromptModel()
    shown: Iterator[str] = commands.run(model, "load", str(path), 300)
    next(shown)
    shown.close()  # type: ignore[attr-defined]
    told(model, f"save over {path}")
    rows = path.read_text(encoding="utf-8").splitlines()
    rows.remove("rule 64ths")
    assert rows == SHEET.splitlines()


def test_only_a_line_end_ends_a_line(path: Path) -> None:
    """A page break, or a break of line inside a note, made a statement of the note's rest."""
    note = "# wide\u2028late = 9 in\x0b\x0c\x85early = 8 in"
    path.write_text(f"a = 2 in\n{note}\n", encoding="utf-8")
    model = PromptModel()
    told(model, f"load {path}")
    assert set(model.names) == {"a", "ans"}
    told(model, f"save over {path}")
    assert path.read_text(encoding="utf-8").split("\n")[2] == note


@pytest.mark.skipif(os.name != "posix", reason="of a POSIX system")
def test_saving_over_keeps_mode_link_and_neighbours(path: Path, tmp_path: Path) -> None:
    path.write_text("a = 2 in\n")
    path.chmod(0o600)
    (tmp_path / "trays.shop.new").write_text("mine")
    (tmp_path / "link").symlink_to("trays.shop")
    model = PromptModel()
    model.enter("a = 3 in")
    told(model, f"save over {tmp_path / 'link'}")
    assert path.read_text() == "rule 64ths\na = 3 in\n"
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert (tmp_path / "link").is_symlink()
    assert (tmp_path / "trays.shop.new").read_text() == "mine"
    assert sorted(p.name for p in tmp_path.iterdir()) == ["link", "trays.shop", "trays.shop.new"]


@pytest.mark.parametrize("name", ["x" * 300, "a\0b", "x" * 5000])
def test_a_name_that_no_file_can_have_is_refused(name: str) -> None:
    model = PromptModel()
    model.enter("2 in")
    for line in (f"save {name}", f"save over {name}", f"load {name}"):
        with pytest.raises(commands.Refused, match=r"cannot be (read|written)"):
            told(model, line)


_ROWS = st.sampled_from(
    ["", "# note", "## Title", "a = 2 in", "b = a / 3", "a = 1/4 in", "b * 2", "ans + 1 mm", "part p: 2 of oak, 1 in",
     "parts: 3", "nonsense here", "rule 32nds", "rule mm", "check a = 2 in", "c = d", "d = 3 mm # dry", "undo", "  x = 1 ft"]
)  # fmt: skip


@given(st.lists(_ROWS, max_size=12), st.lists(_ROWS, max_size=4), st.integers(0, 3))
def test_no_word_of_a_sheet_is_ever_lost(rows: list[str], more: list[str], undone: int) -> None:
    """Whatever is loaded, answered and taken back: titles, notes, parts and faults are in what is written."""
    import tempfile

    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "x.shop"
        path.write_text("".join(f"{row}\n" for row in [*rows, "z = 1 in"]))
        model = PromptModel()
        told(model, f"load {path}")
        for row in more:
            if own_word(row) is None:
                try:
                    model.enter(row)
                except ValueError:
                    continue
        for _ in range(undone):
            try:
                told(model, "undo")
            except commands.Refused:
                break
        told(model, f"save {path}2")
        written = Path(f"{path}2").read_text().splitlines()
        kinds = {
            line.text.strip()
            for line in read_lines("\n".join(rows))
            if line.kind in ("title", "note", "part")
        }
        assert kinds - {""} <= {row.strip() for row in written}
        try:
            told(model, f"save over {path}")
        except commands.Refused:
            return
        assert path.read_text().splitlines() == written


def test_the_bound_of_a_file_of_statements(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(saving, "MAX_BYTES", len(SHEET.encode()))
    told(PromptModel(), f"load {path}")
    monkeypatch.setattr(saving, "MAX_BYTES", len(SHEET.encode()) - 1)
    with pytest.raises(commands.Refused, match="is longer than a file of statements"):
        told(PromptModel(), f"load {path}")
