"""The table of a sheet's named places: each with its figures from the datum, on its own rule."""

from __future__ import annotations

from collections.abc import Iterable

from fractions_shop.figures.table import Cell, Table, without_empty
from fractions_shop.figures.wording import in_rule_cell, rule_word, signed_cell
from fractions_shop.layout.places import Places
from fractions_shop.sheet.doubts import NO_DOUBTS, Doubts
from fractions_shop.sheet.session import places_of
from fractions_shop.sheet.solve import Worked
from fractions_shop.show.doubt_marks import marked

NOTE = "From the datum, as read on the rule of each; off is that less the exact place."


def places(worked: Iterable[Worked], doubts: Doubts = NO_DOUBTS) -> Table:
    """One row a place, the name before the first of them; the names of doubtful ones are marked."""
    rows: list[tuple[Cell | str, ...]] = []
    for item in worked:
        named = named_places(item)
        if named is None:
            continue
        name, line = marked(item.line.sets, item.line.number, doubts), str(item.line.number)
        for which, (point, read) in enumerate(zip(named.points, named.read, strict=True), 1):
            figures: list[Cell | str] = [
                cell
                for exact, division in zip(point, read, strict=True)
                # A division of a rule is as good as the place that it was read for.
                for cell in (
                    in_rule_cell(division.resting_on(exact.standing), named.rule),
                    signed_cell(division - exact),
                )
            ]
            if len(point) == 1:
                figures += ["", ""]
            rows.append((name, str(which), *figures, rule_word(named.rule), line))
            name = ""
    return without_empty(Table(tuple(rows), ("name", "", "across", "off", "up", "off", "on the", "line")))


def named_places(item: Worked) -> Places | None:
    """The places that a line names, or None for one that names none."""
    named: Places | None = (
        None if item.answer is None or not item.line.sets else places_of(item.answer.result)
    )
    return named
