"""Places as an answer: what `places` gives, and `bolt_circle`, with all their figures, and as an object."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NotRequired, TypedDict

from fractions_shop.layout.chain import Axis
from fractions_shop.layout.places import Places
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule


@dataclass(frozen=True)
class PlacesResult:
    """Places as an answer tells them: `places` with all their figures, `given` by what request or function."""

    places: Places
    given: str = "places"

    @property
    def rule(self) -> Rule:
        """The rule that they are read on."""
        return self.places.rule

    @property
    def points(self) -> tuple[tuple[Quantity, ...], ...]:
        """The places themselves."""
        return self.places.points

    def as_data(self) -> PlacesData:
        """The points by the names of their axes, the figures of each axis, and a machine's coordinates."""
        made = self.places.coordinates()
        return {
            "rule": self.rule,
            "points": tuple(map(by_axis, self.points)),
            "read": tuple(map(by_axis, self.places.read)),
            "along": self.places.along,
            "worst": self.places.worst,
            "axes": self.places.axes,
            "coordinates": {
                "points": tuple(map(by_axis, made.points)), "step": made.step, "worst": made.worst,
            },
        }  # fmt: skip


class PlaceData(TypedDict):
    """A place: `x` across, or to the right, and `y` upward where there are two axes."""

    x: Quantity
    y: NotRequired[Quantity]


class CoordinatesData(TypedDict):
    """Places rounded to whole steps for a machine; `worst` is the largest rounding on each axis."""

    points: tuple[PlaceData, ...]
    step: Quantity
    worst: tuple[Quantity, ...]


class PlacesData(TypedDict):
    """Places as an object: the points, as read on the rule, and the figures of each axis.

    `along` is the whole length of each axis where it is known, `worst` the largest error of a
    figure from the datum.
    """

    rule: Rule
    points: tuple[PlaceData, ...]
    read: tuple[PlaceData, ...]
    along: tuple[Quantity | None, ...]
    worst: tuple[Quantity, ...]
    axes: tuple[Axis, ...]
    coordinates: CoordinatesData


def by_axis(point: tuple[Quantity, ...]) -> PlaceData:
    """A place by the names of its axes."""
    return {"x": point[0], "y": point[1]} if len(point) > 1 else {"x": point[0]}
