"""A property worked out once holds nobody up."""

from __future__ import annotations

import re
import threading
from pathlib import Path

from fractions_shop.size.cached import cached_property


class _Counted:
    def __init__(self) -> None:
        self.asked = 0

    @cached_property
    def answer(self) -> int:
        """What it comes to."""
        self.asked += 1
        return 7


def test_it_is_worked_out_once_and_told_of_by_its_own_words() -> None:
    one, other = _Counted(), _Counted()
    assert (one.answer, one.answer, one.asked, other.asked) == (7, 7, 1, 0)
    assert _Counted.answer.__doc__ == "What it comes to."
    assert isinstance(_Counted.answer, cached_property)


def test_a_long_one_keeps_no_other_waiting() -> None:
    begun, let_go = threading.Event(), threading.Event()

    class Slow:
        def __init__(self, waits: bool) -> None:
            self.waits = waits

        @cached_property
        def answer(self) -> bool:
            if self.waits:
                begun.set()
                let_go.wait(30)
            return let_go.is_set()

    long = threading.Thread(target=lambda: Slow(True).answer)
    long.start()
    assert begun.wait(30)
    assert not Slow(False).answer  # it is answered while the other is still at work
    let_go.set()
    long.join()


def test_no_module_uses_the_one_with_a_lock() -> None:
    package = Path(__file__).parents[1] / "fractions_shop"
    modules = [path for path in package.rglob("*.py") if path.name != "cached.py"]
    assert modules
    for path in modules:
        used = re.search(
            r"^from functools import .*\bcached_property\b", path.read_text("utf-8"), re.MULTILINE
        )
        assert used is None, f"{path.name}: take it from size.cached"
