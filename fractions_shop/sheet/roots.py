"""The doubtful readings, and the spaces of moved totals, that an answer rests on."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import islice

from fractions_shop.language.evaluate import Evaluator
from fractions_shop.language.notes import remark
from fractions_shop.sheet.answer import TOLD


def roots_among(used: Iterable[str], roots_by_name: Mapping[str, tuple[str, ...]]) -> tuple[str, ...]:
    """The roots that some names come from."""
    if not roots_by_name:
        return ()
    roots = dict.fromkeys(root for name in used for root in roots_by_name.get(name, ()))
    # No more than are listed, or a long sum of doubtful sizes would take its square in time.
    return tuple(islice(roots, TOLD + 1))


def note_roots(
    evaluator: Evaluator, doubtful: Mapping[str, tuple[str, ...]], moved: Mapping[str, tuple[str, ...]]
) -> None:
    """Say that what was worked out rests on a doubtful reading, or on the space of a moved total."""
    for reason, roots in (
        ("which may be another size", doubtful),
        ("a space of a total that was moved", moved),
    ):
        if rests_on := roots_among(evaluator.used, roots):
            from fractions_shop.sheet.stale_names import listed_names

            evaluator.note(remark(f"rests on {listed_names(rests_on)}, {reason}"))
