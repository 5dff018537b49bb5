"""How a sheet went, in counts; the words for them are in show/verdict.py."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from fractions_shop.requests import CHECKS
from fractions_shop.sheet.doubts import Doubts
from fractions_shop.sheet.solve import Worked


@dataclass(frozen=True, slots=True)
class Verdict:
    """How a sheet went.

    Of the checks `holds` and `fails` count those that were worked out, `unchecked` those
    that were not; `unmade` counts the parts that were not worked out. `faults` and `waits`
    count all lines at fault, or waiting for one that is; `answered` the lines that gave an
    answer. `doubtful_sizes` (named sizes and parts) and `doubtful_checks` rest on a
    doubtful reading or are one; `moved_sizes` on a total that `divide` had to move, and
    `wide_checks` on limits that may be wider than the truth; `off_checks` hold by what is allowed, their sizes
    being nominally apart. `memory_sizes` rest on a figure from
    memory, `one_source_sizes` on one from one source or beyond its standard; `believed_sizes` on what nobody
    said of a reading, and on nothing more doubtful.
    """

    holds: int
    fails: int
    unchecked: int
    unmade: int
    faults: int
    waits: int
    answered: int
    doubtful_sizes: int
    doubtful_checks: int
    moved_sizes: int
    wide_checks: int
    memory_sizes: int
    one_source_sizes: int
    believed_sizes: int
    off_checks: int

    @property
    def checks(self) -> int:
        """How many checks there are, worked out or not."""
        return self.holds + self.fails + self.unchecked

    @property
    def ok(self) -> bool:
        """Whether every line is answered and every check holds."""
        return not (self.fails or self.faults or self.waits)


def verdict(worked: Sequence[Worked], doubts: Doubts) -> Verdict:
    """The verdict on a worked sheet."""
    counted: Counter[str] = Counter()
    standings: Counter[str] = Counter()
    sizes: list[int] = []
    checks: list[int] = []
    for item in worked:  # each line is asked once what it is
        line, answer, check = item.line, item.answer, item.check
        is_check = line.is_check if answer is None else answer.kind in CHECKS
        if check is not None:
            counted["holds" if check.holds else "fails"] += 1
            counted["wide"] += check.wide
            counted["off"] += check.off
        if item.undone:
            counted["unchecked"] += is_check
            counted["unmade"] += line.kind == "part"
            counted["faults" if item.fault is not None else "waits"] += (
                item.fault is not None or not line.also
            )
            continue
        if check is None and line.works:
            counted["answered"] += not line.also and not _is_setting(item)
        if is_check:
            checks.append(line.number)
        elif item.is_listed:
            standings[_standing(item)] += 1
            if line.sets not in doubts.settled:
                sizes.append(line.number)
    believed = doubts.of_belief - doubts.doubtful
    return Verdict(
        counted["holds"], counted["fails"], counted["unchecked"], counted["unmade"], counted["faults"],
        counted["waits"], counted["answered"],
        sum(number in doubts.doubtful for number in sizes),
        sum(number in doubts.doubtful for number in checks),
        sum(number in doubts.of_moved for number in sizes),
        counted["wide"],
        standings["from memory"],
        standings["one source"] + standings["beyond the standard"],
        sum(number in believed for number in sizes),
        counted["off"],
    )  # fmt: skip


def _standing(item: Worked) -> str:
    return "" if item.answer is None else getattr(item.answer.value, "standing", "")


def _is_setting(item: Worked) -> bool:
    return item.line.is_units or (item.answer is not None and item.answer.room.sets_rule is not None)
