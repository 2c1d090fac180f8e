"""A rules file's bytes to its JSON document. Numbers are Decimals as written, so that 1.1 is 1.1."""

import json
from decimal import Decimal
from typing import Any

from crew.core.hours.problems import Problem

MOST_BYTES = 200_000
"""Far more than all keys with a century of holidays."""


class Repeating(dict[str, Any]):
    """A JSON object in which keys stood twice: `repeated` names them."""

    repeated: tuple[str, ...] = ()


def rules_document(data: bytes) -> tuple[Any, list[Problem]]:
    """The document, or None with what is wrong with the file as JSON."""
    if len(data) > MOST_BYTES:
        return None, [Problem("too-big", data={"limit": MOST_BYTES})]
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return None, [Problem("not-utf-8")]
    if not text.strip():
        return None, [Problem("empty")]
    try:
        return _parsed(text), []
    except json.JSONDecodeError as error:
        return None, [Problem("not-json", data={"line": error.lineno, "column": error.colno})]
    except RecursionError:
        return None, [Problem("too-deep")]


def _parsed(text: str) -> Any:
    return json.loads(
        text, parse_float=_number, parse_int=_number, parse_constant=Decimal, object_pairs_hook=_object_of_pairs
    )


def _number(text: str) -> Decimal:
    """The number; what no Decimal can hold is infinite."""
    try:
        return Decimal(text)
    except ArithmeticError:
        return Decimal("Infinity")


def _object_of_pairs(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    document = Repeating(pairs)
    if len(document) != len(pairs):
        names = [name for name, _value in pairs]
        document.repeated = tuple(name for name in document if names.count(name) > 1)
    return document
