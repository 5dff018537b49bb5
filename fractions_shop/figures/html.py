"""Sentences and tables as HTML: paragraphs, and tables that a narrow screen can stack."""

from __future__ import annotations

from html import escape

from fractions_shop.figures.close_up import CloseUp
from fractions_shop.figures.figure import Figure
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.table import Cell, Table, each_cell
from fractions_shop.size.notation import to_places

#: Columns of a picture in letters, where nothing draws it.
_PICTURE = 72
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
    for n, line in enumerate(lines):
        match line:
            case Table():
                written.append(table(line))
            case CloseUp():
                drawn = "\n".join([*line.letters(_PICTURE), f"  {line.caption}"])
                written.append(f'<pre role="img" aria-label="{text(line.words)}">{text(drawn)}</pre>\n')
            case _:
                written.append(f"<p{'' if n else kind}>{text(line)}</p>\n")
    return "".join(written)


def table(shown: Table, kind: str = "", lines: frozenset[int] = frozenset()) -> str:
    """A table whose cells know their column's name, so that a narrow screen can stack them."""
    kind = kind if shown.header else f"{kind} bare".strip()
    opening = f'<table class="{kind}">' if kind else "<table>"
    head = ""
    if shown.header:
        # A heading that says nothing is none: a reader of screens would announce it.
        cells = "".join(f'<th scope="col">{text(name)}</th>' if name else "<td></td>" for name in shown.heads)
        head = f"<thead><tr>{cells}</tr></thead>"
    decimals = _decimals(shown)
    rows = "".join(
        _row(row, shown.heads, lines, tuple(map(_pad, typed, decimals)))
        for typed, row in zip(shown.rows, each_cell(shown), strict=True)
    )
    return f"{opening}{head}<tbody>{rows}</tbody></table>\n"


def _decimals(shown: Table) -> tuple[int, ...]:
    """For each column how many decimals its figures have at most; nought where they do not stand alone in it."""
    if not shown.rows:
        return ()
    most = [0] * len(shown.rows[0])
    alone = [bool(shown.header)] * len(most)
    for row in shown.rows:
        for n, cell in enumerate(row):
            figure = _alone(cell)
            if figure is not None:
                most[n] = max(most[n], _behind_point(figure))
            elif cell if isinstance(cell, str) else cell.pieces:
                alone[n] = False
    return tuple(many if stands else 0 for many, stands in zip(most, alone, strict=True))


def _alone(cell: Cell | str) -> Figure | None:
    """The one decimal figure without a unit that a cell tells, or None."""
    if isinstance(cell, str) or cell.beside or len(cell.pieces) != 1:
        return None
    figure = cell.pieces[0]
    return figure if isinstance(figure, Figure) and figure.form == "decimal" and not figure.unit else None


def _behind_point(figure: Figure) -> int:
    """How many decimals a figure is written with."""
    scaled, places = to_places(figure.value, figure.places)[0], figure.places
    while places and scaled % 10 == 0:
        scaled, places = scaled // 10, places - 1
    return places


def _pad(cell: Cell | str, decimals: int) -> str | None:
    """What stands unseen behind a figure, so that points stand below one another; None where nothing is aligned."""
    figure = _alone(cell) if decimals else None
    if figure is None:
        return None
    has = _behind_point(figure)
    return "0" * (decimals - has) if has else f".{'0' * decimals}"


def _row(
    row: tuple[str, ...], header: tuple[str, ...], lines: frozenset[int], pads: tuple[str | None, ...]
) -> str:
    cells = []
    for n, cell in enumerate(row):
        name = header[n] if header else ""
        inner = _linked(cell, lines) if name in ("line", "see line") else text(cell)
        if n == 0 and not cell:
            cells.append("<td></td>")
            continue
        if n == 0:
            cells.append(f'<th scope="row">{inner}</th>')
            continue
        label = f' data-label="{text(name)}"' if name else ""
        pad = pads[n]
        if pad is not None:
            unseen = f'<span class="pad" aria-hidden="true">{pad}</span>' if pad else ""
            cells.append(f'<td{label} class="tight figure">{inner}{unseen}</td>')
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


def _linked(cell: str, lines: frozenset[int]) -> str:
    """The numbers of lines, each leading to that line when it is on this page."""
    numbers = cell.split(", ")
    return ", ".join(
        f'<a href="#line-{number}" aria-label="line {number}">{number}</a>'
        if number.isdecimal() and int(number) in lines
        else text(number)
        for number in numbers
    )
