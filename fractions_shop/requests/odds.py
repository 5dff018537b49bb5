"""Odds and chances as a maker says them."""

from __future__ import annotations


def odds_text(odds: float) -> str:
    """Odds as a maker says them: `5 to 1 on`, `2.57 to 1 against`."""
    if odds >= 10_000:
        return "over 10,000 to 1 on"
    if odds >= 1:
        return f"{_three(odds)} to 1 on"
    return f"{_three(1 / odds)} to 1 against" if odds > 1e-4 else "over 10,000 to 1 against"


def _three(odds: float) -> str:
    """About three figures: 2.57, 31, 5,220."""
    return f"{odds:,.0f}" if odds >= 100 else f"{odds:.3g}"
