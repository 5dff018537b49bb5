"""One sheet, every exit: what is at fault, doubtful, believed, approximate or of unsound standing says so in each.

`breaches` works a sheet out once and reads back what each exit wrote of it, row by row where an exit has rows. It knows
nothing of how a document is made: what must be marked is taken from the worked lines alone.
"""

from __future__ import annotations

import csv
import html
import io
import json
import re
from collections.abc import Iterator
from contextlib import suppress

from pypdf import PdfReader

from fractions_shop import Sheet
from fractions_shop.errors import ShopError
from fractions_shop.size.standing import in_words, is_sound

#: Wide enough for every row of a list to stand on one line.
WIDE = 20_000
_NOT_DRAWN = re.compile(r"\s+")


def _plain(text: str) -> str:
    """Text without blanks, escapes and marking up, so that no folding parts what belongs together."""
    return _NOT_DRAWN.sub("", text)


def _cells(row: str) -> list[str]:
    return [
        " ".join(html.unescape(re.sub("<[^>]*>", " ", cell)).split())
        for cell in re.findall(r"<t[dh][^>]*>(.*?)</t[dh]>", row, re.DOTALL)
    ]


def rows_of_page(page: str) -> list[list[str]]:
    """Every row of every table of a page, as its cells."""
    return [_cells(row) for row in re.findall(r"<tr[^>]*>(.*?)</tr>", page, re.DOTALL)]


def rows_of_text(text: str) -> list[list[str]]:
    """Every row of every list, as its cells: what two blanks part."""
    return [re.split(r" {2,}", row.strip()) for row in text.splitlines() if row.startswith("  ")]


def rows_of_markdown(text: str) -> list[list[str]]:
    """The same of tables in Markdown."""
    return [
        [re.sub(r"\[(.*?)\]\(#.*?\)", r"\1", cell.replace("\\", "")).strip() for cell in re.split(r"(?<!\\)\|", row)[1:-1]]
        for row in text.splitlines() if row.startswith("|")
    ]  # fmt: skip


def breaches(text: str, heavy: bool = False) -> Iterator[str]:
    """What some exit of a sheet does not say of it; `heavy` looks at PDF, DXF and drawings too."""
    job = Sheet.from_text(text).run()
    texts = {
        "text": job.to_text(WIDE),
        "Markdown": job.to_markdown().replace("\\", ""),
        "page": html.unescape(job.to_html()),
    }
    tables = {
        "text": rows_of_text(texts["text"]),
        "Markdown": rows_of_markdown(job.to_markdown()),
        "page": rows_of_page(job.to_html()),
    }
    plain = {way: _plain(said) for way, said in texts.items()}
    if heavy:
        with suppress(ShopError):  # a sign that no font of the page has is refused, with its line
            pages = PdfReader(io.BytesIO(job.to_pdf())).pages
            plain["PDF"] = _plain("".join(page.extract_text() for page in pages))
    table = list(csv.DictReader(io.StringIO(job.to_csv(), newline="")))
    data = json.loads(job.to_json())
    yield from _faults(job, plain, table, data)
    yield from _marks(job, tables, plain, table, data)
    yield from _figures(job, tables, table, data)
    yield from _machine(job, heavy)


def _faults(job: Sheet, plain: dict[str, str], table: list[dict[str, str]], data: dict) -> Iterator[str]:
    lines = {line["line"]: line for line in reversed(data["lines"])}  # the first of a line that sets several
    for item in job.worked:
        number = item.line.number
        if item.line.also or not item.undone:
            continue
        if item.fault is not None:
            said = _plain(item.fault.message)
            for way, whole in plain.items():
                if (said.replace("\\", "") if way == "Markdown" else said) not in whole:
                    yield f"{way} lacks the fault of line {number}"
            if lines[number].get("fault", {}).get("error") != item.fault.message:
                yield f"JSON lacks the fault of line {number}"
        elif lines[number]["state"] != "waits":
            yield f"JSON does not say that line {number} waits"
        if not any(row["remark"].startswith("not worked out") for row in table if row["line"] == str(number)):
            yield f"CSV lacks line {number}, which was not worked out"


