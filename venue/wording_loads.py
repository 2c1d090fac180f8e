"""Supply and load in words. Never "ok": a recorded limit is exceeded, or not, and somebody licensed decides."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from venue.core.supply import Sum, amperes
from venue.gaps import Gap, circuit_gaps, position_gap, unit_gap
from venue.load_book import CircuitSum, PositionSum, Standing, load_of
from venue.models import Circuit, Position, Unit
from venue.wording_supply import circuit_words, plain


@dataclass(frozen=True)
class LoadRow:
    """A circuit or a position in words; `verdict` is "" where nothing can be said, and `gaps` then say why."""

    row: Circuit | Position
    facts: str
    sum: str
    verdict: str
    is_over: bool
    parts: Sequence[tuple[str, str]]
    gaps: Sequence[Gap]


def circuit_row(found: CircuitSum) -> LoadRow:
    """A circuit, unit by unit."""
    circuit = found.circuit
    return LoadRow(
        row=circuit,
        facts=circuit_words(circuit),
        sum=_sum_words(found.sum, "A"),
        verdict=circuit_verdict(found.sum),
        is_over=found.sum.verdict == "exceeded",
        parts=[(stand_words(light), _draw_words(light.unit, circuit.volts)) for light in found.lights],
        gaps=[*circuit_gaps(circuit), *_supply_gaps(found.lights)],
    )


def position_row(found: PositionSum) -> LoadRow:
    """A position, unit by unit; places where nothing stands are left out."""
    position, units = found.position, [light for light in found.lights if light.unit is not None]
    other = position.other_load_kg
    gaps = [unit_gap(_("weight"), light.unit) for light in units if light.unit and light.unit.weight_kg is None]
    if other is None:
        gaps.append(position_gap(_("what else stands or hangs there"), position))
    return LoadRow(
        row=position,
        facts=_("what else stands or hangs there: %(load)s") % {"load": _amount(other, "kg")},
        sum=_sum_words(found.sum, "kg"),
        verdict=position_verdict(found.sum),
        is_over=found.sum.verdict == "exceeded",
        parts=[(stand_words(light), _amount(light.unit.weight_kg, "kg")) for light in units if light.unit],
        gaps=gaps,
    )


def circuit_verdict(found: Sum) -> str:
    """Of amperes against a rating; "" where nothing can be said."""
    if found.over is not None:
        sentence = _("Over the recorded limit by %(over)s: stop, have an electrician look.")
        return sentence % {"over": _over_words(found.over, found, "A")}
    return _("Recorded limit not exceeded; an electrician decides.") if found.verdict == "not-exceeded" else ""


def position_verdict(found: Sum) -> str:
    """Of kilograms against a limit; "" where nothing can be said."""
    if found.over is not None:
        sentence = _("Over the recorded limit by %(over)s: stop, have a rigger look.")
        return sentence % {"over": _over_words(found.over, found, "kg")}
    return _("Recorded limit not exceeded; a rigger decides.") if found.verdict == "not-exceeded" else ""


def _over_words(over: float, found: Sum, unit: str) -> str:
    """ "4.2 A", "at least 4.2 A"; a very little is told to one digit, never as nothing."""
    number = _trimmed(f"{over:,.1f}") if over >= 0.05 else f"{over:.1g}"
    return _("at least %(over)s") % {"over": f"{number} {unit}"} if found.is_at_least else f"{number} {unit}"


def _sum_words(found: Sum, unit: str) -> str:
    """ "at least 16.7 A of 20 A"."""
    total = f"{_trimmed(f'{found.total:,.1f}')} {unit}"
    told = {"total": _("at least %(total)s") % {"total": total} if found.is_at_least else total}
    if found.limit is None:
        return _("%(total)s; no limit recorded") % told
    return _("%(total)s of %(limit)s") % {**told, "limit": f"{plain(found.limit)} {unit}"}


def _trimmed(number: str) -> str:
    return number.removesuffix(".0")


def _amount(number: float | None, unit: str) -> str:
    return _("not recorded") if number is None else f"{plain(number)} {unit}"


def stand_words(light: Standing) -> str:
    """ "FS-01 at Rear booth, place 1"; the place alone where nothing stands there."""
    if light.unit is None:
        return str(light.place)
    return _("%(unit)s at %(place)s") % {"unit": light.unit, "place": light.place}


def _draw_words(unit: Unit | None, volts: float | None) -> str:
    """ "16.7 A: 1900 W from the supply, power factor 0.95"."""
    if unit is None:
        return _("nothing stands there")
    load = load_of(unit)
    if load.watts is None:
        return _("not recorded")
    told = {"watts": _watts_words(unit), "drawn": _drawn(load.watts, volts, load.power_factor)}
    return _("%(drawn)s: %(watts)s") % told if told["drawn"] else told["watts"]


def _drawn(watts: float, volts: float | None, power_factor: float | None) -> str:
    if not volts:
        return ""
    drawn = {"n": _trimmed(f"{amperes(watts, volts, power_factor or 1.0):.1f}")}
    return _("at least %(n)s A") % drawn if power_factor is None else _("%(n)s A") % drawn


def _watts_words(unit: Unit) -> str:
    if unit.input_w is None:
        return _("its lamp's %(watts)s W; its supply takes in more") % {"watts": plain(unit.watts or 0.0)}
    told = {"watts": plain(unit.input_w), "factor": plain(unit.power_factor or 1.0)}
    if unit.power_factor is None:
        return _("%(watts)s W from the supply, power factor not recorded") % told
    return _("%(watts)s W from the supply, power factor %(factor)s") % told


def _supply_gaps(lights: Iterable[Standing]) -> Iterator[Gap]:
    """What the units leave open."""
    for light in lights:
        if light.unit is None:
            continue
        if light.unit.input_w is None:
            yield unit_gap(_("watts taken from the supply"), light.unit)
        if light.unit.power_factor is None:
            yield unit_gap(_("power factor"), light.unit)


def lead_words(sums: Sequence[Sum]) -> str:
    """All circuits and positions with a limit in one sentence."""
    over = sum(found.verdict == "exceeded" for found in sums)
    untold = sum(found.verdict == "not-recorded" for found in sums)
    if over:
        sentence = ngettext(
            "%(over)d recorded limit is exceeded: stop, have an electrician or a rigger look.",
            "%(over)d recorded limits are exceeded: stop, have an electrician or a rigger look.",
            over,
        )
        return sentence % {"over": over}
    if untold:
        sentence = _("No recorded limit is exceeded by what is recorded; for %(untold)d of %(all)d that is not enough.")
        return sentence % {"untold": untold, "all": len(sums)}
    if sums:
        return _("No recorded limit is exceeded; an electrician and a rigger decide.")
    return _("No circuit and no load limit is on file.")
