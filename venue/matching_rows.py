"""Each light of a pick-up in words: what it needs and reaches, its color and correction, its level, what is missing."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.core.color import Correction
from venue.gaps import Gap, place_gap, unit_gap
from venue.matching_page import Matched, MatchedLight
from venue.models import Unit
from venue.place_light import is_near
from venue.throw_book import PlaceLight
from venue.wording_light import both_words, fine_degrees_words, level_words, lux_words, percent_words, reach_words
from venue.wording_matching import filters_words, number_words, reference_words, shift_words
from venue.wording_throws import Fact, why_from_to


@dataclass(frozen=True)
class LightRow:
    """One light in words; `notes` say what makes its figures rough, `gaps` what is not recorded of it."""

    light: PlaceLight
    name: str
    facts: Sequence[Fact]
    notes: Sequence[str]
    gaps: Sequence[Gap]


def light_row(each: MatchedLight, matched: Matched) -> LightRow:
    """One of the places chosen."""
    facts = [] if each.part is None else [*_size_facts(each, matched), *_color_facts(each, matched)]
    facts += [] if each.part is None else _level_facts(each, matched)
    return LightRow(each.light, each.name, facts, list(_notes(each)), list(_gaps(each.light)))


def _size_facts(each: MatchedLight, matched: Matched) -> Iterator[Fact]:
    if each.part is None:
        return
    needed, line, optics = each.part.pick_up.beam_deg, each.light.line, each.light.optics
    yield gettext_lazy("throw"), "" if line is None else both_words(line.throw_m, matched.system)
    yield gettext_lazy("needs an angle of"), "" if needed is None else fine_degrees_words(needed)
    yield gettext_lazy("reach"), reach_words(each.part.pick_up)
    if optics.narrow_deg is not None or optics.wide_deg is not None:
        yield gettext_lazy("its angles end"), level_words(optics.percent)


def _color_facts(each: MatchedLight, matched: Matched) -> Iterator[Fact]:
    unit = each.light.unit
    if unit is None or each.part is None:
        return
    yield gettext_lazy("kind of source"), unit.source
    yield gettext_lazy("color temperature"), "" if unit.cct_k is None else _("%(n)s K") % {"n": f"{unit.cct_k:.0f}"}
    yield gettext_lazy("difference"), reference_words(each, matched)
    if each.part.correction is not None:
        yield gettext_lazy("nearest correction"), correction_words(each.part.correction, matched.tolerance_mired)


def correction_words(correction: Correction, tolerance_mired: float) -> str:
    """ "C-1 + C-9, left over: 5 mired warmer"; none where it is near enough or nothing brings it nearer."""
    if not correction.filters and abs(correction.off_mired) <= tolerance_mired:
        return _("none is needed")
    filters, off = filters_words(correction), correction.off_mired
    told = {"filters": filters or _("none"), "left": shift_words(off)}
    if number_words(off) == "0":
        return _("%(filters)s, nothing is left over") % told
    return _("%(filters)s, left over: %(left)s") % told


def _level_facts(each: MatchedLight, matched: Matched) -> Iterator[Fact]:
    part, system = each.part, matched.system
    yield gettext_lazy("light, all open"), "" if each.lux is None else lux_words(each.lux, system)
    if part is None or part.lux is None or matched.match.lux is None:
        return
    if part.correction is not None and part.correction.filters:
        yield gettext_lazy("behind the correction"), lux_words(part.lux, system)
    yield gettext_lazy("douser or dimmer open to"), share_words(each, matched)
    yield gettext_lazy("light then"), lux_words(matched.match.lux, system)


def share_words(each: MatchedLight, matched: Matched) -> str:
    """How far it stays open: "77.8 % of its light"."""
    if each is matched.dimmest:
        return _("all open: the dimmest sets the level")
    share = each.part.share if each.part else None
    return _("all open") if share is None else _("%(share)s of its light") % {"share": percent_words(share)}


def _notes(each: MatchedLight) -> Iterator[str]:
    if is_near(each.light):
        yield _("The throw is shorter than the unit's far-field distance: its light is only a rough guide. Measure it.")
    if each.lux is not None and each.lux.low != each.lux.high:
        yield _("The lower figure is counted. It is from one to another because:")
        yield from why_from_to(each.light)
    correction = each.part.correction if each.part else None
    if correction is not None and correction.stack.is_rough:
        yield _("What passes both filters is rough: they are not recorded as near-neutral.")


def _gaps(light: PlaceLight) -> Iterator[Gap]:
    if light.unit is None:
        yield place_gap(_("which unit stands there"), light.place, "venue:place_stand")
    if light.lens is None:
        yield place_gap(_("where its lens is"), light.place)
    if light.unit is not None:
        yield from _unit_gaps(light.unit)


def _unit_gaps(unit: Unit) -> Iterator[Gap]:
    has_angle = unit.narrow_deg is not None or unit.wide_deg is not None
    missing = {
        _("kind of source"): not unit.source,
        _("narrowest and widest angle"): unit.narrow_deg is None or unit.wide_deg is None,
        _("level of the angles"): has_angle and unit.angle_percent is None,
        _("candela"): unit.narrow_cd is None and unit.wide_cd is None,
        _("color temperature"): unit.cct_k is None,
    }
    return (unit_gap(words, unit) for words, is_missing in missing.items() if is_missing)
