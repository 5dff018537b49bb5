"""The text of a sheet, out of a file."""

from __future__ import annotations

from pathlib import Path

from fractions_shop.errors import ShopError, visible
from fractions_shop.files.bounded import first_bytes

#: Of a larger file no more than this is read, and then it is refused.
MOST_BYTES = 32_000_000


def text_of(path: Path) -> str:
    """The text of a file in UTF-8; ShopError, with the reason, if it cannot be read."""
    name = visible(str(path))
    try:
        raw = first_bytes(path, MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        raise ShopError(f"{name} cannot be read: {getattr(error, 'strerror', None) or error}") from None
    return decoded(raw, name)


def decoded(raw: bytes, name: str) -> str:
    """The text of a file in UTF-8; ShopError, with the place, for anything else or for too much of it."""
    if len(raw) > MOST_BYTES:
        raise ShopError(f"{name} is larger than any sheet: {MOST_BYTES:,} bytes is the most that is read")
    if raw[:2] in (b"\xff\xfe", b"\xfe\xff"):
        raise ShopError(f"{name} is in UTF-16: save it in UTF-8")
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw[: error.start].count(b"\n") + 1
        raise ShopError(f"{name} is not text in UTF-8 (line {line}): save it in UTF-8") from None
