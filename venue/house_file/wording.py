"""Sentences for what is wrong in a house file: what it is, and what would be right."""

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.house_file.paths import quoted
from venue.house_file.wording_book import BOOK_SENTENCES
from venue.house_file.wording_light import LIGHT_SENTENCES

if TYPE_CHECKING:
    from venue.house_file.problems import Difference, HouseExists, Problem

_SENTENCES: dict[str, Promise] = {
    "empty": gettext_lazy("the file is empty; write a house file as the schema describes it"),
    "too-large": gettext_lazy("the file is larger than %(most_mb)s MB; split the house or leave history out"),
    "utf-16": gettext_lazy("the file is UTF-16; save it as UTF-8"),
    "not-utf-8": gettext_lazy("line %(line)s is not UTF-8; save the file as UTF-8"),
    "not-json": gettext_lazy("line %(line)s, column %(column)s is not JSON: %(reason)s"),
    "too-deep": gettext_lazy("the file nests deeper than %(deepest)s levels; the format needs eight"),
    "too-many-values": gettext_lazy(
        "the file holds more than %(most)s values, or too many in one list; leave history out"
    ),
    "too-many-places": gettext_lazy("the house has %(found)s slots; at most %(most)s are read"),
    "too-many-outlines": gettext_lazy(
        "the house has %(found)s areas and blockages with corners; at most %(most)s are read"
    ),
    "duplicate-key": gettext_lazy("the key stands twice in one object; keep one of them"),
    "not-finite": gettext_lazy("is not a number that can be kept; write a plain number"),
    "half-character": gettext_lazy("holds half of a character (a lone surrogate); write the whole character"),
    "unknown-key": gettext_lazy("unknown key; known here: %(known)s"),
    "missing": gettext_lazy("is missing; write %(wanted)s"),
    "x-y-z-together": gettext_lazy("is missing; x_m, y_m and z_m go together: write all three or none"),
    "goes-with": gettext_lazy("is missing; %(partner)s says nothing without it: write both or neither"),
    "wrong-count": gettext_lazy("has %(found)s entries; write %(wanted)s"),
    "control-character": gettext_lazy("%(value)s holds a control character; take it out"),
    "not-a-time": gettext_lazy("%(value)s is not a time; write one such as 2025-09-01T00:00:00-05:00"),
    "time-without-offset": gettext_lazy(
        "%(value)s has no offset; write one such as 2025-09-01T00:00:00-05:00, or Z for UTC"
    ),
    "time-out-of-range": gettext_lazy("%(value)s is out of range; write a year from 1900 to 2200"),
    "not-a-wall-time": gettext_lazy("%(value)s is not a time of day; write one such as 05:00"),
    "not-a-day": gettext_lazy("%(value)s is not a day; write one such as 2026-02-28"),
    "nothing-to-tell-by": gettext_lazy("%(value)s has no letter or digit to tell it by; write at least one"),
    "too-long-written-out": gettext_lazy("%(value)s is too long in plain characters; write a shorter one"),
    "duplicate-position": gettext_lazy("%(value)s is there already at %(first)s; give each position once"),
    "duplicate-label": gettext_lazy(
        "%(value)s is the same label as at %(first)s; within a position each label stands once"
    ),
    "duplicate-unit": gettext_lazy("%(value)s is there already at %(first)s; give each unit once"),
    "duplicate-setup": gettext_lazy("%(value)s is there already at %(first)s; give each set-up its own name"),
    "unknown-unit": gettext_lazy("%(value)s is not the tag of a unit in units; add the unit, or correct the tag"),
    "unknown-position": gettext_lazy("%(value)s is not the name of a position in this file; correct it"),
    "unknown-label": gettext_lazy("%(position)s has no slot labeled %(value)s in this file; correct it"),
    "unknown-lamp-kind": gettext_lazy("%(value)s is not the name of a kind in lamp_kinds; add it, or correct it"),
    "no-place": gettext_lazy("the slot says nothing of where it is; write x_m, y_m and z_m, or bearing_deg, or order"),
    "operated-from-itself": gettext_lazy("the slot is operated from itself; name another, or leave the key out"),
    "narrow-wider-than-wide": gettext_lazy(
        "the narrowest beam (%(narrow)s) is wider than the widest (%(wide)s); exchange them"
    ),
    "equal-orders": gettext_lazy("order %(order)s is taken by %(first)s; %(whole)s each order stands once"),
    "order-needed": gettext_lazy(
        "is missing: %(lost)s has no %(measure)s, so order decides; give every slot %(whole)s an order"
    ),
    "until-before-from": gettext_lazy("%(until)s is not later than from, %(from)s; write a later time"),
    "unit-overlaps": gettext_lazy("the unit already stands elsewhere then, by %(other)s; end that one before"),
    "place-overlaps": gettext_lazy("a unit already stands at the place then, by %(other)s; end that one before"),
    "order-against-x": gettext_lazy(
        "order %(order)s goes against x_m: order rises from house left, and so does x_m; check both"
    ),
    "order-against-bearing": gettext_lazy(
        "order %(order)s goes against the bearing: both rise clockwise from the stage end; check both"
    ),
    "odd-throw": gettext_lazy(
        "the throw to the target is %(throw_m).1f m; "
        "follow spots throw %(least_m).10g to %(most_m).10g m: check the coordinates"
    ),
    "refused": gettext_lazy("%(reason)s"),
    **BOOK_SENTENCES,
    **LIGHT_SENTENCES,
}
_ONE_VALUE = gettext_lazy("is %(value)s; write %(wanted)s")


