"""Lights on one pick-up in words: the verdict, who sets level and color, what is in the way and what to do about it."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from django.utils.translation import gettext as _

from venue.core.color import Correction
from venue.core.matching import Code, Finding
from venue.matching_page import Matched, MatchedLight
from venue.wording_light import both_words, level_words, lux_words, percent_words, size_words

APART: frozenset[Code] = frozenset({"no-correction", "size-out-of-reach", "no-size-in-common", "level-too-low"})
"""What no douser and no filter of the house brings together."""
UNSURE: frozenset[Code] = frozenset({"sources-differ", "levels-of-angles-differ"})
"""What only an eye in the house can judge."""

Told = tuple[str, str]
"""What was found, and what to do about it."""


def verdict_words(matched: Matched, *, is_complete: bool) -> str:
    """Whether the lights come together, in one sentence."""
    codes = {finding.code for finding in matched.match.findings}
    size = {"size": size_words(matched.size.name)}
    if len(matched.with_unit) < 2:
        return _("Fewer than two of these places have a unit now: there is nothing to match.")
    if codes & APART:
        return _("As they stand they don't come together on the size “%(size)s”.") % size
    if codes & UNSURE:
        return _("They may read as two lights on the size “%(size)s”: have somebody look from the house.") % size
    if codes:
        return _("They come together on the size “%(size)s” once this is done, as far as data on file tell:") % size
    if not is_complete:
        return _("Not enough is recorded to say whether they match on the size “%(size)s”.") % size
    return _("They match on the size “%(size)s”, as far as data on file tell.") % size


def who_sets(matched: Matched) -> Iterator[str]:
    """Whose level and whose color the others come to, and why."""
    if len(matched.with_unit) < 2:
        return
    if matched.dimmest is not None:
        yield _level_words(matched, matched.dimmest)
    if any(each.part and each.part.correction for each in matched.lights) and matched.match.reference is not None:
        yield _color_words(matched.named(matched.match.reference))


def _level_words(matched: Matched, dimmest: MatchedLight) -> str:
    told = {"name": dimmest.name, "light": lux_words(matched.match.lux or 0.0, matched.system)}
    if dimmest.part and filters_words(dimmest.part.correction):
        sentence = _(
            "%(name)s sets the level: behind its correction it is the dimmest, and a douser only takes light away. "
            "Then all give %(light)s."
        )
    else:
        sentence = _(
            "%(name)s sets the level: it is the dimmest, and a douser only takes light away. Then all give %(light)s."
        )
    return sentence % told


def _color_words(reference: MatchedLight) -> str:
    told = {"name": reference.name}
    if reference.lux is None:
        return _("The others come to the color of %(name)s; which is the dimmest is not known.") % told
    sentence = _(
        "%(name)s sets the color: it is the dimmest whose color temperature is on file, and every filter takes light."
    )
    return sentence % told


@dataclass(frozen=True)
class FindingRow:
    """A finding in words, and what to do about it."""

    words: str
    advice: str


def finding_rows(matched: Matched) -> list[FindingRow]:
    """What was found, in core's order; that a color is off is told once where no filter settles it."""
    unsettled = {each.names for each in matched.match.findings if each.code == "no-correction"}
    return [
        FindingRow(*_TELLERS[each.code](each, matched))
        for each in matched.match.findings
        if each.code != "colors-differ" or each.names not in unsettled
    ]


def _sources(finding: Finding, matched: Matched) -> Told:
    kinds = [_("%(source)s at %(name)s") % {"source": _source(matched, name), "name": name} for name in finding.names]
    return (
        _("The kinds of source differ: %(kinds)s.") % {"kinds": ", ".join(kinds)},
        _(
            "Take units of the same kind, or look at both on a face and on costumes from the house: a filter brings "
            "color temperatures together, not how colors look."
        ),
    )


def _source(matched: Matched, name: str) -> str:
    unit = matched.named(name).light.unit
    return unit.source if unit else ""


def _levels(finding: Finding, matched: Matched) -> Told:
    lux = {each.name: each.lux.low for each in matched.with_unit if each.lux is not None}
    told = {
        "value": percent_words(finding.value or 0.0),
        "limit": percent_words(finding.limit or 0.0),
        "lights": ", ".join(f"{lux_words(lux[name], matched.system)} {_at(name)}" for name in finding.names),
    }
    return (
        _("All open their levels differ by %(value)s, which is over %(limit)s (common practice): %(lights)s.") % told,
        _("Bring the brighter down by its douser or dimmer to the share given at each light."),
    )


def _at(name: str) -> str:
    return _("at %(name)s") % {"name": name}


