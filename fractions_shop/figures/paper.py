"""The papers that pictures are drawn for, and the room that each has for one picture."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from fractions_shop.errors import ShopError


@dataclass(frozen=True, slots=True)
class PaperSize:
    """A sheet of paper, `width` by `height` mm, and the most that a picture on it is `across` and `down`.

    `across` and `down` leave 15 mm on every side, and beneath a picture room for a line of
    words. They are whole quarters of an inch: a browser prints a picture true to size only
    where it is so many whole dots of 1/96 in.
    """

    name: str
    width: Fraction
    height: Fraction
    across: Fraction
    down: Fraction

    @property
    def landscape(self) -> bool:
        """Whether it lies on its side."""
        return self.width > self.height


def _paper(name: str, width: str, height: str, across: str, down: str) -> PaperSize:
    inch = Fraction(254, 10)
    return PaperSize(name, Fraction(width), Fraction(height), Fraction(across) * inch, Fraction(down) * inch)


#: What is drawn for A4, upright, also has room on letter paper.
PAPERS = {
    paper.name.casefold(): paper
    for paper in (
        _paper("A4", "210", "297", "7", "37/4"),
        _paper("letter", "215.9", "279.4", "29/4", "37/4"),
        _paper("A4 landscape", "297", "210", "21/2", "13/2"),
        _paper("letter landscape", "279.4", "215.9", "39/4", "27/4"),
    )
}
A4 = PAPERS["a4"]


def turned(paper: PaperSize) -> PaperSize:
    """The same paper lying on its side, or upright if that is how it lies."""
    return next(
        other for other in PAPERS.values() if (other.width, other.height) == (paper.height, paper.width)
    )


def paper_called(name: str) -> PaperSize:
    """The paper of that name, letters large or small; ShopError for one that is not known here."""
    paper = PAPERS.get(" ".join(name.casefold().split()))
    if paper is None:
        *most, last = (known.name for known in PAPERS.values())
        raise ShopError(f"{name!r} is not a paper known here: {', '.join(most)} or {last}")
    return paper
