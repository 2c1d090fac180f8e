"""Circuits, filters, sizes and what a unit's sheet says, in words."""

from collections.abc import Iterable

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.core.lengths import UnitSystem, as_typed, written
from venue.core.ranges import BEAM_DEG, CANDELA, COLOR_K, WATTS, WEIGHT_KG, Range
from venue.models import Circuit, ColorFilter, PickUpSize, Place, Unit
from venue.sizes import SizeRow, body_span_of, is_below_body
from venue.wording_positions import Fact

NOT_RECORDED = gettext_lazy("not recorded")


def plain(number: float) -> str:
    """A number as somebody would write it: no ".0", no more digits than it has, thousands apart."""
    return f"{number:,.10g}"


def circuit_words(circuit: Circuit) -> str:
    """ "120 V, 20 A, other things draw 4 A"."""
    volts = _("volts not recorded") if circuit.volts is None else _("%(n)s V") % {"n": plain(circuit.volts)}
    rating = _("rating not recorded") if circuit.rating_a is None else _("%(n)s A") % {"n": plain(circuit.rating_a)}
    return ", ".join([volts, rating, _other(circuit.other_a)])


def _other(amperes: float | None) -> str:
    if amperes is None:
        return _("what else draws on it is not recorded")
    if amperes == 0:
        return _("nothing else draws on it")
    return _("other things draw %(n)s A") % {"n": plain(amperes)}


def places_on(places: Iterable[Place]) -> str:
    """The places that a circuit feeds; says so where none is."""
    named = "; ".join(map(str, places))
    return _("On it: %(places)s.") % {"places": named} if named else _("No place is recorded on it.")


def circuits_of(places: Iterable[Place]) -> str:
    """Which place is on which circuit: "place 1 on A12; place 2 not recorded"; empty where none is recorded."""
    told = [(place.label, place.circuit) for place in places]
    if not any(circuit for _label, circuit in told):
        return ""
    return "; ".join(_on_circuit(label, circuit) for label, circuit in told)


def _on_circuit(label: str, circuit: Circuit | None) -> str:
    if circuit is None:
        return _("place %(label)s not recorded") % {"label": label}
    return _("place %(label)s on %(circuit)s") % {"label": label, "circuit": circuit}


def filter_words(color: ColorFilter) -> str:
    """ "62 % of the light passes, 131 mired warmer, takes every color about alike, diffuses"."""
    return ", ".join(filter(None, [_passes(color), _shift(color.shift_mired), _neutral(color), _diffusion(color)]))


def _passes(color: ColorFilter) -> str:
    if color.transmission_pct is None:
        return _("what passes is not recorded")
    return _("%(n)s %% of the light passes") % {"n": plain(color.transmission_pct)}


def _shift(mired: float | None) -> str:
    if mired is None:
        return ""
    if mired == 0:
        return _("no shift")
    words = _("%(n)s mired warmer") if mired > 0 else _("%(n)s mired cooler")
    return words % {"n": plain(abs(mired))}


def _neutral(color: ColorFilter) -> str:
    if color.is_near_neutral is None:
        return ""
    return _("takes every color about alike") if color.is_near_neutral else _("takes some colors more than others")


def _diffusion(color: ColorFilter) -> str:
    return _("diffuses") if color.is_diffusion else ""


def size_words(each: SizeRow, system: UnitSystem) -> str:
    """ "3' 3", the default" or "4', the house's own; the default is 3' 3"."""
    shown = {"own": diameter_words(each.row, system), "default": written(each.default_m, system)}
    if each.is_own:
        return _("%(own)s, the house's own; the default is %(default)s") % shown
    return _("%(own)s, the default") % shown


def diameter_words(row: PickUpSize, system: UnitSystem) -> str:
    """The diameter as typed, else as the house writes it."""
    return as_typed(row.diameter_m, row.diameter_text, system)


