"""A quick screen made from the schema: it passes most values that are right, and none that is wrong.

What it does not pass, the library looks at, which words what is wrong; that takes it some hundred times as long.
"""

import re
from collections.abc import Callable, Mapping
from typing import Any

Screen = Callable[[Any], bool]
Resolve = Callable[[Any], dict[str, Any]]


def screen_of(schema: Mapping[str, Any], resolve: Resolve, formats: Mapping[str, Screen]) -> Screen:
    """Whether a value surely has the shape of the schema. A keyword that it does not know passes nothing."""
    whole = resolve(schema)
    unknown = whole.keys() - _KNOWN
    if unknown or whole.get("format", "") not in {"", *formats}:
        return lambda value: False
    kind = whole.get("type")
    if "enum" in whole and kind is None:
        return _choice(whole["enum"])
    if isinstance(kind, list):
        return _or_null(screen_of({**whole, "type": kind[0]}, resolve, formats))
    inner = _Inner(resolve, formats)
    return _MAKERS[kind](whole, inner) if kind in _MAKERS else lambda value: False


class _Inner:
    """Screens of what is inside."""

    def __init__(self, resolve: Resolve, formats: Mapping[str, Screen]) -> None:
        self.resolve, self.formats = resolve, formats

    def screen(self, schema: Mapping[str, Any]) -> Screen:
        return screen_of(schema, self.resolve, self.formats)


def _choice(choices: list[str | int]) -> Screen:
    allowed, kinds = frozenset(choices), frozenset(map(type, choices))
    return lambda value: type(value) in kinds and value in allowed


def _or_null(screen: Screen) -> Screen:
    return lambda value: value is None or screen(value)


def _boolean(_schema: Mapping[str, Any], _inner: _Inner) -> Screen:
    return lambda value: type(value) is bool


def _number(schema: Mapping[str, Any], _inner: _Inner) -> Screen:
    low, high = schema["minimum"], schema["maximum"]
    kinds = (int,) if schema["type"] == "integer" else (int, float)
    return lambda value: type(value) in kinds and low <= value <= high


def _text(schema: Mapping[str, Any], inner: _Inner) -> Screen:
    least, most = schema.get("minLength", 0), schema["maxLength"]
    wanted = re.compile(schema.get("pattern", ""))
    refused = re.compile(schema["not"]["pattern"]) if "not" in schema else None
    is_format = inner.formats.get(schema.get("format", ""))

    def is_right(value: Any) -> bool:
        if type(value) is not str or not least <= len(value) <= most:
            return False
        if refused is not None and refused.search(value):
            return False
        return bool(wanted.search(value)) and (is_format is None or is_format(value))

    return is_right


def _list(schema: Mapping[str, Any], inner: _Inner) -> Screen:
    screen, least, most = inner.screen(schema["items"]), schema.get("minItems", 0), schema["maxItems"]
    return lambda value: type(value) is list and least <= len(value) <= most and all(map(screen, value))


def _object(schema: Mapping[str, Any], inner: _Inner) -> Screen:
    screens = {name: inner.screen(each) for name, each in schema["properties"].items()}
    required = frozenset(schema.get("required", ()))
    partners = {name: frozenset(names) for name, names in schema.get("dependentRequired", {}).items()}

    def is_right(value: Any) -> bool:
        if not isinstance(value, dict) or not required <= value.keys():
            return False
        for name, each in value.items():
            if name not in screens or not screens[name](each):
                return False
            if name in partners and not partners[name] <= value.keys():
                return False
        return True

    return is_right


_MAKERS: dict[Any, Callable[[Mapping[str, Any], _Inner], Screen]] = {
    "boolean": _boolean,
    "number": _number,
    "integer": _number,
    "string": _text,
    "array": _list,
    "object": _object,
}
_KNOWN = {
    *("type", "enum", "description", "minimum", "maximum", "minLength", "maxLength", "pattern", "not", "format"),
    *("items", "minItems", "maxItems", "properties", "required", "additionalProperties", "dependentRequired"),
}
