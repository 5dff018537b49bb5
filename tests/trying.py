"""How hard tests try: quickly by default, and harder with HYPOTHESIS_PROFILE=ci."""

from __future__ import annotations

import os

HARDER = os.environ.get("HYPOTHESIS_PROFILE") == "ci"


def times(quick: int, hard: int) -> int:
    """How many cases a law is tried on."""
    return hard if HARDER else quick
