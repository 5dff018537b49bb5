"""The requests of the language, and where each is answered.

The modules that answer load only when their word is used, so that a plain size costs
none of them.
"""

from __future__ import annotations

from importlib import import_module
from typing import Any

from fractions_shop.errors import InputError, ShopError
from fractions_shop.language.arithmetic import Value
from fractions_shop.language.evaluate import Evaluator
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Node, Request
from fractions_shop.requests.asked import Asked
from fractions_shop.size.rule import Rule

#: Each request's word, and the module of `answers` that answers it.
HOMES = {
    "snap": "spacing",
    "divide": "spacing",
    "mark": "spacing",
    "check": "checking",
    "rule": "checking",
    "recover": "making",
    "crown": "making",
    "pack": "making",
    "fit": "making",
    "thread": "hardware",
    "identify": "hardware",
    "substitute": "hardware",
    "drill": "hardware",
    "gauge": "hardware",
}


def answer(request: Request, evaluator: Evaluator, rule: Rule, text: str) -> tuple[Any, Value | None]:
    """The request's typed result, and the one size it has, if it has one.

    A fault that the library finds is placed at the request's first subject.
    """
    home = import_module(f"fractions_shop.requests.{HOMES[request.word]}")
    try:
        found: tuple[Any, Value | None] = home.ANSWERS[request.word](Asked(request, evaluator, rule, text))
        return found
    except InputError as error:
        node = _first(request)
        raise Fault(error.message, node.start, node.end, error.advice) from None
    except ShopError as error:
        node = _first(request)
        raise Fault(str(error), node.start, node.end) from None


def _first(request: Request) -> Node:
    return request.subjects[0] if request.subjects else request