def _marks(
    job: Sheet, tables: dict, plain: dict[str, str], table: list[dict[str, str]], data: dict
) -> Iterator[str]:
    doubts = job.doubts
    told = {each["line"] for kind in ("doubtful", "moved", "believed") for each in data[kind]}
    told |= {line for kind in ("resting", "resting_on_moved", "resting_on_belief") for line in data[kind]}
    for item in job.worked:
        line, number = item.line, item.line.number
        name = item.part.name if item.part is not None else line.sets
        nothing = item.part is None and item.value is None  # a reading off a print may give no size at all
        if item.undone or not name or nothing or name in doubts.settled or not item.is_listed:
            continue
        marked = number in doubts.marked
        if marked and number not in told:
            yield f"JSON lacks the doubt of line {number}"
        for way, rows in tables.items():
            mine = [row for row in rows if row[0] in (name, f"{name} *")]
            if marked and not any(row[0] == f"{name} *" for row in mine):
                yield f"{way} does not mark {name}, line {number}"
            # A part is also marked for what is cut in it.
            if not marked and name not in job.parts and any(row[0] == f"{name} *" for row in mine):
                yield f"{way} marks {name}, line {number}, of which there is no doubt"
        if marked and "PDF" in plain and _plain(f"{name} *") not in plain["PDF"]:
            yield f"PDF does not mark {name}, line {number}"
        mine = [row for row in table if str(number) in row["line"].split(", ")]
        if marked and any(not row["remark"] for row in mine):
            kinds = {row["kind"] for row in mine if not row["remark"]}
            yield f"CSV has no remark on line {number} in its rows of kind {kinds}"


def _figures(job: Sheet, tables: dict, table: list[dict[str, str]], data: dict) -> Iterator[str]:
    by_line = {(row["name"], row["line"]): row for row in table if row["kind"] == "size"}
    for item in job.worked:
        name, value = item.line.sets, item.value
        if item.undone or not name or value is None:
            continue
        approximate, standing = bool(value.approximate), value.standing
        row, kept = by_line.get((name, str(item.line.number))), data["sizes"].get(name)
        if row is None or kept is None:
            yield f"{'CSV' if row is None else 'JSON'} lacks {name}"
            continue
        if row["approximate"] != ("yes" if approximate else "no"):
            yield f"CSV says {row['approximate']} of approximate {name}"
        inner = json.dumps(kept)
        if ('"approximate": true' in inner) != approximate:
            yield f"JSON does not say rightly whether {name} is approximate"
        if not is_sound(standing) and (row["standing"] != in_words(standing) or f'"{standing}"' not in inner):
            yield f"CSV or JSON lacks the standing of {name}"
        for way, rows in tables.items():
            mine = [" ".join(each) for each in rows if each[0] in (name, f"{name} *")]
            if approximate and not any(
                "~" in each or "about" in each or "approximate" in each for each in mine
            ):
                yield f"{way} does not say that {name} is approximate: {mine}"
            if not is_sound(standing) and not any(in_words(standing) in each for each in mine):
                yield f"{way} lacks the standing of {name}: {mine}"
            if bool(row["lower in"]) and not any(len(each) for each in mine):
                yield f"{way} lacks {name}"


def _machine(job: Sheet, heavy: bool) -> Iterator[str]:
    """Parts and places that a machine is to cut: what they rest on and what they lack."""
    ways = {"xy": job.to_coordinates}
    if heavy:
        ways |= {"DXF": job.to_dxf, "SVG": job.to_svg}
    doubts = job.doubts
    for name, cut in job.cut_parts.items():
        lines = {cut.line, *(each.line for each in cut.cuts)}
        lines |= {
            item.line.number for item in job.worked if item.feature is not None and item.feature.part == name
        }
        lacks = [
            i.line.number
            for i in job.worked
            if i.undone and i.line.kind == "feature" and i.line.cut_in.casefold() in ("", name.casefold())
        ]
        for way, write in ways.items():
            try:
                said = _plain(html.unescape(write(part=name)))
            except ShopError:
                continue
            if lines & (doubts.doubtful | doubts.of_moved) and "DOUBTFUL" not in said.upper():
                yield f"{way} does not say that {name} is doubtful"
            if lines & doubts.of_belief and "BELIEF" not in said.upper() and "DOUBTFUL" not in said.upper():
                yield f"{way} does not say that {name} rests on a belief"
            if lacks and "INCOMPLETE" not in said:
                yield f"{way} does not say that {name} lacks lines {lacks}"
