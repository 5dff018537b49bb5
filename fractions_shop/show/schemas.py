"""The JSON Schemas that lie ready in the package, made of the types of what is written."""

from __future__ import annotations

import json
from pathlib import Path

_PACKAGE = Path(__file__).parents[1]


def schema(what: str) -> str:
    """The JSON Schema of an `answer` or of a `sheet` as text; that of a sheet holds the other, which it refers to.

    >>> json.loads(schema("sheet"))["$defs"]["answer"]["$id"]
    'urn:fractions-shop:answer:1'
    """
    answer = (_PACKAGE / "requests" / "answer.schema.json").read_text("utf-8")
    if what == "answer":
        return answer.rstrip("\n")
    whole = json.loads((_PACKAGE / "show" / "sheet.schema.json").read_text("utf-8"))
    whole["$defs"]["answer"] = json.loads(answer)
    return json.dumps(whole, indent=1)
