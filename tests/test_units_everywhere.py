"""A unit and a rule are each one fact: every word of them reads the same in every form and by every way."""

from __future__ import annotations

import shutil
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import every_form
from processes import of_a_copy

from fractions_shop.size.rule import METRIC_RULES
from fractions_shop.size.units import UNITS

TOP = Path(__file__).parents[1]
_UNIT = '    Unit("tpi", '
_ADDED = '    Unit("dm", Fraction(100), "decimetre", ("dm", "decimetre", "decimetres", "dm.")),\n'
_RULE = '    "half mm": (Fraction(1, 2),'
_ADDED_RULES = '    "fifth mm": (Fraction(1, 5), ()),\n    "quarter mm": (Fraction(1, 4), ("0.25 mm",)),\n'
_TRY = """
from fractions import Fraction
import fractions_shop, every_form
print(fractions_shop.__file__)
dm = dict.fromkeys(("dm", "decimetre", "decimetres"), Fraction(100))
rules = {"quarter mm": Fraction(1, 4), "fifth mm": Fraction(1, 5), "half mm": Fraction(1, 2)}
for sentence in every_form.wrong_units(dm) + every_form.wrong_rules(rules):
    print(sentence)
"""


def test_every_word_of_every_unit_is_right_in_every_form() -> None:
    words = {word for unit in UNITS if unit.power == 1 for word in unit.words}
    assert words == set(every_form.FACTORS)
    assert every_form.wrong_units(every_form.FACTORS) == []


def test_every_rule_is_right_in_every_request() -> None:
    assert set(METRIC_RULES) <= set(every_form.RULES)
    assert every_form.wrong_rules(every_form.RULES) == []


def test_the_forms_tell_a_wrong_factor() -> None:
    """What holds the two tests above up: a factor that is not ours is found by every way."""
    said = " ".join(
        every_form.wrong_units({"cm": Fraction(11)}) + every_form.wrong_rules({"mm": Fraction(2)})
    )
    for way in (
        "language:",
        "read:",
        "read_plain:",
        "column:",
        "± 1/4 cm",
        "+0.2/-0.1",
        "as cm",
        "snap",
        "mark",
    ):
        assert way in said


def test_a_unit_is_metric_by_its_factor() -> None:
    tens = {Fraction(10) ** power for power in range(-6, 9)}
    for unit in UNITS:
        factors = {every_form.FACTORS[word] for word in unit.words if word in every_form.FACTORS}
        assert unit.metric == (unit.power == 1 and factors <= tens), unit.name


def test_a_unit_and_rules_added_by_one_line_each_are_right_in_every_form(tmp_path: Path) -> None:
    """In a copy of the tree, as whoever adds them would: one line, and the grammar written anew."""
    for folder in ("fractions_shop", "grammar", "tests"):
        ignored = shutil.ignore_patterns("__pycache__", "cases", "data", "bench", "test_*")
        shutil.copytree(TOP / folder, tmp_path / folder, ignore=ignored)
    for path, place, added in (("units.py", _UNIT, _ADDED), ("rule.py", _RULE, _ADDED_RULES)):
        home = tmp_path / "fractions_shop" / "size" / path
        text = home.read_text("utf-8")
        assert text.count(place) == 1
        home.write_text(text.replace(place, added + place), "utf-8")
    for order in ([str(tmp_path / "tests" / "renew_grammar.py")], ["-c", _TRY]):
        done = subprocess.run(
            [sys.executable, *order],
            env=of_a_copy(tmp_path, tmp_path / "tests"),
            cwd=tmp_path,
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.returncode == 0, done.stderr
    first, *wrong = done.stdout.splitlines()
    assert Path(first).is_relative_to(tmp_path)
    assert wrong == []
