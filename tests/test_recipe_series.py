"""A thread series is one record: invented ones, added by the recipe of DEVELOPERS.md alone, work everywhere.

The figures are worked out here from the invented forms and sizes. Only the room of a clearance
hole is printed: ISO 273 has 7.6 mm for M7 and 3.9 mm for M3.5 (medium, as the table in the package).
"""

from __future__ import annotations

import ast
import re
import shutil
from fractions import Fraction
from pathlib import Path
from typing import Any, get_args

import pytest
from changed_copy import tried_in
from over_all import over
from package_source import nodes

from fractions_shop import tables
from fractions_shop.size.notation import number_value
from fractions_shop.threads import clearance
from fractions_shop.threads.holes import SYSTEMS
from fractions_shop.threads.lookup import threads_named
from fractions_shop.threads.record import Series, SizeIs
from fractions_shop.threads.records import BY_KEY, METRIC_HEADS, SERIES, WORDS
from fractions_shop.threads.series import of_series

TOP = Path(__file__).parents[1]
PLACE = "SERIES = (\n"
#: One of each sort: inches and a word, millimetres and a word, numbers by a rule, letters and millimetres.
RECORDS = """
_TRIAL = forms.Form(
    "trial, 50 degrees, rounded", forms.Angle(F(50)), F("0.6"), F("0.6"), F("0.1"),
    (forms.Convention("both threads: D - 1.2p", F("1.2"), "invented"),), "invented",
)
_TRIAL_NUMBERS = Numbers(
    5, 4, lambda number: F(10 - number), lambda number: F(20 - number, 16), "invented", _TRIAL,
    "beyond the list", "invented and carried on",
)
_LISTED = Numbers(
    4, 4, lambda number: F(21 + 5 * number, 10), lambda number: F(4 + number, 10), "a list of four", _TRIAL, "", "",
    standing="from memory", first=1,
)
SERIES = (
    Series(
        "Tray", "tray screw", "drawing 16", _TRIAL, "frame", "metric", "Tray {size}", ("Tray",), size_is="number",
        numbers=_LISTED, rare=True,
    ),
    Series(
        "SCT", "slide cabinet", "drawing 12", _TRIAL, "cabinet", "any", "{size} SCT",
        ("SCT", "slide cabinet"), note="made for one cabinet",
    ),
    Series(
        "TRK", "tube rack", "drawing 13", _TRIAL, "cabinet", "metric", "{size} TRK", ("TRK",), size_is="mm",
    ),
    Series(
        "LFN", "label frame number", "drawing 14", _TRIAL, "frame", "metric", "{size} LFN", ("LFN",),
        size_is="number", numbers=_TRIAL_NUMBERS,
    ),
    Series(
        "SR", "slide runner", "drawing 15", _TRIAL, "cabinet", "metric", "SR{size}", letters=(("SR", ""),),
        size_is="mm",
    ),
"""
ROWS = {
    "thread_inch.csv": "SCT,3/16,3/16,30,one source,drawing 12,\nSCT,1/4,1/4,22,one source,drawing 12,\n"
    "SCT,5/16,5/16,17,one source,drawing 12,\n",
    "thread_metric.csv": "TRK,3.3,0.55,one source,drawing 13,\nSR,4.4,0.65,one source,drawing 15,\n",
}
#: What is tried in a process of its own, with what it gives as JSON.
TRY = r"""
import json, sys
import fractions_shop
from fractions_shop import ShopError, identify, read, substitute, thread
from fractions_shop.command.column import Column
from fractions_shop.meant.catalogue import series
from fractions_shop.prompt.word_offers import word_offers
from fractions_shop.sheet.session import Session

def figures(name):
    t = thread(name)
    tap, hole = t.tapping(), t.clearance()
    return {"series": t.series, "name": t.name, "angle": str(t.angle.degrees), "tap": str(tap.size.mm),
            "engagement": str(tap.engagement), "hole": str(hole.size.mm), "wire": float(t.best_wire.mm),
            **{part: str(getattr(t, part).mm) for part in ("major", "pitch", "effective", "minor", "depth")}}

def said(line):
    try:
        return Session().answer(line).text()
    except ShopError as error:
        return f"refused: {error}"

def answered(line):
    value = Session().answer(line).value
    return str(value.mm)

def stand_ins(*arguments):
    found = substitute(*arguments)
    return [[one.thread.name, one.as_it_is.fit, one.retap.verdict, one.bush.happens] for one in found]

out = {
    "home": fractions_shop.__file__,
    "threads": {name: figures(name) for name in NAMES},
    "read": {text: str(read(text).mm) for text in SPELLINGS},
    "sums": {line: answered(line) for line in SUMS},
    "said": {line: said(line) for line in LINES},
    "identify": [one.thread.name for one in identify("0.248 in", "22 tpi")],
    "identify mm": [one.thread.name for one in identify("3.27 mm", "0.55 mm", series="TRK")],
    "substitute": stand_ins("1/4 SCT", "metric"),
    "substitute from": stand_ins("6 BA", "SCT"),
    "substitute family": stand_ins("M6", "cabinet"),
    "substitute any": stand_ins("LFN 3"),
    "offers": {text: [one.text for one in word_offers(text, {}, True)] for text in OFFERED},
    "catalogue": [one.name for one in series("threads")],
    "column": list(Column("s", unit="in", delimiter=";").widen(["s\n", "1/4 SCT\n", "3.3 TRK\n", "3 LFN\n"])),
}
print(json.dumps(out))
"""
SPELLINGS = ["1/4 SCT", "1/4 S.C.T.", "1/4in sct", "1/4 slide cabinet", "1/4-22 SCT", "0.250 SCT",
             "3.3 TRK", "3.3 x 0.55 TRK", "3 LFN", "#3 LFN", "No 3 LFN", "3 l.f.n.", "SR4.4", "SR 4.4",
             "SR4.4 x 0.65"]  # fmt: skip
