"""The thread series: one record each of all that is particular to it.

Whatever else the package knows of a series is made from its record: the patterns that
spot and read a designation (`names`), the threads themselves (`series`), lookup,
identify, substitute, holes, heads, completions and advice. A new series is one more
record here, with its sizes as rows of a table. No table is loaded by this module.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from fractions_shop.size.frozen import Record
from fractions_shop.threads import ba, forms

F = Fraction


#: What the size in a designation may say: see Series.
SIZES = ("inch", "mm", "number", "bore")


class Tapping(Record):
    """How the hole to tap is chosen where no list that was read prints it.

    `percent` of thread is aimed at; `less_pitch` takes the major less the pitch instead.
    `room` is the tolerance of the internal minor diameter in millimetres by threads to the
    inch, over which a hole is warned of; empty where none is known.
    """

    percent: int = 75
    less_pitch: bool = False
    room: tuple[tuple[int, Fraction], ...] = ()


class Numbers(Record):
    """Sizes by a rule: numbers 0 to `last`, of which the standard has those to `standard_last`.

    `major` and `pitch` give millimetres for a number; `beyond` is the form past the standard.
    """

    last: int
    standard_last: int
    major: Callable[[int], Fraction]
    pitch: Callable[[int], Fraction]
    source: str
    beyond: forms.Form
    beyond_note: str
    beyond_source: str


class Flats(Record):
    """The size across flats of a hexagon head by a rule: so many times the major diameter."""

    factor: Fraction
    source: str
    note: str


class Series(Record):
    """A thread series.

    How it is called: `key` is what `Thread.series` says, `style` how a designation is put
    together from size, tpi and pitch. `words` may stand behind a size: a word in capitals is
    read with and without dots, and where it has a blank or a dot, without it too. The same
    word in two records may mean either, and the first record by custom. `alone` are words
    too short or too common to be spotted inside an expression. `letters` stand before a
    size, each with what is remarked of it. `kind` may follow such a designation. `groups`
    are words that ask for it among others, beside its `family` and its words.

    What it is: its `form`, its `family` (series of one trade, that stand in for one another
    and whose taps make each other's bushes), and what its sizes say (`size_is`): `inch`
    (the major diameter, or the No of a screw), `mm` (the major diameter), `number` (made by
    the rule in `numbers`), `bore` (the bore of an old pipe). `dashed` says that a size and
    its threads to the inch with a dash and no word, 1/4-20, are of this series by custom;
    `general` that it is met with in any trade.

    At the bench: `system` tells the drills it is tapped with, and `metric` is shown in
    millimetres first. `clearance` names the rule for its clearance holes (see the module of
    that name), `heads` under which words the tables of heads have its own, `flats` a rule for hexagons. `pressure` says that
    it is made to hold pressure. `notes` stand before the notes of each size, `note` behind.
    """

    key: str
    title: str
    standard: str
    form: forms.Form
    family: str
    system: str
    style: str
    words: tuple[str, ...] = ()
    alone: tuple[str, ...] = ()
    letters: tuple[tuple[str, str], ...] = ()
    kind: str = ""
    groups: tuple[str, ...] = ()
    size_is: str = "inch"
    numbers: Numbers | None = None
    dashed: bool = False
    general: bool = False
    tapping: Tapping = Tapping()
    clearance: str = ""
    heads: tuple[str, ...] = ()
    flats: Flats | None = None
    pressure: bool = False
    notes: tuple[str, ...] = ()
    note: str = ""


_NO_STANDARD = "no British Standard: trade practice, and makers differ"
_BORE = "the size is the bore of an old pipe, not a diameter to measure"
#: Heads that several series share: British hexagons since BS 1083, American heads and nuts, those of metric screws.
BRITISH_HEADS, AMERICAN_HEADS, METRIC_HEADS = "BSW/BSF", "UN", "M"
_BA_NUMBERS = Numbers(
    ba.LAST,
    ba.LAST_OF_STANDARD,
    ba.major,
    ba.pitch,
    "BS 93:1951, by its formula",
    forms.BA_BEYOND,
    f"beyond the standard: BS 93 stops at {ba.LAST_OF_STANDARD} BA; the formula is carried on",
    "formula of BS 93 carried on, no printed table read",
)
_BA_FLATS = Flats(
    F("1.75"),
    "1.75 times the major diameter: two encyclopaedia pages on British Association threads",
    "a rule; BS 57 gives the tolerances, and its tables were not read",
)
#: The middle of what the printed drills leave of parallel pipe threads; tolerances of ISO 228-1, one source (a trade chart).
_PIPE_TAPPING = Tapping(85, room=((28, F("0.282")), (19, F("0.445")), (14, F("0.541")), (11, F("0.640"))))
#: The rule behind the figures of ISO 2306.
_METRIC_TAPPING = Tapping(less_pitch=True)

SERIES = (
    Series(
        "BA", "British Association", "BS 93", forms.BA, "british", "metric", "{size} BA",
        ("B A", "British Association"),
        size_is="number", numbers=_BA_NUMBERS, clearance="British", heads=("BA",), flats=_BA_FLATS,
    ),
    Series(
        "BSW", "British Standard Whitworth", "BS 84", forms.WHITWORTH, "british", "any", "{size} BSW",
        ("BSW", "British Standard Whitworth", "Whitworth", "Whit."), alone=("W",),
        general=True, clearance="British", heads=("BSW", BRITISH_HEADS),
    ),
    Series(
        "BSF", "British Standard Fine", "BS 84", forms.WHITWORTH, "british", "any", "{size} BSF",
        ("BSF", "British Standard Fine"),
        general=True, clearance="British", heads=("BSF", BRITISH_HEADS),
    ),
    Series(
        "BSC", "British Standard Cycle", "BS 811", forms.CYCLE, "british", "any", "{size}-{tpi} BSC",
        ("BSC", "BSCy", "CEI", "cycle"),
        clearance="British",
    ),
    Series(
        "ME", "model engineer", "Whitworth form", forms.WHITWORTH, "british", "any", "{size} x {tpi} ME",
        ("ME", "model engineer", "model engineers'"),
        clearance="British", note=_NO_STANDARD,
    ),
    Series(
        "BSB", "British brass, 26 tpi", "Whitworth form", forms.WHITWORTH, "british", "any", "{size} BSB",
        ("BSB", "brass"),
        clearance="British", note=_NO_STANDARD,
    ),
    Series(
        "G", "British Standard pipe, parallel", "ISO 228-1", forms.PIPE, "pipe", "metric", "G {size}",
        ("BSP P", "BSP parallel", "BSP"), alone=("gas",), letters=(("G", ""),),
        size_is="bore", tapping=_PIPE_TAPPING, pressure=True, notes=(_BORE,),
    ),
    Series(
        "R", "British Standard pipe, taper", "ISO 7-1", forms.PIPE_TAPER, "pipe", "metric", "R {size}",
        ("BSP T", "BSP taper", "BSP"), alone=("gas",),
        letters=(
            ("R", ""),
            ("Rc", ""),
            ("Rp", "Rp is the parallel internal thread that an R taper thread enters"),
        ),
        size_is="bore", pressure=True,
        notes=("diameters at the gauge plane; taper 1 in 16 on the diameter", _BORE),
    ),
    Series(
        "NPT", "American taper pipe", "ASME B1.20.1", forms.NPT, "pipe", "inch", "{size} NPT", ("NPT",),
        size_is="bore", pressure=True,
        notes=(
            "major is the outside of the pipe; effective and minor are at the gauge plane",
            "taper 1 in 16 on the diameter; the size is the bore of an old pipe",
        ),
    ),
    Series(
        "UNC", "unified coarse", "ASME B1.1", forms.UNIFIED, "unified", "inch", "{size}-{tpi} UNC",
        ("UNC", "NC", "UN"), groups=("american",),
        dashed=True, general=True, clearance="ASME B18.2.8", heads=(AMERICAN_HEADS,),
    ),
    Series(
        "UNF", "unified fine", "ASME B1.1", forms.UNIFIED, "unified", "inch", "{size}-{tpi} UNF",
        ("UNF", "NF", "UN"), groups=("american",),
        dashed=True, general=True, clearance="ASME B18.2.8", heads=(AMERICAN_HEADS,),
    ),
    Series(
        "UNEF", "unified extra fine", "ASME B1.1", forms.UNIFIED, "unified", "inch", "{size}-{tpi} UNEF",
        ("UNEF", "NEF", "UN"), groups=("american",),
        dashed=True, general=True, clearance="ASME B18.2.8", heads=(AMERICAN_HEADS,),
    ),
    Series(
        "M", "ISO metric, coarse", "ISO 261 and 724", forms.METRIC, "metric", "metric", "M{size}",
        letters=(("M", ""),), kind="coarse", groups=("iso metric", "metric coarse", "m coarse"),
        size_is="mm", tapping=_METRIC_TAPPING, clearance="ISO 273", heads=(METRIC_HEADS,),
    ),
    Series(
        "M fine", "ISO metric, fine", "ISO 261 and 724", forms.METRIC, "metric", "metric", "M{size} x {pitch}",
        letters=(("M", ""),), kind="fine", groups=("iso metric", "metric fine"),
        size_is="mm", tapping=_METRIC_TAPPING, clearance="ISO 273", heads=(METRIC_HEADS,),
    ),
)  # fmt: skip
BY_KEY = {series.key: series for series in SERIES}
#: The forms by which a thread outside the tables may be given, by the word before `form`.
FORM_WORDS = {
    "Whitworth": forms.WHITWORTH,
    "BA": forms.BA_BEYOND,
    "metric": forms.METRIC,
    "unified": forms.UNIFIED,
    "cycle": forms.CYCLE,
}


def keys_of(test: Callable[[Series], bool]) -> tuple[str, ...]:
    """The keys of the series that pass a test, in order."""
    return tuple(series.key for series in SERIES if test(series))


def keys_by_word(words_of: Callable[[Series], tuple[str, ...]]) -> dict[str, tuple[str, ...]]:
    """The words that a record has, each with all the series whose records have it."""
    keys: dict[str, tuple[str, ...]] = {}
    for series in SERIES:
        for word in words_of(series):
            keys[word] = (*keys.get(word, ()), series.key)
    return keys


def _letters(size_is: str) -> dict[str, tuple[str, ...]]:
    """The letters before a size that say the series, for sizes of one sort."""
    return keys_by_word(
        lambda series: tuple(letter for letter, _ in series.letters) if series.size_is == size_is else ()
    )


MM_LETTERS, BORE_LETTERS = _letters("mm"), _letters("bore")


def plain(word: str) -> str:
    """A word of a record as it is commonly written: `BA` for `B A`, `Whit` for `Whit.`."""
    return (word.replace(" ", "") if word.isupper() else word).rstrip(".'")


#: The words that may stand behind a size, as commonly written, and those of them that are capitals alone.
WORDS = tuple(dict.fromkeys(plain(word) for series in SERIES for word in series.words))
CAPITALS = tuple(word for word in WORDS if word.isupper())
#: Words for series, for `substitute ... from metric` and the like, each with the series it means.
GROUPS = keys_by_word(
    lambda series: tuple(
        word
        for word in dict.fromkeys(
            (series.family, *series.groups, *(plain(word).lower() for word in series.words))
        )
        if word != series.key.lower()
    )
)
FAMILIES = tuple(dict.fromkeys(series.family for series in SERIES))