def _too_low(finding: Finding, matched: Matched) -> Told:
    told = {
        "value": lux_words(finding.value or 0.0, matched.system),
        "limit": lux_words(finding.limit or 0.0, matched.system),
    }
    return (
        _("Together they give %(value)s, less than the %(limit)s asked for.") % told,
        _("Take brighter or nearer units, leave a correction out, or ask the show whether less will do."),
    )


def _colors(finding: Finding, matched: Matched) -> Told:
    part = matched.named(finding.names[0]).part
    correction = part.correction if part else None
    put = {"filters": filters_words(correction), "name": finding.names[0]}
    return _off(finding, matched), _("Put %(filters)s in front of %(name)s.") % put


def _off(finding: Finding, matched: Matched) -> str:
    told = {
        "name": finding.names[0],
        "off": shift_words(finding.value or 0.0),
        "reference": matched.match.reference,
        "limit": number_words(matched.tolerance_mired),
    }
    sentence = _("%(name)s is %(off)s than %(reference)s; up to %(limit)s mired counts as the same color.")
    return sentence % told


def _no_correction(finding: Finding, matched: Matched) -> Told:
    part = matched.named(finding.names[0]).part
    own = Finding("colors-differ", finding.names, part.off_mired if part else None)
    left = {"left": shift_words(finding.value or 0.0), "wanted": shift_words(-(own.value or 0.0))}
    if not matched.corrections:
        last = _("The house has no correction on file that says what passes and how far it shifts.")
    else:
        last = _("No filter of the house settles it: at best it stays %(left)s.") % left
    return (
        f"{_off(own, matched)} {last}",
        _("Get a correction that turns it about %(wanted)s, or take units of one color temperature.") % left,
    )


def _out_of_reach(finding: Finding, matched: Matched) -> Told:
    told = {"names": ", ".join(finding.names), "size": size_words(matched.size.name)}
    words = _("The size “%(size)s” is out of reach of: %(names)s.") % told
    if matched.match.diameters_m is None:
        return words, _("Choose another size, or a unit whose beam has it at this throw.")
    ends = {
        "low": both_words(matched.match.diameters_m[0], matched.system),
        "high": both_words(matched.match.diameters_m[1], matched.system),
    }
    return words, _("From %(low)s to %(high)s across all of them reach: choose a size between, or other units.") % ends


def _no_size(finding: Finding, matched: Matched) -> Told:
    return (
        _("They have no size in common: where the widest of one ends, the narrowest of another has not begun."),
        _("Take units of nearer throws or of other beams, or one of them alone."),
    )


def _levels_of_angles(finding: Finding, matched: Matched) -> Told:
    optics = {each.name: each.light.optics for each in matched.with_unit}
    with_angle = {name: one for name, one in optics.items() if (one.narrow_deg, one.wide_deg) != (None, None)}
    told = [f"{level_words(one.percent)} {_at(name)}" for name, one in with_angle.items()]
    return (
        _("Their angles are told at different levels, so that sizes can't be held against each other: %(levels)s.")
        % {"levels": ", ".join(told)},
        _("Look in the makers' sheets and record which; until then hold the pools against each other by eye."),
    )


_TELLERS: Mapping[Code, Callable[[Finding, Matched], Told]] = {
    "sources-differ": _sources,
    "levels-differ": _levels,
    "level-too-low": _too_low,
    "colors-differ": _colors,
    "no-correction": _no_correction,
    "size-out-of-reach": _out_of_reach,
    "no-size-in-common": _no_size,
    "levels-of-angles-differ": _levels_of_angles,
}


def number_words(number: float) -> str:
    """To the tenth, without an idle zero: "41.7", "15"."""
    return f"{abs(number):.1f}".removesuffix(".0")


def shift_words(mired: float) -> str:
    """A difference by its direction: "41.7 mired cooler", what is higher in mired being warmer."""
    sentence = _("%(n)s mired warmer") if mired > 0 else _("%(n)s mired cooler")
    return sentence % {"n": number_words(mired)}


def filters_words(correction: Correction | None) -> str:
    """The filters one behind the other: "C-1 + C-9"."""
    return " + ".join(each.name for each in correction.filters) if correction else ""


def reference_words(each: MatchedLight, matched: Matched) -> str:
    """How far a light's own color is from the one that all come to; "" where that is not known."""
    if each.part is None or each.part.off_mired is None:
        return ""
    if each.name == matched.match.reference:
        return _("the color that the others come to")
    told = {"off": shift_words(each.part.off_mired), "reference": matched.match.reference}
    return _("%(off)s than %(reference)s") % told
