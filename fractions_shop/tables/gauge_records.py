"""The gauge series: one record each of all that is particular to it; no table is loaded by this module.

What is written of a gauge, its sizes, offers and advice are made from the records. A new series
is one more record here, with its sizes in a table.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from fractions_shop.tables import awg


def _printed(row: dict[str, str]) -> Fraction:
    return Fraction(row["size_in"])


def _manufacturers(row: dict[str, str]) -> Fraction:
    """Its weight over 41.82 lb to the square foot and inch, to four places."""
    return Fraction(round(Fraction(row["weight_oz_per_ft2"]) / 16 / Fraction("41.82") * 10_000), 10_000)


def _of_1893(row: dict[str, str]) -> Fraction:
    return Fraction(row["weight_oz_per_ft2"]) / 640


def _american_screw(row: dict[str, str]) -> Fraction:
    return Fraction("0.060") + int(row["number"]) * Fraction("0.013")


@dataclass(frozen=True)
class GaugeSeries:
    """A gauge series.

    `key` is what `Gauge.series` says, `meaning` what it is and what it is not to be taken
    for, `name` how a gauge of it is called. `words` may follow a number; one in capitals is
    read with and without dots. A word of two records means the first. `countries` may stand
    before the number, or before the word; `without_country` is a word that is refused where none does,
    and why. Its sizes are rows of `table`, the number in the
    column `number`, with `inches` from each row and the sources in the columns `sources`;
    or the pairs that `made` gives, of the one source `rule`. `told_first` says that the
    nearest of it is told before all others (the first of these is what stock is sold by);
    `screw` that it is of screws; `noted` that the remark on a figure goes wherever the size goes.
    """

    key: str
    meaning: str
    words: tuple[str, ...]
    table: str = ""
    inches: Callable[[dict[str, str]], Fraction] = _printed
    name: str = ""
    number: str = "gauge"
    sources: tuple[str, ...] = ("source", "second_source")
    made: Callable[[], tuple[tuple[str, Fraction], ...]] | None = None
    rule: str = ""
    countries: tuple[str, ...] = ()
    without_country: tuple[str, str] | None = None
    told_first: bool = False
    screw: bool = False
    noted: bool = False

    def called(self, number: str) -> str:
        """The gauge of a number, as a maker says it."""
        return (self.name or "{number} {key}").format(number=number, key=self.key)


_SCREW_WORDS = ("wood screw", "woodscrew")

_RECORDS = (
    GaugeSeries(
        "SWG", "British (Imperial) standard wire gauge; not the US steel wire gauge, which is also called SWG",
        ("SWG",), "gauge_swg", told_first=True,
    ),
    GaugeSeries(
        "AWG", "American wire gauge (Brown & Sharpe), for copper and brass wire", ("AWG", "B&S"),
        made=awg.numbers, rule=awg.SOURCE, told_first=True,
    ),
    GaugeSeries(
        "BWG", "Birmingham or Stubs iron wire gauge, for tube walls and old iron wire", ("BWG", "Stubs iron"),
        "gauge_bwg",
    ),
    GaugeSeries(
        "MSG", "US manufacturers' standard gauge, for steel sheet",
        ("MSG", "manufacturers", "manufacturers standard"), "gauge_msg", _manufacturers,
    ),
    GaugeSeries(
        "US 1893", "US standard gauge of 1893, for old iron and steel sheet; not the manufacturers' gauge",
        ("US 1893", "US standard 1893"), "gauge_us_1893", _of_1893,
    ),
    GaugeSeries(
        "galvanised", "US galvanised sheet gauge, zinc coating included", ("galvanised", "galvanized"),
        "gauge_galvanised",
    ),
    GaugeSeries(
        "Stubs steel", "Stubs steel wire gauge, for tool-steel rod; not the Stubs iron gauge",
        ("Stubs steel", "Stubs steel wire"), "gauge_stubs_steel",
    ),
    GaugeSeries("zinc", "US zinc sheet gauge; it grows with the number", ("zinc",), "gauge_zinc"),
    GaugeSeries(
        "US steel wire", "US steel wire gauge, for iron and steel wire; not the British gauge, which is also called SWG",
        ("steel wire", "USSWG"), "gauge_us_steel_wire", countries=("US", "American"),
        without_country=(
            "steel wire",
            "steel wire goes by two gauges: write SWG for the British one, or US steel wire for the American "
            "one, which is also shortened to SWG",
        ),
    ),
    GaugeSeries(
        "spring wire", "spring-steel (music) wire gauge, the sizes of ASTM A228; it grows with the number",
        ("spring wire", "spring-steel wire", "spring steel wire", "music wire", "MWG"), "gauge_spring_wire",
    ),
    # Without a country the American number is taken, and whoever reads it says so.
    GaugeSeries(
        "US wood screw", "American wood-screw number (ASME B18.6.1), the diameter of the body", _SCREW_WORDS,
        "woodscrews", _american_screw, "US No {number} wood screw", "number", ("source",),
        countries=("US", "American"), screw=True,
    ),
    GaugeSeries(
        "British wood screw", "British wood-screw number, the diameter of the shank", _SCREW_WORDS,
        "woodscrews_british", name="British No {number} wood screw", number="number", sources=("source",),
        countries=("British", "UK"), screw=True, noted=True,
    ),
)  # fmt: skip
#: The series by their keys, in the order in which they are told.
SERIES = {record.key: record for record in _RECORDS}