SUMS = ["2 * 1/4 SCT + 1 mm", "major(3.3 TRK) - minor(3.3 TRK)", "tapping(1/4 SCT)", "clearance(1/4 SCT)",
        "pitch(3 LFN) * 4"]  # fmt: skip
LINES = ["thread 1/4 SCT", "thread 3.3 TRK", "thread 5 LFN", "thread Tray 0", "Tray 1", "2 * Tray 4", "thread 7/8 SCT", "thread 4 TRK", "thread 3.3 x 0.6 TRK", "thread 9 LFN",
         "thread SR4.4 x 0.7", "thread SR9", "4.4 SR", "sr4x1", "thread 1/4-20 SCT", "thread 1.5 LFN", "SCT 1/4", "SCT1/4", "lfn3", "thread LFN3", "thread O LFN", "#3",
         "identify 0.248 in, 22 tpi", "substitute 1/4 SCT from unified", "substitute 6 BA from slide cabinet",
         "substitute 6 BA from cabinets", "recover 3.3 mm, 6.35 mm among threads", "tapping 1/4 SCT"]  # fmt: skip
OFFERED = [
    "thread SR",
    "thread 1/4 s",
    "thread 3.3",
    "1/4 SC",
    "substitute 6 BA from ",
    "substitute 6 BA from ca",
]
NAMES = ["1/4 SCT", "3/16 SCT", "5/16 SCT", "3.3 TRK", "3 LFN", "SR4.4"]
#: Major and pitch in millimetres, from the rows and the rule above.
SIZES = {
    "1/4 SCT": (Fraction("6.35"), Fraction("25.4") / 22),
    "3/16 SCT": (Fraction("4.7625"), Fraction("25.4") / 30),
    "5/16 SCT": (Fraction("7.9375"), Fraction("25.4") / 17),
    "3.3 TRK": (Fraction("3.3"), Fraction("0.55")),
    "3 LFN": (Fraction(7), Fraction(17, 16)),
    "SR4.4": (Fraction("4.4"), Fraction("0.65")),
}


