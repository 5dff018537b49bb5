"""Write the JSON Schema of answers and of sheets from the typed results that they are made of.

A room's result is what its `lines` take, and the one size of an answer is what its `answer` gives
beside the result.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from types import UnionType
from typing import (
    Any,
    Union,
    get_args,
    get_origin,
)

from schema_maker import Maker, Schema, first_words

from fractions_shop import requests
from fractions_shop.requests import data
from fractions_shop.show import comparison_data, sheet_data, side_by_side
from fractions_shop.size.rule import METRIC_RULES
from fractions_shop.size.standing import STANDINGS

TOP = Path(__file__).parents[1]
ANSWER = TOP / "fractions_shop" / "requests" / "answer.schema.json"
SHEET = TOP / "fractions_shop" / "show" / "sheet.schema.json"
COMPARISON = TOP / "fractions_shop" / "show" / "comparison.schema.json"
DIALECT = "https://json-schema.org/draft/2020-12/schema"

#: What `requests.data` makes of the values that every answer is made of.
VALUES: dict[str, Schema] = {
    "exact": {
        "description": "An exact rational in lowest terms, as text: 13/32, -3, 127/5.",
        "type": "string",
        "pattern": "^-?(0|[1-9][0-9]*)(/[1-9][0-9]*)?$",
    },
    "share": {
        "description": "A probability, odds or an error that was found, as text: it is no size and rests on assumptions.",
        "type": "string",
        "pattern": "^(-?[0-9]+(\\.[0-9]+)?([eE][-+]?[0-9]+)?|inf)$",
    },
    "length": {
        "description": "A length, in inches and in millimetres; both say the same size.",
        "type": "object",
        "required": ["inch", "mm", "approximate"],
        "properties": {
            "inch": {"$ref": "#/$defs/exact"},
            "mm": {"$ref": "#/$defs/exact"},
            "approximate": {
                "description": "True when a root, an angle function or a measured figure went into it.",
                "type": "boolean",
            },
            "standing": {"$ref": "#/$defs/standing"},
            "within": {
                "description": "How far a measured figure is trusted, where that was said.",
                "$ref": "#/$defs/length",
            },
        },
        "additionalProperties": False,
    },
    "standing": {
        "description": "How far to trust the figures of tables that went into a size; none where none did.",
        "enum": list(STANDINGS),
    },
    "power": {
        "description": "A plain number (unit empty), an area (in^2), a number per length (in^-1), ...",
        "type": "object",
        "required": ["value", "unit", "approximate"],
        "properties": {
            "value": {"$ref": "#/$defs/exact"},
            "unit": {"type": "string", "pattern": "^(in\\^(-?[1-9][0-9]*))?$"},
            "approximate": {"type": "boolean"},
            "standing": {"$ref": "#/$defs/standing"},
        },
        "additionalProperties": False,
    },
    "size": {"anyOf": [{"$ref": "#/$defs/length"}, {"$ref": "#/$defs/power"}]},
    "limits": {
        "description": "A size with limits: upper and lower are the limits of size themselves.",
        "type": "object",
        "required": ["nominal", "upper", "lower"],
        "properties": {name: {"$ref": "#/$defs/size"} for name in ("nominal", "upper", "lower")},
        "additionalProperties": False,
    },
    "angle": {
        "type": "object",
        "required": ["degrees", "approximate"],
        "properties": {
            "degrees": {"$ref": "#/$defs/exact"},
            "approximate": {"type": "boolean"},
            "standing": {"$ref": "#/$defs/standing"},
        },
        "additionalProperties": False,
    },
    "value": {"anyOf": [{"$ref": f"#/$defs/{name}"} for name in ("length", "power", "limits", "angle")]},
    "rule": {
        "description": "The name of a rule: 64ths, mm, half mm.",
        "type": "string",
        "pattern": f"^(-?[0-9]+(ths|nds|rds|sts)|{'|'.join(METRIC_RULES)})$",
    },
    "part": {
        "description": "Any part of an answer. Numbers that are not counts are text, never JSON numbers.",
        "anyOf": [
            {"type": ["string", "boolean", "integer", "null"]},
            {"type": "array", "items": {"$ref": "#/$defs/part"}},
            {"type": "object", "additionalProperties": {"$ref": "#/$defs/part"}},
        ],
    },
}
#: A statement that failed, as `requests.data.fault` tells it.
FAULT: Schema = {
    "description": "A statement that could not be read or worked out. Line and column count from 1, column in characters; statements given as arguments count as lines.",
    "type": "object",
    "required": ["schema", "statement", "ok", "error", "advice", "line", "column"],
    "properties": {
        "schema": {"const": data.SCHEMA},
        "statement": {"type": "string"},
        "ok": {"const": False},
        "error": {"type": "string", "minLength": 1},
        "advice": {"type": "string"},
        "line": {"type": "integer", "minimum": 1},
        "column": {"type": "integer", "minimum": 1},
    },
    "additionalProperties": False,
}
_TEXTS = {"type": "array", "items": {"type": "string"}}
#: What `Answer.data` tells of every answer, before what is its kind's own.
COMMON: dict[str, Schema] = {
    "schema": {"const": data.SCHEMA},
    "statement": {"type": "string"},
    "kind": {
        "description": "The request's word, or size for an expression.",
        "enum": ["size", *requests.words()],
    },
    "ok": {"description": "False for a check that does not hold.", "type": "boolean"},
    "name": {"description": "What the statement named it.", "type": ["string", "null"]},
    "value": {
        "description": "The one size of the answer, where it has one.",
        "anyOf": [{"$ref": "#/$defs/value"}, {"type": "null"}],
    },
    "notes": {
        "description": "What is said beside the answer: how its forms were read, doubts, remarks.",
        **_TEXTS,
    },
    "doubts": {"description": "Those of the notes that tell of a second sensible meaning.", **_TEXTS},
}
#: Told of limits that come of several sizes.
STACKED: dict[str, Schema] = {
    "root_sum_square": {"$ref": "#/$defs/limits"},
    "contributions": {
        "type": "array",
        "items": {
            "type": "object",
            "required": ["name", "reach"],
            "properties": {"name": {"type": "string"}, "reach": {"$ref": "#/$defs/size"}},
        },
    },
}


def answer_schema() -> Schema:
    """The schema of one answer, or of a statement that failed."""
    maker = Maker()
    own = [
        {"if": {"properties": {"kind": {"const": kind}}}, "then": _kind(maker, kind)}
        for kind in COMMON["kind"]["enum"]
    ]
    answer = {
        "description": "A statement answered. Fields beside these may be added without a new number; a reader passes over those it does not know.",
        "type": "object",
        "required": [*COMMON],
        "properties": COMMON | STACKED,
        "additionalProperties": {"$ref": "#/$defs/part"},
        "allOf": own,
    }
    return {
        "$schema": DIALECT,
        "$id": f"urn:fractions-shop:answer:{data.SCHEMA}",
        "title": "An answer of fractions-shop",
        "description": "One object a line from `fractions-shop --json`, and what Answer.data() gives. Sizes are exact rationals as text; the number in `schema` grows when a field changes its meaning or goes.",
        "if": {"required": ["kind"]},
        "then": {"$ref": "#/$defs/answer"},
        "else": {"$ref": "#/$defs/fault"},
        "$defs": VALUES | {"fault": FAULT, "answer": answer} | maker.defs,
    }


def _kind(maker: Maker, kind: str) -> Schema:
    """What an answer of one kind tells beside what all do."""
    room = requests.room(kind)
    result = next(h for name, h in maker.hints(room.lines).items() if name != "return")
    if result is Any:
        raise TypeError(f"the lines of {kind} do not say of what result they are made")
    kinds = get_args(result) if get_origin(result) in (UnionType, Union) else (result,)
    schemas = [_merged(maker, kind, result) for result in kinds]
    schema: Schema = schemas[0] if len(schemas) == 1 else {"anyOf": schemas}
    if room.answer is not None:
        value = get_args(maker.hints(room.answer)["return"])[1]
        schema = (
            {"properties": {"value": maker.of(value)}, **schema}
            if "properties" not in schema
            else schema | {"properties": {"value": maker.of(value)} | schema["properties"]}
        )
    return schema


def _merged(maker: Maker, kind: str, result: Any) -> Schema:
    """A result's object, its fields named as they stand beside those that every answer has."""
    made = get_origin(result) or result
    if issubclass(made, Mapping):
        series = maker.of(result)["additionalProperties"]
        return {
            "description": first_words(made.__doc__ or ""),
            "type": "object",
            "not": {"required": ["series"]},
            "additionalProperties": {"if": {"type": "object", "required": ["series"]}, "then": series},
        }
    whole = maker.object(made, get_args(result))
    fields = {data.name_beside(COMMON, kind, name): schema for name, schema in whole["properties"].items()}
    return whole | {"required": [*fields], "properties": fields}


