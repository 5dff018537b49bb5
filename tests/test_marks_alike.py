"""What is at fault, doubtful, believed, approximate or of unsound standing is so marked in every exit of a bent sheet."""

from __future__ import annotations

from importlib.util import find_spec
from pathlib import Path
from random import Random

import bent_text
import pytest
from marked_alike import breaches

MAKERS = (Path(__file__).parent / "data" / "maker_sheets.txt").read_text("utf-8").split("=====\n")
PRINTS = find_spec("fontpkg_fira_sans") is not None
TEXTS = bent_text.Texts.read()

#: What was once told by some exits and not by others.
UNTOLD = """\
long = 21/2 in
dia reads 3.0 mm
part pin: 4 of brass, round 6 BA by long
part lid: 2 of tin, 12 in by 6 in by 1/16 in
hole in lid: dia at 1 in by 1 in
hole in lid: dia at nowhere by 1 in
part screw: nothing of steel, round 6 BA by 1/2 in
stock tin: sheet 1/16 in, 12 in by 24 in
mrak 2 in into 5
prat rail: 2 of tin
"""


@pytest.mark.parametrize("sheet", [*MAKERS, UNTOLD], ids=lambda sheet: sheet.splitlines()[0])
def test_every_exit_of_a_makers_sheet_marks_the_same(sheet: str) -> None:
    assert list(breaches(sheet, heavy=PRINTS)) == []


@pytest.mark.parametrize("seed", range(12))
def test_every_exit_of_a_bent_sheet_marks_the_same(seed: int) -> None:
    assert list(breaches(bent_text.spoilt_sheet(Random(seed), TEXTS))) == []
