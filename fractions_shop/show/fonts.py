"""The letters of a printed page: free fonts, of which a page carries the letters that it uses.

Fira Sans, and for signs that it lacks Inter (primes, circled figures) and Fira Code (the sign of a
diameter), all three under the SIL Open Font License 1.1. They come with the extra `print`.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator
from functools import cache
from importlib.util import find_spec
from pathlib import Path

from reportlab.pdfbase.pdfmetrics import registerFont
from reportlab.pdfbase.ttfonts import TTFError, TTFont

from fractions_shop.errors import InputError, ShopError

TEXT, BOLD = "FiraSans-Regular", "FiraSans-Bold"
#: Every face, by the package and the file that it is in.
_FILES = {
    TEXT: ("fontpkg_fira_sans", "FiraSans-Regular.ttf"),
    BOLD: ("fontpkg_fira_sans", "FiraSans-Bold.ttf"),
    "Inter": ("fontpkg_inter", "Inter[opsz,wght].ttf"),
    "FiraCode": ("fontpkg_fira_code", "FiraCode[wght].ttf"),
}
#: The faces that are asked in turn for a sign that the first lacks.
_OTHERS = ("Inter", "FiraCode")
ADVICE = "write it in other letters, or print the page that --to html makes from a browser"


@cache
def signs(face: str) -> frozenset[int]:
    """The signs that a face has, by number; ShopError if its font is not installed."""
    package, file = _FILES[face]
    home = find_spec(package)
    if home is None or home.origin is None:
        raise ShopError(
            f"printing to PDF needs the font in {package.replace('_', '-')}, which is not installed: "
            "pip install 'fractions-shop[print]'"
        )
    try:
        font = TTFont(face, str(Path(home.origin).parent / "files" / file))
    except TTFError as error:
        raise ShopError(f"the font of {package} cannot be read: {error}") from None
    registerFont(font)
    return frozenset(font.face.charToGlyph)


def load() -> None:
    """Make the faces of text ready; the others are read when a sign needs them."""
    signs(TEXT)
    signs(BOLD)


def runs(text: str, face: str = TEXT) -> Iterator[tuple[str, str]]:
    """Text cut where the face changes: each face with what is written in it.

    Accents stand on their letters, and tabs and hard blanks are blanks; ShopError for a sign that
    no face has.
    """
    last, run = face, ""
    for sign in _plain(text):
        font = _face(sign, face)
        if font is None:
            raise ShopError(f"{_called(sign)} is in none of the fonts of the printed page: {ADVICE}")
        if font != last:
            yield from [(last, run)] if run else []
            last, run = font, ""
        run += sign
    if run:
        yield last, run


def check(title: str, lines: Iterable[tuple[int, str]]) -> None:
    """InputError, with its place, for the first sign of a sheet's lines that no face has; ShopError for its title."""
    for number, text in lines:
        if text.isascii() and text.isprintable():
            continue
        for start, end in _clusters(text):
            cluster = _plain(text[start:end])
            lost = next((sign for sign in cluster if _face(sign, TEXT) is None), None)
            if lost is not None:
                raise InputError(
                    f"{_called(lost)} is in none of the fonts of the printed page",
                    text,
                    start,
                    end,
                    ADVICE,
                    number,
                )
    lost = next((sign for sign in _plain(title) if _face(sign, TEXT) is None), None)
    if lost is not None:
        raise ShopError(
            f"the title {title!r}: {_called(lost)} is in none of the fonts of the printed page: {ADVICE}"
        )


def _face(sign: str, first: str) -> str | None:
    """The face that a sign is written in; None for a sign that has none, or stands on the one before it."""
    if unicodedata.combining(sign):
        return None
    return next((face for face in (first, *_OTHERS) if ord(sign) in signs(face)), None)


def _plain(text: str) -> str:
    composed = unicodedata.normalize("NFC", text)
    return "".join(" " if sign in "\t\u00a0\u2007\u202f" else sign for sign in composed)


def _clusters(text: str) -> Iterator[tuple[int, int]]:
    """The places of each letter with the accents that follow it."""
    start = 0
    for end in range(1, len(text) + 1):
        if end == len(text) or not unicodedata.combining(text[end]):
            yield start, end
            start = end


def _called(sign: str) -> str:
    """A sign with its name, as the Unicode standard has it."""
    name = unicodedata.name(sign, "")
    shown = f"{sign!r} " if sign.isprintable() else ""
    return f"{shown}(U+{ord(sign):04X}{f', {name}' if name else ''})"
