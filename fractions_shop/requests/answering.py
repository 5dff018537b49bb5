"""Answers a request; its faults are placed in its line."""

from __future__ import annotations

from typing import Any

from fractions_shop import requests
from fractions_shop.errors import InputError, ShopError
from fractions_shop.language.evaluate import Evaluator
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Node, Request
from fractions_shop.requests.inputs import Inputs
from fractions_shop.size.rule import Rule
from fractions_shop.size.value import Value


def answer(request: Request, evaluator: Evaluator, rule: Rule, text: str) -> tuple[Any, Value | None]:
    """The request's typed result, and the one size it has, if it has one.

    A fault that the library finds is placed at the request's first subject.
    """
    work_out = requests.room(request.word).answer
    assert work_out is not None, f"{request.word} has no answer of its own"
    try:
        return work_out(Inputs(request, evaluator, rule, text))
    except InputError as error:
        node = _first(request)
        raise Fault(error.message, node.start, node.end, error.advice) from None
    except ShopError as error:
        node = _first(request)
        raise Fault(str(error), node.start, node.end) from None


def asks_the_rule(request: Request) -> bool:
    """Whether the answer depends on the working rule, as none does that names its own."""
    own = any(option.word in ("to", "on") for option in request.options)
    return requests.room(request.word).reads_rule and not own


def _first(request: Request) -> Node:
    return request.subjects[0] if request.subjects else request
