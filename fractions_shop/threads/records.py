"""The thread series: one record each of all that is particular to it.

Whatever else the package knows of a series is made from its record: the patterns that
spot and read a designation (`names`), the threads themselves (`series`), lookup,
identify, substitute, holes, heads, completions and advice. A new series is one more
record here, with its sizes as rows of a table. No table is loaded by this module.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

from fractions_shop.threads import ba, forms, thury
from fractions_shop.threads.record import Flats, Numbers, Series, Tapping

F = Fraction


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
_THURY_NUMBERS = Numbers(
    thury.LAST,
    thury.LAST,
    thury.major,
    thury.pitch,
    "the public formula p = 0.9^n mm, D = 6 p^1.2 mm; no printed table was read",
    forms.THURY,
    "",
    "",
    rooted=True,
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
_SI = "international agreement of 1898 (SI)"
_OLD_METRIC = "a metric system from before ISO 68: the crest is that of ISO, the root deeper and rounded"

SERIES = (
    Series(
        "BA", "British Association", "BS 93", forms.BA, "british", "metric", "{size} BA",
        ("B A", "British Association"),
        size_is="number", numbers=_BA_NUMBERS, clearance="British", heads=("BA",), flats=_BA_FLATS, spanners="BA",
    ),
    Series(
        "BSW", "British Standard Whitworth", "BS 84", forms.WHITWORTH, "british", "any", "{size} BSW",
        ("BSW", "British Standard Whitworth", "Whitworth", "Whit."), alone=("W",),
        general=True, clearance="British", heads=("BSW", BRITISH_HEADS), spanners="Whitworth",
    ),
    Series(
        "BSF", "British Standard Fine", "BS 84", forms.WHITWORTH, "british", "any", "{size} BSF",
        ("BSF", "British Standard Fine"),
        general=True, clearance="British", heads=("BSF", BRITISH_HEADS), spanners="Whitworth",
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
        dashed=True, general=True, clearance="ASME B18.2.8", heads=(AMERICAN_HEADS,), spanners="AF",
    ),
    Series(
        "UNF", "unified fine", "ASME B1.1", forms.UNIFIED, "unified", "inch", "{size}-{tpi} UNF",
        ("UNF", "NF", "UN"), groups=("american",),
        dashed=True, general=True, clearance="ASME B18.2.8", heads=(AMERICAN_HEADS,), spanners="AF",
    ),
    Series(
        "UNEF", "unified extra fine", "ASME B1.1", forms.UNIFIED, "unified", "inch", "{size}-{tpi} UNEF",
        ("UNEF", "NEF", "UN"), groups=("american",),
        dashed=True, general=True, clearance="ASME B18.2.8", heads=(AMERICAN_HEADS,), spanners="AF",
    ),
    Series(
        "M", "ISO metric, coarse", "ISO 261 and 724", forms.METRIC, "metric", "metric", "M{size}",
        letters=(("M", ""),), kind="coarse", groups=("iso metric", "metric coarse", "m coarse"),
        size_is="mm", tapping=_METRIC_TAPPING, clearance="ISO 273", heads=(METRIC_HEADS,), spanners="metric",
    ),
    Series(
        "M fine", "ISO metric, fine", "ISO 261 and 724", forms.METRIC, "metric", "metric", "M{size} x {pitch}",
        letters=(("M", ""),), kind="fine", groups=("iso metric", "metric fine"),
        size_is="mm", tapping=_METRIC_TAPPING, clearance="ISO 273", heads=(METRIC_HEADS,), spanners="metric",
    ),
    # Rare ones: what is met with on old work or in one trade alone.
    Series(
        "BSC old", "cycle, odd pitches", "BS 811", forms.CYCLE, "british", "any",
        "{size}-{tpi} old BSC", ("old BSC", "old cycle"), clearance="British", rare=True,
    ),
    Series(
        "UNS", "unified and American special", "ASME B1.1, special", forms.UNIFIED,
        "unified", "inch", "{size}-{tpi} UNS", ("UNS", "NS"), alone=("special",), groups=("american",),
        clearance="ASME B18.2.8", rare=True,
    ),
    Series(
        "ASME 1907", "American machine screws of 1907", "ASME 1907", forms.AMERICAN, "old american", "inch",
        "{size}-{tpi} ASME 1907", ("ASME 1907",), alone=("ASME", "1907"), clearance="ASME B18.2.8", rare=True,
        same_as=("UNC", "UNF", "UNEF", "UNS"),
    ),
    Series(
        "camera", "camera and tripod", "ISO 1222", forms.UNIFIED, "optical", "inch", "{size}-{tpi} camera",
        ("camera", "tripod"), clearance="ASME B18.2.8", rare=True, same_as=("UNC",),
        note="1/4-20 and 3/8-16 UNC since ISO 1222, BSW of the same size before: over the few turns of such a screw "
        "either enters the other",
    ),
    Series(
        "RMS", "microscope objective", "ISO 8038, Whitworth form", forms.WHITWORTH, "optical", "any", "RMS", ("RMS",),
        clearance="British", rare=True, sole=True,
    ),
    Series(
        "UNM", "unified miniature", "ASME B1.10", forms.MINIATURE, "watch and instrument", "metric", "{size} UNM",
        ("UNM", "unified miniature"), size_is="mm", rare=True,
    ),
    Series(
        "Thury", "Thury, Swiss", "the public formula", forms.THURY, "watch and instrument", "metric", "Thury {size}",
        ("Thury",), size_is="number", numbers=_THURY_NUMBERS, rare=True,
        note="BA of the same number is this one with major and pitch rounded to two figures: a worn screw of the one "
        "can hardly be told from the other",
    ),
    Series(
        "Loewenherz", "Loewenherz, German", "Loewenherz form", forms.LOEWENHERZ, "old metric", "metric",
        "Loewenherz {size}", ("Loewenherz", "Löwenherz", "Lo\u0308wenherz", "Lowenherz"), size_is="mm", rare=True,
        note="up to 5 mm the pitch is that of the metric screw of the same size: the angle, 53 degrees 8 minutes, "
        "alone tells them apart",
    ),
    Series(
        "old SI", "metric of 1898, coarse", _SI, forms.OLD_METRIC, "old metric", "metric", "M{size} x {pitch} old SI",
        ("old SI", "SI 1898"), letters=(("M", ""),), kind="coarse", size_is="mm", tapping=_METRIC_TAPPING,
        clearance="ISO 273", rare=True, same_as=("M", "M fine"), note=_OLD_METRIC,
    ),
    Series(
        "old SI fine", "metric of 1898, fine", _SI, forms.OLD_METRIC, "old metric", "metric",
        "M{size} x {pitch} old SI fine", ("old SI fine", "SI 1898 fine", "old SI", "SI 1898"), letters=(("M", ""),), kind="fine", size_is="mm",
        tapping=_METRIC_TAPPING, clearance="ISO 273", rare=True, same_as=("M", "M fine"), note=_OLD_METRIC,
    ),
    Series(
        "old DIN", "German metric before ISO, coarse", "DIN before ISO", forms.OLD_METRIC, "old metric", "metric",
        "M{size} x {pitch} old DIN", ("old DIN", "pre-ISO DIN"), letters=(("M", ""),), kind="coarse", size_is="mm",
        tapping=_METRIC_TAPPING, clearance="ISO 273", rare=True, same_as=("M", "M fine", "old SI"), note=_OLD_METRIC,
    ),
    Series(
        "old DIN fine", "German metric before ISO, fine", "DIN before ISO", forms.OLD_METRIC, "old metric",
        "metric", "M{size} x {pitch} old DIN fine", ("old DIN fine", "pre-ISO DIN fine", "old DIN", "pre-ISO DIN"), letters=(("M", ""),),
        kind="fine", size_is="mm", tapping=_METRIC_TAPPING, clearance="ISO 273", rare=True,
        same_as=("M", "M fine", "old SI fine"), note=_OLD_METRIC,
    ),
    Series(
        "old JIS", "Japanese metric before ISO", "JIS before ISO", forms.OLD_METRIC, "old metric", "metric",
        "M{size} x {pitch} old JIS", ("old JIS", "pre-ISO JIS"), letters=(("M", ""),), size_is="mm",
        tapping=_METRIC_TAPPING, clearance="ISO 273", rare=True, same_as=("M", "M fine", "old SI", "old SI fine"),
        note=_OLD_METRIC,
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
    "Loewenherz": forms.LOEWENHERZ,
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
    return (word.replace(" ", "") if word.replace(" ", "").isalpha() and word.isupper() else word).rstrip(
        ".'"
    )


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
#: The families whose sizes only metric work takes.
METRIC_FAMILIES = ("metric", "old metric", "watch and instrument")
FAMILIES = tuple(dict.fromkeys(series.family for series in SERIES))