@pytest.fixture(scope="module")
def tried(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Any]:
    """What the package makes of the invented series, in a copy of the tree where they were added."""
    home = tmp_path_factory.mktemp("series")
    ignored = shutil.ignore_patterns("__pycache__", "cases", "data", "bench", "test_*", "prompt")
    shutil.copytree(
        TOP / "fractions_shop", home / "fractions_shop", ignore=shutil.ignore_patterns("__pycache__")
    )
    for folder in ("grammar", "tests"):
        shutil.copytree(TOP / folder, home / folder, ignore=ignored)
    records = home / "fractions_shop" / "threads" / "records.py"
    text = records.read_text("utf-8")
    assert text.count(PLACE) == 1
    records.write_text(text.replace(PLACE, RECORDS.lstrip()), "utf-8")
    for table, rows in ROWS.items():
        path = home / "fractions_shop" / "tables" / table
        path.write_text(path.read_text("utf-8") + rows, "utf-8")
    given = "".join(
        f"{name} = {globals()[name]!r}\n" for name in ("NAMES", "SPELLINGS", "SUMS", "LINES", "OFFERED")
    )
    return tried_in(home, given + TRY)


@pytest.mark.parametrize("name", NAMES)
def test_every_figure_of_an_invented_thread_follows_from_its_record(tried: dict[str, Any], name: str) -> None:
    told = tried["threads"][name]
    major, pitch = SIZES[name]
    found = {part: Fraction(told[part]) for part in ("major", "pitch", "effective", "minor", "depth")}
    depth = pitch * Fraction(6, 10)
    assert found == {
        "major": major, "pitch": pitch, "effective": major - depth, "minor": major - 2 * depth, "depth": depth,
    }  # fmt: skip
    assert (told["name"], told["series"], told["angle"]) == (name, re.sub("[0-9./ ]", "", name), "50")
    # w = p / (2 cos 25 deg); cos 25 deg = 0.90630779 from a table of cosines.
    assert told["wire"] == pytest.approx(float(pitch) / (2 * 0.90630779), rel=1e-7)


@pytest.mark.parametrize("name", NAMES)
def test_its_hole_is_drilled_for_three_quarters_of_its_own_depth(tried: dict[str, Any], name: str) -> None:
    """Drills of every sort lie 0.1 mm apart here at most."""
    told = tried["threads"][name]
    (major, pitch), drill = SIZES[name], Fraction(told["tap"])
    depth = pitch * Fraction(12, 10)
    assert abs(drill - (major - depth * Fraction(3, 4))) <= Fraction(5, 100)
    assert drill >= major - depth
    assert Fraction(told["engagement"]) == 100 * (major - drill) / depth


@pytest.mark.parametrize(("name", "room"), [("1/4 SCT", "0.6"), ("3.3 TRK", "0.4"), ("3 LFN", "0.6")])
def test_its_clearance_is_that_of_the_next_metric_size_up(
    tried: dict[str, Any], name: str, room: str
) -> None:
    """ISO 273 medium: M7 7.6 mm, M3.5 3.9 mm."""
    assert Fraction(tried["threads"][name]["hole"]) == SIZES[name][0] + Fraction(room)