def too_small_words(row: PickUpSize, system: UnitSystem) -> str:
    """That the size does not hold what it is named for; empty where it does."""
    if not is_below_body(row):
        return ""
    told = {"size": row.get_size_display(), "own": diameter_words(row, system)}
    sentence = _(
        "%(own)s is less than the part of a body that “%(size)s” names: %(span)s on a tall person, without hair, hat "
        "or heels."
    )
    return sentence % {**told, "span": written(body_span_of(row.size), system)}


def sheet_facts(unit: Unit, system: UnitSystem) -> list[Fact]:
    """What is recorded of the maker's sheet; empty where nothing is."""
    return [
        (gettext_lazy("full beam angle"), _angles(unit)),
        (gettext_lazy("candela on the axis"), _from_to(unit.narrow_cd, unit.wide_cd, _("%(n)s cd"))),
        (gettext_lazy("its candela hold from a throw of"), _far_field(unit, system)),
        (gettext_lazy("sized by"), str(unit.get_sized_by_display())),
        (gettext_lazy("color temperature"), _amount(unit.cct_k, _("%(n)s K"))),
        (gettext_lazy("taken from the supply"), _amount(unit.input_w, _("%(n)s W"))),
        (gettext_lazy("power factor"), _amount(unit.power_factor, "%(n)s")),
        (gettext_lazy("weight"), _amount(unit.weight_kg, _("%(n)s kg"))),
    ]


def unusual_words(unit: Unit) -> str:
    """What lies outside the usual ranges of the trade, to be checked; empty where nothing does."""
    found = [
        _named(name, words, value)
        for column, usual, name, words in _USUAL
        if (value := getattr(unit, column)) is not None and usual.judged(value) == "unlikely"
    ]
    if not found:
        return ""
    return _("Stored, but unusual: %(listed)s. Check against the maker's sheet.") % {"listed": "; ".join(found)}


def _named(name: str | Promise, words: str, value: float) -> str:
    return _("%(name)s %(value)s") % {"name": name, "value": _amount(value, words)}


_USUAL: tuple[tuple[str, Range, str | Promise, str], ...] = (
    ("watts", WATTS, gettext_lazy("lamp"), "%(n)s W"),
    ("input_w", WATTS, gettext_lazy("taken from the supply"), "%(n)s W"),
    ("narrow_deg", BEAM_DEG, gettext_lazy("narrowest beam"), "%(n)s°"),
    ("wide_deg", BEAM_DEG, gettext_lazy("widest beam"), "%(n)s°"),
    ("narrow_cd", CANDELA, gettext_lazy("at the narrowest"), "%(n)s cd"),
    ("wide_cd", CANDELA, gettext_lazy("at the widest"), "%(n)s cd"),
    ("cct_k", COLOR_K, gettext_lazy("color temperature"), "%(n)s K"),
    ("weight_kg", WEIGHT_KG, gettext_lazy("weight"), "%(n)s kg"),
)


def _amount(number: float | None, words: str) -> str:
    return "" if number is None else words % {"n": plain(number)}


def _from_to(narrow: float | None, wide: float | None, words: str) -> str:
    """Of the narrowest and of the widest beam; which one is known where one is not."""
    if narrow is None and wide is None:
        return ""
    unknown = str(NOT_RECORDED)
    shown = {"narrow": _amount(narrow, words) or unknown, "wide": _amount(wide, words) or unknown}
    return _("narrowest %(narrow)s, widest %(wide)s") % shown


def _angles(unit: Unit) -> str:
    told = _from_to(unit.narrow_deg, unit.wide_deg, "%(n)s°")
    if not told:
        return ""
    where: str | Promise = _("ends at %(where)s") % {"where": unit.get_angle_percent_display()}
    if unit.angle_percent is None:
        where = _("not recorded whether at 50 % or at 10 % of the peak")
    return f"{told}; {where}"


def _far_field(unit: Unit, system: UnitSystem) -> str:
    return "" if unit.far_field_m is None else as_typed(unit.far_field_m, unit.far_field_text, system)
