"""What is cut in the parts of one sheet and not so in another: holes, slots, corners and the least wall."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import zip_longest

from fractions_shop.sheet.changes import same_feature
from fractions_shop.sheet.solve import Worked
from fractions_shop.sheet.worked_features import Feature


@dataclass(frozen=True, slots=True)
class CutChange:
    """What one line cuts in a part, and what it cut before: `old` is None for a new one, `new` for one that is gone."""

    part: str
    old: Feature | None
    new: Feature | None


def cut_changes(old: Iterable[Worked], new: Iterable[Worked]) -> tuple[CutChange, ...]:
    """What differs, part by part in the order of the old sheet; of one kind it is taken together in its order."""
    before, after = _by_part(old), _by_part(new)
    changes: list[CutChange] = []
    for key in dict.fromkeys((*before, *after)):
        gone, come = list(before.get(key, ())), list(after.get(key, ()))
        for feature in tuple(gone):
            alike = next((other for other in come if same_feature(feature, other)), None)
            if alike is not None:
                gone.remove(feature)
                come.remove(alike)
        changes += [CutChange(key[0], was, now) for was, now in zip_longest(gone, come)]
    return tuple(changes)


def _by_part(worked: Iterable[Worked]) -> dict[tuple[str, str], list[Feature]]:
    features: dict[tuple[str, str], list[Feature]] = {}
    for item in worked:
        if item.feature is not None:
            features.setdefault((item.feature.part, item.feature.word), []).append(item.feature)
    return features