def test_it_is_read_however_it_is_written_and_reckoned_with(tried: dict[str, Any]) -> None:
    majors = {"SCT": "6.35", "slide": "6.35", "TRK": "3.3", "LFN": "7", "SR": "4.4"}
    for text, mm in tried["read"].items():
        word = next(word for word in majors if word.lower() in text.replace(".", "").lower())
        assert Fraction(mm) == Fraction(majors[word]), text
    pitch = SIZES["3.3 TRK"][1]
    assert [Fraction(value) for value in tried["sums"].values()] == [
        2 * Fraction("6.35") + 1,
        pitch * Fraction(12, 10),
        Fraction(tried["threads"]["1/4 SCT"]["tap"]),
        Fraction("6.95"),
        4 * SIZES["3 LFN"][1],
    ]
    cells = [row.split(";")[:4] for row in tried["column"][1:]]
    assert [(cell[0], cell[3]) for cell in cells] == [("1/4 SCT", "6.35"), ("3.3 TRK", "3.3"), ("3 LFN", "7")]


def test_it_is_found_by_readings_and_stands_in_and_is_stood_in_for(tried: dict[str, Any]) -> None:
    assert tried["identify"][0] == "1/4 SCT"
    assert tried["identify mm"] == ["3.3 TRK"]
    assert {"M6", "M7"} <= {name for name, *_ in tried["substitute"]}
    assert {name for name, *_ in tried["substitute from"]} == {"3/16 SCT", "1/4 SCT", "5/16 SCT"}
    bushes = {name: bush for name, _, _, bush in tried["substitute family"]}
    assert set(bushes) == {"3/16 SCT", "1/4 SCT", "5/16 SCT", "3.3 TRK", "SR4.4"}
    # A bush is threaded by its own family's taps: 5/16 less 1.2/17 in leaves 2.8 mm over a 3.3 mm screw.
    assert "tap 5/16 SCT" in bushes["3.3 TRK"]
    assert tried["substitute any"]
    assert {"SCT threads", "TRK threads", "LFN threads"} <= set(tried["catalogue"])


def test_it_is_offered_at_the_prompt(tried: dict[str, Any]) -> None:
    offered = tried["offers"]
    assert offered["thread 1/4 s"] == ["1/4 SCT"]
    assert (
        offered["1/4 SC"][0] == "1/4 SCT"
    )  # then the old units that hold these letters, for Tab was pressed
    assert offered["thread 3.3"] == ["3.3 TRK"]
    assert offered["thread SR"] == ["SR4.4"]
    assert {"SCT", "TRK", "LFN", "cabinet", "frame", "slide cabinet"} <= set(offered["substitute 6 BA from "])


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("thread 7/8 SCT", "refused: there is no 7/8 SCT: the nearest are 5/16 SCT, 1/4 SCT and 3/16 SCT"),
        ("thread 4 TRK", "refused: there is no 4 TRK: the nearest is 3.3 TRK"),
        ("thread 3.3 x 0.6 TRK", "refused: there is no 3.3 x 0.6 TRK: 3.3 TRK has a pitch of 0.55 mm"),
        ("thread SR4.4 x 0.7", "refused: there is no SR4.4 x 0.7: SR4.4 has a pitch of 0.65 mm"),
        ("thread SR9", "refused: there is no SR9: the nearest is SR4.4"),
        ("thread 9 LFN", "refused: there is no 9 LFN: the nearest are 5 LFN, 4 LFN, 3 LFN and 2 LFN"),
        ("thread 1/4-20 SCT", "refused: there is no 1/4-20 SCT: 1/4 SCT has 22 threads per inch"),
        (
            "thread 1.5 LFN",
            "refused: expected the name of a thread: a LFN thread is a whole number and LFN, such as 5 LFN",
        ),
    ],
)
def test_a_size_that_is_not_made_is_refused_with_those_that_are(
    tried: dict[str, Any], line: str, told: str
) -> None:
    assert tried["said"][line].startswith(told)


@pytest.mark.parametrize(
    ("line", "advice"),
    [
        ("SCT 1/4", "write 1/4 SCT"),
        ("lfn3", "write 3 LFN"),
        ("4.4 SR", "write SR4.4 for the thread"),
        ("sr4x1", "what was meant cannot be told from it: write each size with its unit, such as 2 1/32 in"),
        ("thread LFN3", "write thread 3 LFN"),
        ("thread O LFN", "write thread 0 LFN"),
        ("tapping 1/4 SCT", "write tapping(1/4 SCT)"),
    ],
)
def test_advice_knows_its_words(tried: dict[str, Any], line: str, advice: str) -> None:
    assert tried["said"][line].splitlines()[-1] == advice


