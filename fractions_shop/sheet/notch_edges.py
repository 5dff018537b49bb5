"""The edge that a notch is cut in, as a line says it; `reads` tells there whether a line can be read."""

from __future__ import annotations

import re
from collections.abc import Callable

from fractions_shop.errors import InputError
from fractions_shop.language.advice.offers import Offer, write

_EDGE = re.compile(r"\s*(?:the\s+)?(left|right|lower|upper|bottom|top)(?:\s+edge)?\s*", re.IGNORECASE)
_ON = re.compile(r"\son\s", re.IGNORECASE)
_ALONG = re.compile(r"\salong(?=\s|$)", re.IGNORECASE)
_IN_EDGE = re.compile(
    r"\s(?:in|on|into|at)\s+(?:the\s+)?(left|right|lower|upper|bottom|top)(?:[ -]hand)?(?:\s+(?:edge|side))?(?=\s|$)",
    re.IGNORECASE,
)
_FROM_END = re.compile(
    r"\sfrom\s+(?:the\s+)?(left|lower|bottom)(?:[ -]hand)?(?:\s+(?:end|edge|corner))?(?=\s|$)", re.IGNORECASE
)
_ALSO_EDGES = {"bottom": "lower", "top": "upper"}


def refuse_edge_said_else(text: str, meant: str, start: int, reads: Callable[[str], bool]) -> None:
    """InputError for `in the lower edge at 1 in`, `at 1 in on the left`, `at 1 in from the left along lower edge`."""
    from_end = _FROM_END.search(meant, start)
    elsewhere = _IN_EDGE.search(meant, start)
    if from_end is not None and _ALONG.search(meant, start):
        said, message = from_end, "the distances of a notch are counted from the lower left corner as it is"
        whole = f"{meant[: said.start()]}{meant[said.end() :]}"
    elif elsewhere is not None and not _ALONG.search(meant, start):
        said, message = elsewhere, "a notch is cut along an edge, which stands behind its distances"
        edge = said[1].lower()
        whole = f"{meant[: said.start()]}{meant[said.end() :]} along {_ALSO_EDGES.get(edge, edge)} edge"
    else:
        return
    whole = " ".join(whole.split())
    if reads(whole):
        raise InputError(message, text, said.start(1), said.end(), write(whole))


def edge_of(
    text: str, meant: str, span: tuple[int, int] | None, end: int, reads: Callable[[str], bool], example: str
) -> str:
    """The edge that a notch is cut in."""
    if span is None:
        whole = f"{meant[:end].strip()} along lower edge"
        offered = write(Offer(whole, completes=True), lead="write it like this: ")
        raise InputError(
            "a notch says which edge it is cut in", text, end, end, offered if reads(whole) and not _ON.search(meant) else example,
            ended=True, expected="along an edge",
        )  # fmt: skip
    said = _EDGE.fullmatch(meant, *span)
    if said is None:
        begun = not meant[slice(*span)].strip()
        raise InputError(
            "a notch is cut along the left, right, lower or upper edge", text, span[0], max(span[1], span[0] + 1),
            example, ended=begun, expected="left, right, lower or upper" if begun else "",
        )  # fmt: skip
    word = said[1].lower()
    return _ALSO_EDGES.get(word, word)
