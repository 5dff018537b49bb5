"""All that the program calls by a name, on one list, to be read against the rule on our own shape: `python tests/said.py`.

Words of the language with their forms, functions, units and rules, the command's words and options, the prompt's words, keys
and replies, settings, headings of sheets, columns of CSV, keys of JSON, layers for a machine, endings of files, states and marks.
Nobody can test that none of it is another program's: read it, and ask of each group which program a practitioner would name.
"""

from __future__ import annotations

import csv
import io
import json
import sys
from collections.abc import Iterator
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from fractions_shop import requests
from fractions_shop.command import options
from fractions_shop.command.forms import FORMS
from fractions_shop.command.words import column, compare, find, sheet
from fractions_shop.language.functions import FUNCTIONS
from fractions_shop.meant.verdict import SizeVerdict
from fractions_shop.prompt.own_words import HABITS, WORDS
from fractions_shop.sheet.line_words import line_words
from fractions_shop.show.sheet import Sheet
from fractions_shop.size.rule import METRIC_RULES
from fractions_shop.size.standing import STANDINGS
from fractions_shop.threads.records import SERIES

EXAMPLES = Path(__file__).parents[1] / "examples"


def groups() -> Iterator[tuple[str, list[str]]]:
    """Each group of names with its heading."""
    yield "requests", [f"{word}: {'; '.join(requests.room(word).forms)}" for word in requests.words()]
    yield "functions", sorted(FUNCTIONS)
    yield "lines of a sheet", list(line_words())
    yield "words of the prompt", [f"{word}: {meaning}" for word, meaning in WORDS.items()]
    yield "words from elsewhere that the prompt answers", list(HABITS)
    yield "forms and endings", [f"{form.ending}: {form.meaning}" for form in FORMS.values()]
    yield "options", sorted(_options())
    yield "verdicts", [verdict.name.lower() for verdict in SizeVerdict]
    yield "standings", list(STANDINGS)
    yield "metric rules", list(METRIC_RULES)
    yield "thread series", [series.key for series in SERIES]
    sheets = [Sheet.from_text(path.read_text("utf-8")) for path in sorted(EXAMPLES.glob("*.shop"))]
    yield "headings of a sheet", sorted({row for sheet in sheets for row in _headings(sheet.to_markdown())})
    yield (
        "columns of CSV",
        sorted({cell for sheet in sheets for cell in next(csv.reader(io.StringIO(sheet.to_csv())))}),
    )
    yield (
        "keys of a sheet's JSON",
        sorted({key for sheet in sheets for key in _keys(json.loads(sheet.to_json()))}),
    )


def _options() -> set[str]:
    found: set[str] = set()
    waiting = [room.parser() for room in (options, column, compare, find, sheet)]
    while waiting:
        each = waiting.pop()
        for action in each._actions:
            found.update(f"{option}: {action.help}" for option in action.option_strings)
            if isinstance(action.choices, dict):
                waiting += list(action.choices.values())
    return found


def _headings(text: str) -> Iterator[str]:
    return (row.strip("# ") for row in text.splitlines() if row.startswith("#"))


def _keys(value: object) -> Iterator[str]:
    if isinstance(value, dict):
        for key, part in value.items():
            yield key
            yield from _keys(part)
    elif isinstance(value, list):
        for part in value:
            yield from _keys(part)


if __name__ == "__main__":
    for heading, names in groups():
        sys.stdout.write(f"\n{heading}\n" + "".join(f"  {name}\n" for name in names))