def test_a_number_alone_names_it_and_its_own_unit_stands_first(tried: dict[str, Any]) -> None:
    assert "3 LFN is about 0.2756 in" in tried["said"]["#3"]
    assert "1/4 SCT: major 0.25 in (6.35 mm)" in tried["said"]["thread 1/4 SCT"]
    assert "note: made for one cabinet" in tried["said"]["thread 1/4 SCT"]
    assert "3.3 TRK: major 3.3 mm (~0.1299 in)" in tried["said"]["thread 3.3 TRK"]
    assert "note: beyond the list" in tried["said"]["thread 5 LFN"]
    assert "source: invented and carried on" in tried["said"]["thread 5 LFN"]


def test_numbers_out_of_a_list_begin_where_it_begins_and_keep_their_standing(tried: dict[str, Any]) -> None:
    said = tried["said"]
    assert said["thread Tray 0"].startswith("refused: there is no Tray 0: the nearest are Tray 1,")
    assert "major 2.6 mm" in said["Tray 1"]
    assert "tpi, from memory" in " ".join(said["Tray 1"].split())
    assert said["2 * Tray 4"].startswith("8.2 mm, about 0.3228 in, from memory")


def test_no_request_fails_on_it(tried: dict[str, Any]) -> None:
    for line in ("substitute 1/4 SCT from unified", "substitute 6 BA from slide cabinet",
                 "recover 3.3 mm, 6.35 mm among threads", "identify 0.248 in, 22 tpi"):  # fmt: skip
        assert not tried["said"][line].startswith("refused"), line
    assert (
        ", metric, unified, pipe, british, cabinet, frame" in tried["said"]["substitute 6 BA from cabinets"]
    )


# The records


@pytest.mark.parametrize("series", SERIES, ids=lambda series: series.key)
def test_a_record_names_what_there_is(series: Series) -> None:
    assert series.size_is in get_args(SizeIs)
    assert series.system in SYSTEMS
    assert series.clearance in ("", *clearance.RULES)
    assert set(series.heads) <= {METRIC_HEADS, *(row["series"] for row in tables.rows("thread_heads_in"))}
    assert (series.numbers is not None) == (series.size_is == "number")
    assert series.words or series.letters, "it could not be written"
    assert of_series(series.key), "it has no sizes"
    for one in of_series(series.key):
        assert one in threads_named(one.name)


@over(tables.rows("thread_inch"), lambda row: f"{row['series']} {row['size']}")
def test_a_size_in_inches_is_the_major_unless_it_is_a_number(row: dict[str, str]) -> None:
    """A screw's number written as a figure alone would be read as so many inches: `1 in SCT` for its No 1."""
    if not row["size"].startswith("No "):
        # The 1 3/8 of BS 811 has a major of 1.370 in.
        assert abs(number_value(row["size"]) - number_value(row["major_in"])) < Fraction(1, 64)


def test_no_series_is_named_by_hand_outside_the_records() -> None:
    """Keys and words of series as data: a string that is one, or a choice of them. Examples are longer."""
    words = {word for word in (*BY_KEY, *WORDS) if len(word) > 1}
    found = []
    for path in sorted((TOP / "fractions_shop").rglob("*.py")):
        if path.name in ("records.py", "parse_tables.py"):
            continue
        for node in nodes(path):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                named = words & set(re.split(r"[|()?:\\ .*+]+", node.value)) if "|" in node.value else set()
                if "steel" in node.value:
                    named -= {"brass"}  # the metal
                if node.value in words or named:
                    found.append((path.name, node.lineno, node.value))
    assert found == []
