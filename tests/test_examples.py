"""The examples: what lies beside them is what they give now."""

from __future__ import annotations

import io
import sys
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from measuring import pdf_lines, pieces
from pypdf import PdfReader

from fractions_shop.errors import ShopError
from fractions_shop.show.sheet import Sheet

EXAMPLES = Path(__file__).parent.parent / "examples"
sys.path.insert(0, str(EXAMPLES))
renew = __import__("renew")
WRITTEN = EXAMPLES / "written"
SVG = "{http://www.w3.org/2000/svg}"


def test_every_sheet_and_script_is_among_those_renewed():
    assert {path.stem for path in EXAMPLES.glob("*.shop")} == set(renew.SHEETS)
    assert {path.stem for path in EXAMPLES.glob("*.py")} == {*renew.SCRIPTS, "renew"}
    assert {path.stem for path in EXAMPLES.glob("*.ipynb")} == set(renew.NOTEBOOKS)


def test_nothing_else_lies_beside_them():
    wanted = {
        f"{name}{end}"
        for name in renew.SHEETS
        for end in (".txt", ".md", ".csv", ".json", ".html", ".svg", ".pdf")
    }
    wanted |= {f"{name}{end}" for name in renew.MACHINED for end in (".dxf", ".xy")}
    wanted |= {f"{part.replace(' ', '-')}.svg" for part in renew.DRAWN.values()}
    assert {path.name for path in WRITTEN.iterdir()} == wanted | {f"{name}.txt" for name in renew.SCRIPTS}


@pytest.mark.parametrize("name", renew.SHEETS)
def test_a_sheet_of_the_examples_is_answered_whole(name):
    sheet = Sheet.read(EXAMPLES / f"{name}.shop").run()
    assert sheet.faults == ()
    assert sheet.ok
    assert len(sheet.checks) >= 4
    assert len(sheet.parts) >= 3


@pytest.mark.parametrize("name", renew.SHEETS)
def test_the_outputs_beside_a_sheet_are_current(name):
    for file, text in renew.outputs(name).items():
        assert (WRITTEN / file).read_bytes().decode("utf-8") == text, (
            f"python examples/renew.py writes {file} anew"
        )


@pytest.mark.parametrize(("sheet", "part"), renew.DRAWN.items())
def test_the_drawing_that_stands_alone_is_of_that_part_on_a_white_ground_and_rests_on_nothing_doubtful(
    sheet: str, part: str
) -> None:
    """It is shown where the ground may be dark."""
    root = ET.parse(WRITTEN / f"{part.replace(' ', '-')}.svg").getroot()
    (ground,) = root.findall(f"{SVG}rect")
    assert ground.attrib["fill"] == "#fff"
    assert root.attrib["color"] == "#000"
    (drawing,) = root.findall(f"{SVG}g")
    assert drawing.findtext(f"{SVG}title") == f"{part}, scale 1:1"
    assert float(ground.attrib["width"]) <= float(root.attrib["viewBox"].split()[2])
    with pytest.raises(
        ShopError, match="no part here is called lable frame; write one of label frame, frame"
    ):
        Sheet.read(EXAMPLES / f"{sheet}.shop").to_svg(part="lable frame")


@pytest.mark.parametrize("name", renew.SHEETS)
def test_no_drawing_of_the_examples_rests_on_a_belief(name: str) -> None:
    """They say what work it is, and read enough sizes to bear each other out."""
    assert "RESTS ON A BELIEF" not in Sheet.read(EXAMPLES / f"{name}.shop").to_svg()


@pytest.mark.parametrize("name", renew.SCRIPTS)
def test_the_output_beside_a_script_is_current(name):
    assert (WRITTEN / f"{name}.txt").read_text(encoding="utf-8") == renew.script_output(name)


@pytest.mark.parametrize("name", renew.NOTEBOOKS)
def test_what_a_notebook_shows_is_current(name):
    assert (EXAMPLES / f"{name}.ipynb").read_text(encoding="utf-8") == renew.notebook_text(name)


@pytest.mark.parametrize("name", renew.SHEETS)
def test_the_print_beside_a_sheet_is_current(name):
    """By its words and strokes: another version of the library may order its bytes otherwise."""
    pytest.importorskip("fontpkg_fira_sans", reason="the fonts of the extra `print` are not installed")
    old = (WRITTEN / f"{name}.pdf").read_bytes()
    new = Sheet.read(EXAMPLES / f"{name}.shop").to_pdf()
    assert _words(old) == _words(new)
    assert len(pieces(pdf_lines(old))) == len(pieces(pdf_lines(new))) > 0


@pytest.mark.parametrize("name", renew.MACHINED)
def test_the_machine_file_beside_a_sheet_is_current(name):
    """By its shapes: another version of the library may order its bytes otherwise."""
    ezdxf = pytest.importorskip("ezdxf", reason="the extra `machine` is not installed")

    def shapes(text: str) -> list[tuple[str, str]]:
        space = ezdxf.read(io.StringIO(text)).modelspace()
        return [(entity.dxftype(), entity.dxf.layer) for entity in space]

    old = (WRITTEN / f"{name}.dxf").read_text(encoding="utf-8")
    assert shapes(old) == shapes(Sheet.read(EXAMPLES / f"{name}.shop").to_dxf()) != []


def _words(raw: bytes) -> list[str]:
    return " ".join(page.extract_text() for page in PdfReader(io.BytesIO(raw)).pages).split()


def test_the_sheets_between_them_use_every_kind_of_line():
    text = "\n".join((EXAMPLES / f"{name}.shop").read_text(encoding="utf-8") for name in renew.SHEETS)
    for word in ("recover", "divide", "mark", "thread", "identify", "substitute", "drill", "pack", "fit", "crown",
                 "snap", "check", "rule", "part", "± ", "SWG", "tapping("):  # fmt: skip
        assert word in text, word
