"""Sentences and tables as HTML: paragraphs, and tables that a narrow screen can stack."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from html import escape
from itertools import groupby
from typing import NamedTuple

from fractions_shop.figures.close_up import CloseUp
from fractions_shop.figures.figure import Figure
from fractions_shop.figures.plain import Lines, PictureLine
from fractions_shop.figures.table import Cell, Table, each_cell, lines_in
from fractions_shop.figures.two_units import Halves, behind_point, filled_up, fits_paper, in_halves

#: Columns of a picture in letters, where nothing draws it.
_PICTURE = 72
#: What bars are drawn with in letters.
_BARS = str.maketrans("█▓▒░│", "     ")
#: Heads the column of lines where something is set out and drawn.
SEEN = "see line"
#: Stands beside what is marked as changed.
CHANGED = '<strong class="changed">changed</strong>'
#: Cells of up to so many characters are not broken.
_TIGHT = 14


def text(words: str) -> str:
    """Words as HTML: marked up, and without signs that HTML forbids."""
    if words.isprintable():  # as most are; looking at each sign takes ten times as long
        return escape(words)
    return escape("".join(c if c >= " " or c in "\t\n" else "\ufffd" for c in words))


def html_lines(lines: Lines, state: str = "answered") -> str:
    """Sentences as paragraphs, tables as tables; the first sentence stands out for a check or fault."""
    kind = f' class="said {state}"' if state in ("holds", "fails", "fault", "waits") else ""
    written = []
    for n, line in enumerate(_pictures_whole(lines)):
        match line:
            case tuple():
                written.append(
                    f'<pre role="img" aria-label="{text(_words_of(line))}">{text(chr(10).join(line))}</pre>\n'
                )
            case Table():
                written.append(table(line))
            case CloseUp():
                drawn = "\n".join([*line.letters(_PICTURE), f"  {line.caption}"])
                written.append(f'<pre role="img" aria-label="{text(line.words)}">{text(drawn)}</pre>\n')
            case _:
                written.append(f"<p{'' if n else kind}>{text(line)}</p>\n")
    return "".join(written)


def _pictures_whole(lines: Lines) -> Iterator[str | Table | CloseUp | tuple[str, ...]]:
    """The lines, those of one picture in letters together: apart they would lose their common zero."""
    for drawn, some in groupby(lines, lambda line: isinstance(line, PictureLine)):
        if drawn:
            yield tuple(map(str, some))
        else:
            yield from some


def _words_of(picture: Sequence[str]) -> str:
    """What stands beside the bars of a picture in letters, for who cannot see it."""
    return "; ".join(" ".join(line.translate(_BARS).split()) for line in picture)


def table(
    shown: Table,
    kind: str = "",
    links: Links | None = None,
    about: Sequence[int] = (),
) -> str:
    """A table whose cells know their column's name, so that a narrow screen can stack them.

    Numbers of lines are `links` to what stands on the page of them, and the first cell of each row is one to the
    line that the row is `about`, if these are given.
    """
    kind = kind if shown.header else f"{kind} bare".strip()
    columns = in_halves(shown)
    halved = _Halved(columns, bool(columns) and fits_paper(shown, columns))
    opening = f'<table class="{kind}">' if kind else "<table>"
    head = ""
    if shown.header:
        # A heading that says nothing is none: a reader of screens would announce it.
        cells = "".join(
            f'<th scope="col"{wide}>{text(name)}</th>' if name else f"<td{wide}></td>"
            for n, name in enumerate(shown.heads)
            for wide in [' colspan="2"' if n in halved.columns else ""]
        )
        head = f"<thead><tr>{cells}</tr></thead>"
    rows = "".join(
        _row(row, shown, links or Links(), figures, about[n] if about else 0, halved, n)
        for n, (figures, row) in enumerate(zip(aligned(shown), each_cell(shown), strict=True))
    )
    return f"{opening}{head}<tbody>{rows}</tbody></table>\n"


class Aligned(NamedTuple):
    """A figure of a column of figures: its decimals, and what would have to stand behind it for as many as any has."""

    decimals: int
    pad: str


def aligned(shown: Table) -> list[tuple[Aligned | None, ...]]:
    """How each figure must stand for all the points of a column to be in line.

    None for what is no figure, or stands in a column of other things.
    """
    decimals = _decimals(shown)
    return [tuple(map(_aligned, row, decimals)) for row in shown.rows]


def _decimals(shown: Table) -> tuple[int, ...]:
    """For each column how many decimals its figures have at most; zero where they do not stand alone in it."""
    if not shown.rows:
        return ()
    most = [0] * len(shown.rows[0])
    alone = [bool(shown.header)] * len(most)
    for row in shown.rows:
        for n, cell in enumerate(row):
            figure = _alone(cell)
            if figure is not None:
                most[n] = max(most[n], behind_point(figure))
            elif cell if isinstance(cell, str) else cell.pieces:
                alone[n] = False
    return tuple(many if stands else 0 for many, stands in zip(most, alone, strict=True))


def _alone(cell: Cell | str) -> Figure | None:
    """The one decimal figure without a unit that a cell tells, or None."""
    if isinstance(cell, str) or cell.beside or len(cell.pieces) != 1:
        return None
    figure = cell.pieces[0]
    return figure if isinstance(figure, Figure) and figure.form == "decimal" and not figure.unit else None


def _aligned(cell: Cell | str, decimals: int) -> Aligned | None:
    figure = _alone(cell) if decimals else None
    if figure is None:
        return None
    has = behind_point(figure)
    return Aligned(has, filled_up(has, decimals))


def _unseen(pad: str) -> str:
    """What stands unseen behind a figure."""
    return f'<span class="pad" aria-hidden="true">{pad}</span>' if pad else ""


class _Halved(NamedTuple):
    """The columns of a table that stand in two, and whether short figures in them are kept on one line."""

    columns: Mapping[int, tuple[Halves | None, ...]]
    fits: bool


def _in_two(halves: Halves | None, label: str, inner: str, fits: bool) -> str:
    """Two cells for a size in two units, or one as wide for whatever else stands in such a column."""
    if halves is None:
        return f'<td{label} colspan="2">{inner}</td>' if inner else '<td colspan="2"></td>'
    cells = []
    for half, kind, named in zip(halves, ("unit", "beside"), (label, ""), strict=True):
        tight = "tight " if half.is_short and fits else ""
        said = f"{text(half.number)}{_unseen(half.pad)}{text(half.behind)}"
        cells.append(f'<td{named} class="{tight}figure {kind}">{said}</td>')
    return "".join(cells)


def _row(
    row: tuple[str, ...],
    shown: Table,
    links: Links,
    figures: tuple[Aligned | None, ...],
    about: int,
    halved: _Halved,
    k: int,
) -> str:
    cells, header = [], shown.heads
    for n, cell in enumerate(row):
        name = header[n] if header else ""
        inner = links.of(lines_in(shown.rows[k][n]), name == SEEN) if name in ("line", SEEN) else text(cell)
        if n == 0 and not cell:
            cells.append("<td></td>")
            continue
        if n == 0:
            cells.append(f'<th scope="row">{links.around(inner, about)}</th>')
            continue
        label = f' data-label="{text(name)}"' if name else ""
        if n in halved.columns:
            cells.append(_in_two(halved.columns[n][k], label, inner, halved.fits))
            continue
        figure = figures[n]
        if figure is not None:
            cells.append(f'<td{label} class="tight figure">{inner}{_unseen(figure.pad)}</td>')
            continue
        # Where cells of a table without headings run on in one line, a figure need not be said twice.
        again = not header and cell == row[n - 1] and n < len(row) - 1
        cells.append(f"<td{label}{_kind(cell, again)}>{inner}</td>")
    return f"<tr>{''.join(cells)}</tr>"


def _kind(cell: str, again: bool) -> str:
    """The class of a cell: a verdict stands out, and a figure and its unit stay on one line."""
    verdict = {"holds": "said holds", "FAILS": "said fails"}.get(cell)
    kind = verdict or ("tight" if 0 < len(cell) <= _TIGHT else "")
    kind = f"{kind} again".strip() if again else kind
    return f' class="{kind}"' if kind else ""


class Links(NamedTuple):
    """The lines that stand on a page, those of them whose picture stands apart, and those to be marked as changed."""

    lines: frozenset[int] = frozenset()
    drawn: frozenset[int] = frozenset()
    changed: frozenset[int] = frozenset()

    def of(self, numbers: tuple[str, ...], seen: bool) -> str:
        """The numbers of lines, each leading to that line when it is on this page, or to what is `seen` of it."""
        return ", ".join(
            f'<a href="{self._place(int(number), seen)}" aria-label="line {number}">{number}</a>'
            if number.isdecimal() and int(number) in self.lines
            else text(number)
            for number in numbers
        ) + self._mark(numbers, seen)

    def around(self, inner: str, line: int) -> str:
        """What leads to the picture of a line, or else to the line."""
        mark = f" {CHANGED}" if line in self.changed else ""
        return f'<a href="{self._place(line, True)}">{inner}</a>{mark}' if line in self.lines else inner

    def _mark(self, numbers: Sequence[str], seen: bool) -> str:
        """That a row is of a line that changed."""
        of_changed = any(number.isdecimal() and int(number) in self.changed for number in numbers)
        return f" {CHANGED}" if of_changed and not seen else ""

    def _place(self, line: int, seen: bool) -> str:
        return f"#line-{line}-picture-1" if seen and line in self.drawn else f"#line-{line}"
