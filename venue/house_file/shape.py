"""The document held against `house.schema.json`, each refusal as a problem with its path."""

import base64
import json
from collections.abc import Callable, Iterator
from functools import lru_cache, partial
from pathlib import Path as FilePath
from typing import TYPE_CHECKING, Any

from venue.house_file.paths import Path
from venue.house_file.problems import Problem
from venue.house_file.screening import Screen, screen_of
from venue.house_file.times import NotATime, is_zone, read_day, read_instant, read_wall_time

if TYPE_CHECKING:
    from jsonschema.exceptions import ValidationError
    from jsonschema.protocols import Validator

MOST_PLACES = 2_000
"""In one house: far more than any has, and few enough to be checked while somebody waits."""
MOST_OUTLINES = 500
"""Areas and blockages with corners, likewise."""


@lru_cache(maxsize=1)
def house_schema() -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of the whole format."""
    text = FilePath(__file__).with_name("house.schema.json").read_text(encoding="utf-8")
    schema: dict[str, Any] = json.loads(text)
    return schema


def resolved(schema: Any) -> dict[str, Any]:
    """The schema with a reference into `$defs` followed; keys beside the reference win."""
    found: dict[str, Any] = dict(schema)
    while "$ref" in found:
        name = found.pop("$ref").removeprefix("#/$defs/")
        found = {**house_schema()["$defs"][name], **found}
    return found


def shape_problems(document: Any) -> list[Problem]:
    """Every place where the document does not have the format's shape, in the order of the schema's keys."""
    places = _count_places(document)
    if places > MOST_PLACES:
        return [Problem(("positions",), "too-many-places", {"found": places, "most": MOST_PLACES})]
    outlines = sum(1 for _each in _outlines(document))
    if outlines > MOST_OUTLINES:
        return [Problem((), "too-many-outlines", {"found": outlines, "most": MOST_OUTLINES})]
    return [problem for error in _validator().iter_errors(document) for problem in _problems(error)]


def is_too_large(problems: list[Problem]) -> bool:
    """Whether the document was too large to be looked through, so that nothing is known of the rest."""
    return any(problem.code in {"too-many-places", "too-many-outlines"} for problem in problems)


def _count_places(document: Any) -> int:
    slots = (position.get("slots") for position in _objects(document, "positions"))
    return sum(len(each) for each in slots if isinstance(each, list))


def _outlines(document: Any) -> Iterator[Any]:
    """All that has corners."""
    house = document.get("house") if isinstance(document, dict) else None
    for setup in (house, *_objects(document, "setups")):
        yield from _objects(setup, "areas")
    for position in _objects(document, "positions"):
        yield from (each for each in _objects(position, "blocked") if each.get("corners"))


def _objects(parent: Any, section: str) -> list[dict[str, Any]]:
    """The objects in a list that may be none."""
    found = parent.get(section) if isinstance(parent, dict) else None
    return [each for each in found if isinstance(each, dict)] if isinstance(found, list) else []


@lru_cache(maxsize=1)
def _validator() -> "Validator":
    from jsonschema import Draft202012Validator, FormatChecker, validators

    formats = FormatChecker(formats=())
    for name, read in FORMAT_READERS.items():
        formats.checks(name, raises=ValueError)(_for_text(read))
    formats.checks("time-zone")(lambda value: not isinstance(value, str) or is_zone(value))
    extend: Any = validators.extend
    bounded = extend(Draft202012Validator, {"items": _screened_items})
    made: Validator = bounded(house_schema(), format_checker=formats)
    return made


FORMAT_READERS: dict[str, Callable[[str], Any]] = {
    "date-time": read_instant,
    "wall-time": read_wall_time,
    "calendar-day": read_day,
    "base64": partial(base64.b64decode, validate=True),
}
"""By what reads them."""


def _for_text(read: Callable[[str], Any]) -> Callable[[object], bool]:
    def is_readable(value: object) -> bool:
        if isinstance(value, str):
            read(value)
        return True

    return is_readable


def _screened_items(validator: Any, wanted: Any, instance: Any, schema: Any) -> Any:
    """The entries of a list that is too long are not looked at one by one: a hostile file holds millions.

    Those that pass the screen are right.
    """
    if not isinstance(instance, list) or len(instance) > schema["maxItems"]:
        return
    is_right = _screen(wanted["$ref"])
    for index, entry in enumerate(instance):
        if not is_right(entry):
            yield from validator.descend(instance=entry, schema=wanted, path=index)


@lru_cache(maxsize=64)
def _screen(reference: str) -> Screen:
    formats = {name: partial(reads, read) for name, read in FORMAT_READERS.items()}
    return screen_of({"$ref": reference}, resolved, formats)


def reads(read: Callable[[str], Any], value: str) -> bool:
    """Whether the text can be read."""
    try:
        read(value)
    except ValueError:
        return False
    return True


def _problems(error: "ValidationError") -> Iterator[Problem]:
    path: Path = tuple(error.absolute_path)
    schema: dict[str, Any] = resolved(error.schema)
    listed = _LISTED.get(str(error.validator))
    if listed:
        yield from listed(path, error.instance, schema)
        return
    facts = {"value": error.instance, "wanted": schema}
    if isinstance(error.cause, NotATime):
        yield Problem(path, error.cause.code, facts)
    else:
        yield Problem(path, _CODES.get(str(error.validator), "wrong-value"), facts)


def _unknown_keys(path: Path, instance: dict[str, Any], schema: dict[str, Any]) -> Iterator[Problem]:
    facts = {"known": tuple(schema["properties"])}
    yield from (Problem((*path, key), "unknown-key", facts) for key in instance if key not in schema["properties"])


def _missing_keys(path: Path, instance: dict[str, Any], schema: dict[str, Any]) -> Iterator[Problem]:
    for key in schema["required"]:
        if key not in instance:
            wanted = resolved(schema["properties"][key])
            yield Problem((*path, key), "missing", {"key": key, "wanted": wanted})


def _missing_partners(path: Path, instance: dict[str, Any], schema: dict[str, Any]) -> Iterator[Problem]:
    needed = {
        key: partner for partner, keys in schema["dependentRequired"].items() if partner in instance for key in keys
    }
    for key, partner in needed.items():
        if key not in instance:
            code = "x-y-z-together" if key in {"x_m", "y_m", "z_m"} else "goes-with"
            yield Problem((*path, key), code, {"key": key, "partner": partner})


_LISTED: dict[str, Callable[[Path, Any, dict[str, Any]], Iterator[Problem]]] = {
    "additionalProperties": _unknown_keys,
    "required": _missing_keys,
    "dependentRequired": _missing_partners,
}
"""Keywords that the library reports for the object as a whole; we name each key."""

_CODES = {
    "type": "wrong-type",
    "enum": "not-a-choice",
    "const": "not-a-choice",
    "minimum": "out-of-range",
    "maximum": "out-of-range",
    "exclusiveMaximum": "out-of-range",
    "minLength": "wrong-text",
    "pattern": "wrong-text",
    "maxLength": "too-long",
    "not": "control-character",
    "minItems": "wrong-count",
    "maxItems": "wrong-count",
    "maxProperties": "wrong-count",
}
