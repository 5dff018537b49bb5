"""The grammar at work. The only importer of lark; the grammar itself is in grammar/*.lark."""

from __future__ import annotations

import os
import re
import sys
from functools import cache
from pathlib import Path
from typing import Any, cast

from lark import Lark, Token
from lark.exceptions import LarkError, UnexpectedCharacters, UnexpectedInput, UnexpectedToken

from fractions_shop.language.advice import missing_units as missing
from fractions_shop.language.advice.explain import Place, explain, explain_fault
from fractions_shop.language.build import Builder
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Statement


def statement(text: str, meant: str) -> Statement | None:
    """The statement that `meant` (the line `text` with its signs made plain) says.

    None for a blank or comment line, InputError when it cannot be read.
    """
    try:
        found = cast("Statement | None", _parser().parse(meant))
        missing.check(found, text)
    except Fault as fault:
        raise explain_fault(fault, text, meant, _reads) from None
    except UnexpectedToken as error:
        raise explain(text, meant, _where(error), _reads) from None
    except UnexpectedCharacters as error:
        start = error.pos_in_stream or 0
        raise explain(text, meant, Place(start, start + 1, "", "", frozenset()), _reads) from None
    return found


def _reads(line: str) -> bool:
    """Whether a line could be read, with no word in it that is unknown beforehand."""
    try:
        found = cast("Statement | None", _parser().parse(line))
        missing.check(found, line)
    except (Fault, LarkError):
        return False
    return found is not None and not missing.has_odd_word(found)


def _where(error: UnexpectedToken) -> Place:
    """Place, kind of what was found, kind of what stood before, and what could have stood there."""
    token = error.token
    before = ""
    state = getattr(error.interactive_parser, "parser_state", None)
    if state is not None and state.value_stack:
        last = state.value_stack[-1]
        before = last.type if isinstance(last, Token) else "size"
    expected = frozenset(error.accepts or error.expected or ())
    if token.type == "$END":
        # The parser places the end at its last token; a person looks behind it.
        return Place(-1, -1, "$END", before, expected)
    start, kind = token.start_pos or 0, token.type
    if kind in _LONG and kind not in expected:
        # Out of their own place these swallow the rest of the line: only its first piece is at fault.
        piece = _PIECE.match(str(token))
        length = piece.end() if piece else 1
        return Place(start, start + length, _kind_of(str(token)[:length]), before, expected)
    return Place(start, token.end_pos or 0, kind, before, expected)


#: Terminals that take text as it stands, where the grammar asks for it.
_LONG = frozenset({"DESIGNATION", "ZONES"})
_PIECE = re.compile(r"[A-Za-zµ]\w*|[0-9][0-9./]*")


def _kind_of(piece: str) -> str:
    """The kind of terminal that a piece would have been by itself; nothing for a sign not used."""
    if piece[0] in "0123456789":
        return "NUMBER"
    if piece[0].isalpha():
        return "NAME"
    return {
        "=": "EQUALS",
        ")": "RPAR",
        ",": "COMMA",
        "(": "LPAR",
        "+": "PLUS",
        "-": "MINUS",
        "*": "STAR",
        "/": "SLASH",
        "^": "CARET",
    }.get(piece, "")


def terminals() -> frozenset[str]:
    """The names of the grammar's terminals, for tests and for colouring."""
    return frozenset(t.name for t in _parser().terminals)


def lark_parser() -> Lark:
    """The parser itself, for the prompt's colouring and completion."""
    return _parser()


@cache
def _parser() -> Lark:
    options: dict[str, Any] = {
        "parser": "lalr",
        "lexer": "contextual",
        "maybe_placeholders": True,
        "transformer": Builder(),
    }
    path = str(_grammar_folder() / "shop.lark")
    folder = _cache_folder()
    if folder is not None:
        try:
            return Lark.open(path, cache=str(folder / "grammar.cache"), **options)
        except (OSError, LarkError, UnexpectedInput):
            pass  # a cache that cannot be written or read costs time, not an answer
    return Lark.open(path, **options)


def _grammar_folder() -> Path:
    """In an installed package the grammar lies inside it; in a checkout it lies beside it."""
    package = Path(__file__).parents[1]
    inside = package / "grammar"
    return inside if inside.is_dir() else package.parent / "grammar"


def _cache_folder() -> Path | None:
    """The user's own cache folder for us, made private; None if it cannot be had.

    The same folder that platformdirs names; that library is not loaded for one answer
    because it takes as long as the answer.
    """
    try:
        folder = cache_home() / "fractions-shop"
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        # lark unpickles the cache, so a folder that others could write into is not used.
        status = folder.stat()
        if hasattr(os, "getuid") and (status.st_uid != os.getuid() or status.st_mode & 0o022):
            return None
    except (OSError, RuntimeError):
        return None
    return folder


def cache_home() -> Path:
    """Where this user's caches live, by the custom of the system."""
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or Path.home() / "AppData/Local")
    if sys.platform == "darwin":
        return Path.home() / "Library/Caches"
    named = os.environ.get("XDG_CACHE_HOME", "").strip()
    return Path(named) if named and Path(named).is_absolute() else Path.home() / ".cache"