def sheet_schema() -> Schema:
    """The schema of a sheet."""
    home = f"urn:fractions-shop:answer:{data.SCHEMA}"
    maker = Maker(home, closed=True)
    sheet = maker.object(sheet_data.SheetData)
    return {
        "$schema": DIALECT,
        "$id": f"urn:fractions-shop:sheet:{data.SCHEMA}",
        "title": "A sheet of fractions-shop",
        **sheet,
        "$defs": maker.defs,
    }


def comparison_schema() -> Schema:
    """The schema of two sheets compared, and of more side by side."""
    home = f"urn:fractions-shop:answer:{data.SCHEMA}"
    maker = Maker(home, closed=True)
    two = maker.object(comparison_data.ComparisonData)
    more = maker.object(side_by_side.SideBySideData)
    return {
        "$schema": DIALECT,
        "$id": f"urn:fractions-shop:comparison:{data.SCHEMA}",
        "title": "Sheets compared by fractions-shop",
        "if": {"properties": {"kind": {"const": "comparison"}}},
        "then": two,
        "else": more,
        "$defs": maker.defs,
    }


def written(schema: Schema) -> str:
    """A schema as text."""
    return json.dumps(schema, indent=1, ensure_ascii=False) + "\n"


if __name__ == "__main__":
    ANSWER.write_text(written(answer_schema()), encoding="utf-8")
    SHEET.write_text(written(sheet_schema()), encoding="utf-8")
    COMPARISON.write_text(written(comparison_schema()), encoding="utf-8")
