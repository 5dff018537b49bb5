"""What many ways of weighing share is worked out once, and comes to the same digit as worked out anew."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from fractions import Fraction

from fractions_shop.meant import likelihood
from fractions_shop.meant.priors import scheme
from fractions_shop.meant.readings import reading
from fractions_shop.meant.shared import Print, shared_by_all
from fractions_shop.meant.weighing import weigh


def wood_and_print():
    """Two sizes of shrunk wood and two off a print."""
    wood = shared_by_all(shrunk=Fraction(3, 100))
    sizes = [("51.5 mm", wood), ("26.4 mm", wood), ("41.3 mm", (Print("A"),)), ("15.2 mm", (Print("A"),))]
    return [replace(reading(size, within="0.05 mm"), shared=shared) for size, shared in sizes]


def test_what_a_reading_does_not_share_does_not_make_it_be_weighed_again(monkeypatch):
    made = Counter()
    plain = likelihood.Likely.__init__

    def counted(self, prepared, moved=likelihood.UNMOVED):
        made[prepared, moved.of(prepared.reading)] += 1
        plain(self, prepared, moved)

    monkeypatch.setattr(likelihood.Likely, "__init__", counted)
    weigh(wood_and_print(), scheme())
    assert len(made) > 20
    assert set(made.values()) == {1}


def test_kept_likelihoods_weigh_to_the_digit_as_fresh_ones(monkeypatch):
    readings, divisions = wood_and_print(), scheme()
    kept = weigh(readings, divisions)
    monkeypatch.setattr(likelihood.PreparedReading, "at", lambda self, moved: likelihood.Likely(self, moved))
    fresh = weigh(readings, divisions)
    assert (kept.masses, kept.off, kept.evidence) == (fresh.masses, fresh.off, fresh.evidence)
    assert kept.common == fresh.common
