"""The table of a sheet's revisions."""

from __future__ import annotations

from collections.abc import Sequence

from fractions_shop.figures.table import Table, without_empty
from fractions_shop.sheet.revisions import Revision


def revisions(shown: Sequence[Revision]) -> Table:
    """What each revision changed, the oldest first; the date where one is given."""
    rows = tuple((f"rev {revision.label}", revision.words, revision.date) for revision in shown)
    return without_empty(Table(rows, ("revision", "what changed", "date")))
