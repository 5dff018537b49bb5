"""Every word of every unit in every written form, and every rule in every request, against figures of our own.

The factors are typed here from the international yard and pound agreement (US Federal Register, 1 July
1959: the inch is 25.4 mm exactly) and the SI prefixes (BIPM, The International System of Units, 9th
edition, table 7); the arithmetic on them is Fraction's. What is found wrong is handed back as sentences.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from fractions_shop import Limits, Quantity, Session, read
from fractions_shop.command.column import Column
from fractions_shop.errors import ShopError
from fractions_shop.prompt.word_offers import word_offers
from fractions_shop.show.ruler import drawn
from fractions_shop.size.notation import read_plain
from fractions_shop.size.rule import METRIC_RULES, Rule

INCH = Fraction(254, 10)
FACTORS: dict[str, Fraction] = {
    **dict.fromkeys(("in", "inch", "inches", "ins", "in.", "ins.", '"', "''"), INCH),
    **dict.fromkeys(("ft", "foot", "feet", "ft.", "'"), 12 * INCH),
    **dict.fromkeys(("yd", "yds", "yard", "yards", "yd.", "yds."), 36 * INCH),
    **dict.fromkeys(("thou", "thous", "thousandth", "thousandths", "thou."), INCH / 1000),
    **dict.fromkeys(("mm", "millimetre", "millimetres", "millimeter", "millimeters"), Fraction(1)),
    **dict.fromkeys(("cm", "centimetre", "centimetres", "centimeter", "centimeters"), Fraction(10)),
    # With a stroke or points, as old British lists print them: common practice, no source.
    **dict.fromkeys(("m/m", "m.m.", "mm."), Fraction(1)),
    **dict.fromkeys(("c/m", "c.m.", "cm."), Fraction(10)),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), Fraction(1000)),
    **dict.fromkeys(("km", "kilometre", "kilometres", "kilometer", "kilometers"), Fraction(10**6)),
    **dict.fromkeys(("um", "µm", "micron", "microns", "micrometre", "micrometres"), Fraction(1, 1000)),
    **dict.fromkeys(("micrometer", "micrometers"), Fraction(1, 1000)),
}
RULES: dict[str, Fraction] = {
    **{f"{n}{'nds' if n == 32 else 'ths'}": INCH / n for n in (64, 32, 16, 8, 100, 50, 10, 7, 12, 128)},
    "10 mm": Fraction(10),
    "5 mm": Fraction(5),
    "mm": Fraction(1),
    "half mm": Fraction(1, 2),
}
#: The forms of the manual's table, and what each comes to, in quarters, since of a millimetre nobody has 32nds.
NUMBERS = {
    "2 1/4": Fraction(9, 4), "2-1/4": Fraction(9, 4), "2½": Fraction(5, 2), "2 1⁄4": Fraction(9, 4),
    "9/4": Fraction(9, 4), "2.03125": Fraction(65, 32), ".193": Fraction(193, 1000),
    "0·193": Fraction(193, 1000), "3": Fraction(3), "1/4": Fraction(1, 4), "-1/4": Fraction(-1, 4),
}  # fmt: skip


def wrong_units(factors: dict[str, Fraction]) -> list[str]:
    """What is wrong in any form with any of the words."""
    found = []
    for word, factor in factors.items():
        for text, size in _sizes(word, factor):
            found += _size_by_each_way(text, size)
        for text, limits, must in _limits(word, factor):
            found += _limits_by_each_way(text, limits, must)
        if word.isalpha():
            for name, power in (("sq", 2), ("square", 2), ("cu", 3), ("cubic", 3)):
                found += _compared(f"2 1/2 {name} {word}", (Fraction(5, 2) * factor**power, power), must=True)
            target = Session().answer(f"7 in as {word}")
            if target is None or target.result.target.mm != factor:
                found.append(f"7 in as {word}: another unit")
        if word[0].isalpha() and "." not in word:
            found += _column("2.5", Fraction(5, 2) * factor, unit=word)
    return found


def _sizes(word: str, factor: Fraction) -> Iterator[tuple[str, Fraction]]:
    for number, value in NUMBERS.items():
        for blank in ("", " "):
            yield f"{number}{blank}{word}", value * factor


def _limits(word: str, factor: Fraction) -> Iterator[tuple[str, tuple[Fraction, Fraction], bool]]:
    """Limits in each style: text, least and greatest, and whether it must be read at all."""
    both, uneven = (2 - Fraction(1, 4), 2 + Fraction(1, 4)), (Fraction(19, 10), 2 + Fraction(2, 10))
    plain = word.isalpha()
    for text, (low, high), must in (
        (f"2 {word} ± 1/4 {word}", both, plain),
        (f"2 {word} +- 1/4 {word}", both, plain),
        (f"2{word} ±1/4{word}", both, plain),
        (f"2 {word} ± 1/4", both, False),
        (f"2 {word} +0.2/-0.1 {word}", uneven, plain),
        (f"2 {word} +0.2/-0.1", uneven, False),
        (f"2 {word} +0.2 {word}/-0.1 {word}", uneven, False),
        (f"2 {word} +0.2{word}/-0.1", uneven, False),
        (f"2 {word} -0.1/+0.2 {word}", uneven, plain),
    ):
        yield text, (low * factor, high * factor), must
    yield f"900 in ± 1/4 {word}", (900 * INCH - factor / 4, 900 * INCH + factor / 4), plain
    yield f"900 in +0.2/-0.1 {word}", (900 * INCH - factor / 10, 900 * INCH + factor / 5), plain


def _worth(value: object) -> object:
    if isinstance(value, Limits):
        return value.lower.value, value.upper.value
    return (value.value, value.power) if isinstance(value, Quantity) else value


def _compared(text: str, expected: object, must: bool) -> list[str]:
    """How the language and `read` take a text, where that is not as expected (or refused, if it may be)."""
    found = []
    for way, taken in (("language", lambda: Session().answer(text)), ("read", lambda: read(text))):
        try:
            answer = taken()
        except ShopError as error:
            found += [f"{way}: {text} is refused: {error}"] if must else []
            continue
        value = _worth(getattr(answer, "value", None) if way == "language" else answer)
        if value != expected:
            found.append(f"{way}: {text} is {value}, not {expected}")
    return found


def _size_by_each_way(text: str, size: Fraction) -> list[str]:
    found = _compared(text, (size, 1), must=True)
    plain = read_plain(text)
    if plain is not None and _worth(plain) != (size, 1):
        found.append(f"read_plain: {text} is {plain}, not {size} mm")
    return found + _column(text, size)


def _limits_by_each_way(text: str, limits: tuple[Fraction, Fraction], must: bool) -> list[str]:
    return _compared(text, limits, must)


def _column(cell: str, size: Fraction, unit: str | None = None) -> list[str]:
    quoted = '"' + cell.replace('"', '""') + '"'
    column = Column("s", unit=unit, delimiter=";")
    row = list(column.widen(["s\n", f"{quoted}\n"]))[1].rstrip("\n")
    cells = row[len(quoted) + 1 :].split(";")
    mm = cells[2] if len(cells) > 2 and cells[2] else "nothing"
    if mm == "nothing" or abs(Fraction(mm) - size) > Fraction(1, 2 * 10**6):
        return [f"column: {cell} is {mm}, not {float(size)} mm: {row}"]
    return []


def wrong_rules(rules: dict[str, Fraction]) -> list[str]:
    """What is wrong with any of the rules in any request, in a column and as it is drawn."""
    found = []
    for name, step in rules.items():
        if Rule(name).division.mm != step:
            found.append(f"{name} is divided in {Rule(name).division.mm} mm, not {step}")
        if name in METRIC_RULES and name not in [
            offer.text for offer in word_offers("snap 3 mm to ", {}, True)
        ]:
            found.append(f"{name} is not offered where a rule is named")
        for size in (Fraction(517, 10), Fraction(103, 10), Fraction(3175, 100), Fraction(2023, 8)):
            found += [f"{name}: {what}" for what in _one_size(name, step, size)]
    return found


def _one_size(name: str, step: Fraction, size: Fraction) -> Iterator[str]:
    text, near = f"{float(size)} mm", round(size / step) * step
    snapped = _result(f"snap {text} to {name}")
    if snapped.size.mm != near or snapped.error.mm != near - size:
        yield f"snap {text} gives {snapped.size.mm}, not {near}"
    if snapped.rule.division.mm != step:
        yield f"snap names {snapped.rule}"
    for coarser in Rule(name).coarser:
        if coarser.division.mm % step:
            yield f"a mark of {coarser} is none of this rule"
    steps = [coarser.division.mm for coarser in Rule(name).coarser]
    if steps != sorted(steps, reverse=True) or steps[-1] != step:
        yield f"its coarser rules are out of their order: {steps}"
    spacing = _result(f"divide {text} into 3 on {name}")
    if spacing.space.mm % step or abs(spacing.space.mm * 3 - max(size, 3 * step)) > Fraction(3, 2) * step:
        yield f"divide {text} into 3 gives {spacing.space.mm}"
    marks = _result(f"mark {text} into 3 on {name}")
    for n, mark in enumerate(marks.read):
        if mark.mm != round(size * n / 3 / step) * step:
            yield f"mark {text} reads {mark.mm} at {n}"
    column = Column("s", rule=Rule(name), delimiter=";")
    head, row = column.widen(["s\n", f"{text}\n"])
    shown = row.split(";")[head.split(";").index(f"nearest on {Rule(name).name}")]
    if _shown_mm(shown) != near:
        yield f"the column shows {shown} for {text}, not {float(near)} mm"
    lines = drawn([Quantity(near)], name, 100) if near else ()
    if lines:
        tick = _shown_mm(re.sub(r".*each tick is (?:about )?", "", lines[-1]).split(";")[0].split(",")[0])
        if tick is None or tick % step:
            yield f"the drawn ticks are of {tick} mm: {lines[-1]}"
        if str(float(near)).removesuffix(".0") not in lines[0] and _shown_mm(lines[0].strip(" ▼▽")) != near:
            yield f"the drawn mark is at {lines[0].strip()}, not {float(near)} mm"
    bench = Session()
    bench.answer(f"rule {name}")
    if bench.rule.division.mm != step:
        yield f"rule {name} sets {bench.rule}"


def _result(line: str) -> Any:
    answer = Session().answer(line)
    assert answer is not None
    return answer.result


def _shown_mm(text: str) -> Fraction | None:
    """The millimetres of a printed size such as `2 1/64 in` or `20.25 mm`, as a reader of paper takes it."""
    match = re.fullmatch(r"\s*((?:[0-9]+ )?[0-9]+/[0-9]+|[0-9.]+) (in|mm)\s*", text)
    if match is None:
        return None
    number = sum((Fraction(part) for part in match[1].split()), Fraction(0))
    return number * (INCH if match[2] == "in" else 1)
