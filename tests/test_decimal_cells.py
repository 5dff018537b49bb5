"""The quick way through a column says what the full way says, for every form of cell and every option."""

from __future__ import annotations

import random
from itertools import product

import pytest

from fractions_shop import Rule
from fractions_shop.command.column import Column
from fractions_shop.layout import decimal_cells
from fractions_shop.layout.bulk import SizeTexts, plain_pair
from fractions_shop.layout.decimal_cells import DecimalCells

RULES = ("64ths", "32nds", "8ths", "100ths", "1000ths", "7ths", "1sts", "mm", "half mm")
PLACES = (0, 1, 3, 6, 12)
OPTIONS = list(
    product(RULES, PLACES, (None, "mm", "in", "thou"), ("point", "comma"), (",", ";", "\t", "."), ("fault", "note"), (False, True))
)  # fmt: skip
UNITS = (
    "mm",
    "in",
    "cm",
    "m",
    "thou",
    "ft",
    "yd",
    "µm",
    '"',
    "'",
    "MM",
    "inches",
    "",
    "parsec",
    "²",
    "in mm",
)
LOOKS = (
    "{n} {unit}", "{n}{unit}", "{n}  {unit}", " {n} {unit}", "{n} {unit} ", "-{n} {unit}",
    "+{n} {unit}", "0{n} {unit}", "{n}/64 {unit}", "{whole} 1/{k} {unit}", "{whole}/{k} {unit}", "{n}{sign} {unit}",
    "{n}{sign}5 {unit}", "{sign}{whole} {unit}", "{n}e3 {unit}", "1{other}{n} {unit}", "{wide} {unit}", "{n} {unit} {unit}",
)  # fmt: skip


def number(choose: random.Random, sign: str) -> str:
    """A number in decimals: ordinary, round, very small, or long."""
    figures = choose.choice((1, 2, 3, 4, 6, 12))
    whole = str(choose.randrange(10 ** choose.choice((0, 1, 2, 3, 6))))
    if choose.random() < 0.2:
        return whole
    if choose.random() < 0.1:
        return f"{whole}{sign}{'0' * figures}"
    return f"{whole}{sign}{choose.randrange(10 ** choose.choice((1, figures))):0{figures}}"


def cell(choose: random.Random, sign: str) -> str:
    n = number(choose, sign)
    return choose.choice((LOOKS[0], choose.choice(LOOKS))).format(
        n=n, unit=choose.choice(UNITS), whole=choose.randrange(1, 400), k=choose.choice((2, 3, 8, 64, 127, 128)),
        sign=sign, other="." if sign == "," else ",", wide="".join(chr(ord(c) + 0xFEE0) if c.isdigit() else c for c in n),
    )  # fmt: skip


def column(
    rule: str, places: int, unit: str | None, decimal: str, delimiter: str, doubtful: str, mm_first: bool
) -> Column:
    return Column("width", Rule(rule), unit, places, delimiter, doubtful, decimal, mm_first)


@pytest.mark.parametrize("part", range(8))
def test_a_cell_has_the_same_texts_by_the_quick_way_and_by_the_full_one(part):
    """What the quick way leaves to the full one is the same by itself, so it is not worked out here."""
    choose = random.Random(part)
    quick = 0
    for options in choose.sample(OPTIONS, 50):
        made = column(*options)
        for _ in range(250):
            text = cell(choose, "." if options[3] == "point" else ",")
            found = made._decimals.of(text)
            if found is not None:
                quick += 1
                assert (found, "", False) == made._work_out(text), (text, options)
    assert quick > 1000


def test_a_column_of_both_is_widened_the_same_without_the_quick_way(monkeypatch):
    choose = random.Random(8)
    lines = ["width\n", *(f"{cell(choose, '.')}\n" for _ in range(300))]
    lines += choose.choices(lines[1:], k=300)
    swift = Column("width")
    found = list(swift.widen(lines))
    monkeypatch.setattr(DecimalCells, "of", lambda self, cell: None)
    plainly = Column("width")
    assert found == list(plainly.widen(lines))
    for counted in ("rows", "bad", "doubted", "first_fault"):
        assert getattr(swift, counted) == getattr(plainly, counted)


@pytest.mark.parametrize("rule", RULES)
@pytest.mark.parametrize("places", PLACES)
def test_decimals_have_the_texts_of_their_exact_size(rule, places):
    """A thousand sizes each against whole-number arithmetic on the exact size, which tests/test_column.py holds to Fractions."""
    texts = SizeTexts(Rule(rule), places, mm_first=places == 3)
    cells = DecimalCells(texts, (127, 5), ",")
    choose = random.Random(f"{rule} {places}")
    written = 0
    for _ in range(1000):
        unit = choose.choice(("mm", "in", "cm", "thou", ""))
        decimals = choose.randrange(4)
        count = choose.randrange(1, 10**6)
        text = f"{count // 10**decimals}.{count % 10**decimals:0{decimals}}" if decimals else str(count)
        said = f"{text} {unit}".strip()
        pair = plain_pair(said, (127, 5))
        assert pair is not None
        found = cells.of(said)
        if found is not None:
            written += 1
            assert found == "," + ",".join(texts.of(*pair)), said
    assert written > 100


def test_what_is_kept_of_a_hostile_column_is_bounded(monkeypatch):
    monkeypatch.setattr(decimal_cells, "_MOST_RESTS", 50)
    monkeypatch.setattr(decimal_cells, "_MOST_PLANS", 3)
    texts = SizeTexts(Rule(64), 6)
    cells = DecimalCells(texts, None, ",")
    for n in range(1, 2000):
        said = f"{n / 1000:.{n % 6}f} {('mm', 'cm', 'in')[n % 3]}"
        pair = plain_pair(said)
        assert pair is not None
        found = cells.of(said)
        assert found is None or found == "," + ",".join(texts.of(*pair))
        kept = [plan for plan in cells._plans.values() if plan is not None]
        assert len(cells._plans) <= 3
        assert sum(len(plan.rests) for plan in kept) <= 50
