"""Answers as plain objects for JSON: exact rationals as text, never floats."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from fractions import Fraction
from typing import Any

from fractions_shop.errors import InputError
from fractions_shop.language.results import CheckResult, SizeResult, Target
from fractions_shop.sheet.workbench import Outcome
from fractions_shop.size.limits import Limits
from fractions_shop.size.quantity import Angle, Quantity
from fractions_shop.size.rule import Rule

#: The number of the layout of these objects; it grows when a field changes its meaning.
SCHEMA = 1

#: Worked-out properties that belong in the object beside a result's own fields.
#: Keyed by the type's name, so that no module is loaded only to be listed here.
_EXTRA: dict[str, tuple[str, ...]] = {
    "Spacing": ("total", "space", "change", "exact"),
    "Marks": ("step", "stepping", "worst", "errors"),
    "Crown": ("residual", "worst", "span"),
    "Recovered": ("candidates", "system"),
    "Pack": ("pieces", "total", "error", "exact"),
    "Fit": ("least", "most", "kind", "clearance", "hole_um", "shaft_um"),
    "Zone": ("limits", "hole"),
    "Thread": (
        "tpi", "effective", "minor", "minor_convention", "depth", "angle", "best_wire", "stress_area",
        "heads", "caution",
    ),
    "Identified": ("certain", "caution"),
    "Substitutes": ("caution",),
}  # fmt: skip
#: Long parts of a result that an object leaves out.
_LEFT_OUT = {"Quantogram": ("curve",), "Thread": ("form",), "Candidate": (), "LookAlike": ()}


def size(quantity: Quantity) -> dict[str, Any]:
    """A size as an object: inch and mm for a length, value and unit for other powers."""
    if quantity.power == 1:
        return {
            "inch": str(quantity.inch),
            "mm": str(quantity.mm),
            "approximate": quantity.approximate,
        }
    unit = "" if quantity.power == 0 else f"in^{quantity.power}"
    return {
        "value": str(quantity.in_unit("in")),
        "unit": unit,
        "approximate": quantity.approximate,
    }


def limits(value: Limits) -> dict[str, Any]:
    """A size with limits: nominal, and the two limits of size themselves."""
    return {
        "nominal": size(value.nominal),
        "upper": size(value.upper),
        "lower": size(value.lower),
    }


def encode(value: Any) -> Any:
    """Any part of an answer as what JSON can hold."""
    for simple, work in _SIMPLE.items():
        if isinstance(value, simple):
            return work(value)
    if isinstance(value, Mapping):
        return {str(k): encode(v) for k, v in value.items()}
    if isinstance(value, (tuple, list, frozenset)):
        return [encode(v) for v in value]
    if is_dataclass(value):
        return {name: encode(part) for name, part in parts_of(value).items()}
    return str(value)


def parts_of(value: Any) -> dict[str, Any]:
    """What a result tells, by name: its fields, and the properties that belong beside them."""
    kind = type(value).__name__
    left_out = _LEFT_OUT.get(kind, ())
    names = [f.name for f in fields(value) if not f.name.startswith("_") and f.name not in left_out]
    names += _EXTRA.get(kind, ())
    return {name: getattr(value, name) for name in names}


def _size_result(result: SizeResult) -> dict[str, Any]:
    """What the working rule makes of a size, in few words: its own value stands beside it."""
    near, spacing = result.nearest, result.spacing
    return {
        "rule": result.rule.name,
        "carried_by": encode(result.carried_by),
        "nearest": near and {"size": size(near.size), "error": size(near.error)},
        "divides": spacing and encode(spacing.nearest),
        "target": result.target and _in_target(result.value, result.target),
    }


def _in_target(value: Any, target: Target) -> dict[str, Any]:
    found: dict[str, Any] = {"unit": target.name}
    if isinstance(value, Quantity):
        found["count"] = str(value.value / target.mm)
    elif isinstance(value, Limits):
        found["lower"], found["upper"] = (str(s.value / target.mm) for s in (value.lower, value.upper))
    return found


_SIMPLE: dict[type | tuple[type, ...], Callable[[Any], Any]] = {
    Quantity: size,
    Limits: limits,
    Angle: lambda a: {"degrees": str(a.degrees), "approximate": a.approximate},
    Rule: lambda r: r.name,
    SizeResult: _size_result,
    Fraction: str,
    (bool, int, str, type(None)): lambda v: v,
    float: lambda v: str(v),
}


def answer(outcome: Outcome) -> dict[str, Any]:
    """One answered statement as an object."""
    found: dict[str, Any] = {
        "schema": SCHEMA,
        "statement": outcome.statement,
        "kind": outcome.kind,
        "ok": not (isinstance(outcome.result, CheckResult) and not outcome.result.holds),
        "name": outcome.name,
        "value": encode(outcome.value),
        "notes": [note.text for note in outcome.notes],
        "doubts": [note.text for note in outcome.doubts],
    }
    if isinstance(outcome.value, Limits) and outcome.value.stacked:
        found["root_sum_square"] = encode(outcome.value.root_sum_square)
        found["contributions"] = [
            {"name": label, "reach": size(reach)} for label, reach in outcome.value.contributions
        ]
    for key, value in encode(outcome.result).items():
        # A result's own name or kind (a thread's, a fit's) stands beside the statement's.
        found[f"{outcome.kind}_{key}" if key in found else key] = value
    return found


def fault(error: InputError, statement: str | None = None) -> dict[str, Any]:
    """A statement that failed, as an object."""
    return {
        "schema": SCHEMA,
        "statement": error.text if statement is None else statement,
        "ok": False,
        "error": error.message,
        "advice": error.advice,
        "line": error.line,
        "column": error.column,
    }