def problem_sentence(problem: "Problem") -> str:
    """The problem in one line, without its path."""
    template = _SENTENCES.get(problem.code, _ONE_VALUE)
    return str(template) % _named(problem.data)


def _named(data: Mapping[str, Any]) -> dict[str, Any]:
    """The data as a sentence says them."""
    named: dict[str, Any] = dict(data)
    for key in ("value", "position", "from", "until"):
        if key in data:
            named[key] = quoted(data[key])
    if "wanted" in data:
        named["wanted"] = described(data["wanted"])
        named["found"] = len(data["value"]) if isinstance(data.get("value"), list | dict) else ""
    if data.get("other") == "" or data.get("first") == "":
        named["other"] = named["first"] = _("what is stored")
    if "known" in data:
        named["known"] = ", ".join(data["known"])
    if "circuits" in data:
        named["circuits"] = ", ".join(map(quoted, data["circuits"])) or _("none")
    if "is_ring" in data:
        named["measure"] = _("bearing") if data["is_ring"] else _("x, y and z")
        named["whole"] = _("in the bowl") if data["is_ring"] else _("in the position")
    return named


def described(schema: Mapping[str, Any]) -> str:
    """What a value of the schema is: "a number from 0 to 12", "one of "lens", "lamp"."""
    if "const" in schema:
        return quoted(schema["const"])
    if "enum" in schema:
        return _("one of %(choices)s") % {"choices": ", ".join(map(quoted, schema["enum"]))}
    if schema.get("format") in _FORMATS:
        return str(_FORMATS[schema["format"]])
    kind = schema["type"] if isinstance(schema["type"], str) else schema["type"][0]
    if kind in ("number", "integer"):
        return _described_number(schema, kind)
    if kind == "boolean":
        return _("true or false")
    if kind == "string":
        return _described_text(schema)
    return _described_container(schema, kind)


_FORMATS: dict[str, Promise] = {
    "date-time": gettext_lazy("a time such as 2025-09-01T00:00:00-05:00"),
    "wall-time": gettext_lazy("a time of day such as 05:00"),
    "calendar-day": gettext_lazy("a day such as 2026-02-28"),
    "time-zone": gettext_lazy("a time zone such as America/Chicago"),
    "base64": gettext_lazy("bytes in base64, at most 5 MB of them"),
}


def _described_number(schema: Mapping[str, Any], kind: str) -> str:
    noun = _("a whole number") if kind == "integer" else _("a number")
    low = schema["minimum"]
    if "exclusiveMaximum" in schema:
        high = schema["exclusiveMaximum"]
        return _("%(noun)s from %(low)s to below %(high)s") % {"noun": noun, "low": low, "high": high}
    return _("%(noun)s from %(low)s to %(high)s") % {"noun": noun, "low": low, "high": schema["maximum"]}


def _described_text(schema: Mapping[str, Any]) -> str:
    if "pattern" in schema and schema["pattern"] != r"\S":
        template = _("1 to %(longest)s letters a to z, digits, - or _")
    elif schema.get("minLength"):
        template = _("text of 1 to %(longest)s characters, not only spaces")
    else:
        template = _("text of at most %(longest)s characters")
    return template % {"longest": schema["maxLength"]}


def _described_container(schema: Mapping[str, Any], kind: str) -> str:
    if kind == "object":
        return _("an object { … }")
    if schema.get("minItems") == schema["maxItems"]:
        return _("a list of %(count)s numbers") % {"count": schema["maxItems"]}
    return _("a list [ … ] of at most %(most)s entries") % {"most": schema["maxItems"]}


def difference_sentence(difference: "Difference") -> str:
    """What is stored and what the file says, in one line."""
    facts = {"stored": quoted(difference.stored), "file": quoted(difference.file)}
    if difference.file is None:
        return _("only stored: %(stored)s") % facts
    if difference.stored is None:
        return _("only in the file: %(file)s") % facts
    return _("stored %(stored)s, file %(file)s") % facts


def house_exists_sentence(exists: "HouseExists") -> str:
    """That the house is there, and what to do."""
    if not exists.differences:
        return _("the house %(slug)s is on file already and says the same") % {"slug": exists.slug}
    return _(
        "the house %(slug)s is on file already and differs; "
        "load with --update to change it, or give the file another slug"
    ) % {"slug": exists.slug}
