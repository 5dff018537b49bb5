"""Every statement of the cases and the manual, mistyped at random: advice is accepted, and keeps the figures typed."""

from __future__ import annotations

import random
import re
from fractions import Fraction
from pathlib import Path

import pytest
from advised import EXAMPLE, answered, digits, fault, offers, placed, same_figures, value
from case_files import blocks, statements, unescaped
from over_all import over

from fractions_shop.errors import InputError

HERE = Path(__file__).parent
_KEYS = "0123456789/.,'\"-+±x inmOl=()"
_RULES = re.compile(r"[0-9]+(?:ths|nds)")


def _written() -> list[str]:
    cases = [
        unescaped(line)
        for name in ("faults.txt", "statements.txt")
        for block in blocks(name)
        for line in statements(block)
    ]
    manual = [
        line for block in re.findall(r"```shop\n(.*?)```", (HERE.parent / "README.md").read_text("utf-8"), re.DOTALL)
        for line in block.splitlines() if line and not line.startswith((" ", "#"))
    ]  # fmt: skip
    return list(dict.fromkeys(line for line in [*cases, *manual] if line.strip() and len(line) < 120))


def _found_in_texts() -> dict[str, str]:
    """Sizes as they stand in public texts, and what each meant there: millimetres, or words."""
    rows = (HERE / "data" / "real_sizes.tsv").read_text("utf-8").splitlines()
    return {row.split("\t")[0]: row.split("\t")[1] for row in rows[1:]}


def _mistyped(line: str, dice: random.Random) -> str:
    """The line with a sign dropped, doubled or exchanged, or a word dropped, doubled or out of its turn."""
    slip, place = dice.randrange(7), dice.randrange(len(line))
    if slip == 0:
        return line[:place] + line[place + 1 :]
    if slip == 1:
        return line[:place] + line[place:][:1] + line[place:]
    if slip == 2:
        return line[:place] + dice.choice(_KEYS) + line[place + 1 :]
    if slip == 3:
        return line[:place] + line[place + 1 : place + 2] + line[place : place + 1] + line[place + 2 :]
    words = line.split(" ")
    one, other = dice.randrange(len(words)), dice.randrange(len(words))
    if slip == 4:
        return " ".join(words[:one] + words[one + 1 :])
    if slip == 5:
        return " ".join(words[: one + 1] + words[one:])
    words[one], words[other] = words[other], words[one]
    return " ".join(words)


def _broken(error: InputError) -> list[str]:
    """What the advice on a fault does wrong."""
    found = []
    for offer in offers(error):
        lines = [line for line in placed(offer, error) if answered(line)]
        if not lines:
            found.append(f"{offer.text!r} is refused in its turn")
        elif not (offer.worked or offer.completes or any(same_figures(line, error.text) for line in lines)):
            found.append(f"{offer.text!r} has other figures than those typed")
    if not offers(error) and not EXAMPLE.search(error.advice):
        invented = digits(_RULES.sub("", error.advice)) - digits(error.text)
        if invented:
            found.append("figures that were never typed, and nothing says that they are an example")
    return found


MEANT = _found_in_texts()
WRITTEN, FOUND = _written(), list(MEANT)


@over([*WRITTEN, *FOUND])
def test_advice_on_a_line_is_accepted_and_keeps_its_figures(typed: str) -> None:
    error = fault(typed)
    assert error is None or _broken(error) == [], error


@over([text for text, meant in MEANT.items() if re.fullmatch("[0-9/]+", meant)])
def test_advice_on_a_size_of_a_public_text_is_the_size_meant_there(typed: str) -> None:
    error = fault(typed)
    if error is None:
        return
    sizes = [value(line) for offer in offers(error) for line in placed(offer, error) if answered(line)]
    lengths = [size for size in sizes if isinstance(size, Fraction)]
    # A number alone names a drill, a screw or a gauge, and each is offered: the one meant is among them.
    assert not lengths or Fraction(MEANT[typed]) in lengths, error.advice


@pytest.mark.parametrize("seed", range(6))
def test_advice_on_a_mistyped_line_is_accepted_and_keeps_its_figures(seed: int) -> None:
    dice, wrong = random.Random(seed), []
    for _ in range(200):
        typed = _mistyped(dice.choice(WRITTEN if dice.random() < 0.7 else FOUND), dice)
        error = fault(typed) if typed.strip() else None
        wrong += [(typed, str(error.advice), why) for why in _broken(error)] if error is not None else []
    assert wrong == []
