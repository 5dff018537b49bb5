"""Cheap expressions of how words begin, for looking whether a line holds any of them at all."""

from __future__ import annotations

from collections.abc import Iterable


def lead(beginnings: Iterable[str], apart: bool = False) -> str:
    """An expression for any of some beginnings of words, in either case; with `apart` no letter stands before it.

    Each is an expression that begins with a plain sign. Python passes over the signs with which none of several
    alternatives begins many times faster than it tries them, but only where these stand first and in their own case.

    >>> lead(["morse", "pin", "pen"])
    'M(?i:orse)|m(?i:orse)|P(?i:en|in)|p(?i:en|in)'
    """
    by_sign: dict[str, list[str]] = {}
    for beginning in sorted({beginning[0].lower() + beginning[1:] for beginning in beginnings}):
        by_sign.setdefault(beginning[0], []).append(beginning[1:])
    return "|".join(
        f"{sign}{rf'(?<![A-Za-z]{sign})' if apart else ''}(?i:{'|'.join(rests)})"
        for first, rests in by_sign.items()
        for sign in sorted({first.upper(), first})
    )
