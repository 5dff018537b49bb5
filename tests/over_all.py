"""One test over many small cases: it goes through them all and names each that fails.

A test of its own for each of thousands of cases costs more in setting up and telling than in testing.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

import pytest


def over(
    cases: Iterable[Any], name: Callable[[Any], str] = str
) -> Callable[[Callable[..., None]], Callable[[], None]]:
    """The test over every one of `cases`, which are its argument, or tuples of its arguments where it takes several."""
    every = list(cases)
    assert every, "there is nothing to go over"

    def decorated(test: Callable[..., None]) -> Callable[[], None]:
        several = test.__code__.co_argcount > 1

        def over_all() -> None:
            failed = []
            for case in every:
                try:
                    test(*case) if several else test(case)
                except (AssertionError, pytest.fail.Exception, Exception) as error:
                    failed.append(f"{name(case)}: {type(error).__name__}: {error}")
            assert not failed, f"{len(failed)} of {len(every)} fail:\n" + "\n".join(failed[:20])

        over_all.__name__, over_all.__doc__, over_all.__module__ = (
            test.__name__,
            test.__doc__,
            test.__module__,
        )
        return over_all

    return decorated
