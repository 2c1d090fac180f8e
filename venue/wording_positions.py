"""Positions and places in words: what is recorded, what is not yet, where a lens is."""

from django.utils.formats import date_format
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from venue.core.lengths import UnitSystem, as_typed, written
from venue.core.throws import is_far_off, side_of
from venue.models import Place, Position
from venue.models.places import ThrowEnd
from venue.models.positions import Glass
from venue.throw_ends import computed_throw
from venue.wording_corners import pans_words

Fact = tuple[str | Promise, str]
"""A name and what is recorded; empty where nothing is."""

SIDE_WORDS = {
    "house left": gettext_lazy("%(distance)s house left of center"),
    "house right": gettext_lazy("%(distance)s house right of center"),
}


def fact_groups(position: Position, system: UnitSystem) -> list[tuple[str | Promise, list[Fact]]]:
    """Everything that the house records of a position, under headings."""
    return [
        (gettext_lazy("Getting there"), _getting_there(position, system)),
        (gettext_lazy("Load, seats and needs"), _load(position)),
        (gettext_lazy("Power and talking"), _power(position)),
        (gettext_lazy("What its lights see"), _view(position, system)),
        (gettext_lazy("Safety and people"), _safety(position)),
    ]


def missing_facts(position: Position, system: UnitSystem) -> list[str]:
    """The names of what is not recorded yet."""
    missing = [str(name) for _title, facts in fact_groups(position, system) for name, value in facts if not value]
    return missing if position.checked_on else [*missing, _("when it was checked, and by whom")]


def checked_words(position: Position) -> str:
    """When the position was checked and by whom; empty where it was not."""
    if position.checked_on is None:
        return ""
    return _("Checked on %(day)s by %(name)s.") % {"day": date_format(position.checked_on), "name": position.checked_by}


def _getting_there(position: Position, system: UnitSystem) -> list[Fact]:
    minutes = position.access_min
    time = "" if minutes is None else ngettext("%(count)s minute", "%(count)s minutes", minutes) % {"count": minutes}
    passage = "" if position.passage_m is None else as_typed(position.passage_m, position.passage_text, system)
    return [
        (gettext_lazy("how to get there"), position.access),
        (gettext_lazy("time to get there"), time),
        (gettext_lazy("narrowest passage"), passage),
    ]


def _load(position: Position) -> list[Fact]:
    seats = position.seats_lost
    return [
        (gettext_lazy("load limit"), _kilograms(position.load_limit_kg)),
        (gettext_lazy("what else stands or hangs there"), _kilograms(position.other_load_kg)),
        (gettext_lazy("seats lost to it"), "" if seats is None else str(seats)),
        (gettext_lazy("what else is needed there"), position.needs),
    ]


def _kilograms(load: float | None) -> str:
    return "" if load is None else _("%(load)s kg") % {"load": f"{load:.10g}"}


def _power(position: Position) -> list[Fact]:
    return [
        (gettext_lazy("power service"), position.power),
        (gettext_lazy("where the power is switched off"), position.power_switched_at),
        (gettext_lazy("intercom"), position.intercom),
    ]


def _view(position: Position, system: UnitSystem) -> list[Fact]:
    """Glass and limits; what a pane keeps back is asked only where there is one."""
    upstage = _limit(position.farthest_upstage_m, position.farthest_upstage_text, system)
    downstage = _limit(position.farthest_downstage_m, position.farthest_downstage_text, system)
    loss = position.glass_loss_pct
    lost = "" if loss is None else _("%(loss)s %% of the light, measured") % {"loss": f"{loss:.10g}"}
    has_pane = position.glass in {Glass.SLIDING, Glass.FIXED} or loss is not None
    return [
        (gettext_lazy("glass"), str(position.get_glass_display())),
        *([(gettext_lazy("lost in the glass"), lost)] if has_pane else []),
        (gettext_lazy("sees upstage as far as"), upstage),
        (gettext_lazy("sees downstage as far as"), downstage),
        (gettext_lazy("pans"), pans_words(position.pan_from_deg, position.pan_to_deg)),
    ]


def _limit(y: float | None, text: str, system: UnitSystem) -> str:
    """A limit of the view, the words for downstage of the plaster line."""
    if y is None:
        return ""
    if y >= 0:
        return _along(y, text, system)
    return _("%(distance)s downstage of the plaster line") % {"distance": as_typed(abs(y), text, system)}


def _safety(position: Position) -> list[Fact]:
    way_out = ", ".join(filter(None, [str(position.get_show_exit_display()), position.show_exit_words]))
    return [
        (gettext_lazy("fall protection needed"), position.get_fall_protection_display()),
        (gettext_lazy("rescue plan"), position.rescue_plan),
        (gettext_lazy("a way out during the show"), way_out),
        (gettext_lazy("who may operate here"), position.get_who_may_operate_display()),
    ]


def where_words(place: Place, system: UnitSystem) -> str:
    """Where the lens is, sides and directions in words; empty where only the order is known."""
    x, y, z = place.x_m, place.y_m, place.z_m
    if x is None or y is None or z is None:
        return "" if place.bearing_deg is None else _bearing_words(place.bearing_deg)
    return ", ".join([_across(x, place.x_text, system), _along(y, place.y_text, system), _up(z, place.z_text, system)])


def _bearing_words(bearing_deg: float) -> str:
    return _("%(degrees)s° clockwise from the stage end") % {"degrees": f"{bearing_deg:g}"}


def _across(x: float, text: str, system: UnitSystem) -> str:
    side = side_of(x)
    if side == "center":
        return _("on the center line")
    return SIDE_WORDS[side] % {"distance": as_typed(abs(x), text, system)}


def _along(y: float, text: str, system: UnitSystem) -> str:
    if y == 0:
        return _("at the plaster line")
    sentence = _("%(distance)s upstage of the plaster line") if y > 0 else _("%(distance)s toward the house")
    return sentence % {"distance": as_typed(abs(y), text, system)}


def _up(z: float, text: str, system: UnitSystem) -> str:
    if z < 0:
        return _("%(height)s below the deck") % {"height": written(z, system)}
    return _("%(height)s above the deck") % {"height": as_typed(z, text, system)}


def length_words(column: str, meters: float, system: UnitSystem) -> str:
    """A column of a place, a position or a set-up in words, without a sign."""
    if column in {"x_m", "target_x_m"}:
        return _across(meters, "", system)
    if column in {"y_m", "target_y_m", "throw_end_y_m"}:
        return _along(meters, "", system)
    if column in {"farthest_upstage_m", "farthest_downstage_m"}:
        return _limit(meters, "", system)
    return _up(meters, "", system) if column in {"z_m", "target_z_m"} else written(meters, system)


def throw_words(place: Place, system: UnitSystem) -> str:
    """The throw with its end point, and what the measures give where nobody told a throw; empty if unknown."""
    if place.throw_m is None:
        return ""
    end = place.throw_mark if place.throw_end == ThrowEnd.MARK else place.get_throw_end_display()
    told = _("throw %(throw)s to %(end)s") % {"throw": as_typed(place.throw_m, place.throw_text, system), "end": end}
    computed = computed_throw(place)
    if computed is None or not is_far_off(place.throw_m, computed):
        return told
    return _("%(told)s, measures give %(computed)s") % {"told": told, "computed": written(computed, system)}
