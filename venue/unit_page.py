"""What a unit's page shows: its lamp and meter, what is known of its use, its book and its pictures."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import Decimal

from venue.actions.readings import may_undo
from venue.core.sources import Traits, source_of, traits
from venue.lamp_book import LampLife, life_of
from venue.ledgers import run_of
from venue.models import Fitting, HoursAdded, LampDecision, Meter, Reading, Unit, UnitTally
from venue.unit_ledger import LedgerPage, ledger_page
from venue.unit_pictures import Pictures, pictures_of
from venue.use import use_of
from venue.wording_hours import lasts_words, when_words


@dataclass(frozen=True)
class UnitPage:
    """The unit's numbers. `life` is that of the lamp inside, None where none is on file; `decision` lets it burn
    past its stop. `per_day` is the usual use [h]; `lasts` says how long the lamp lasts by it. `undo` is what the
    person who looks may take back.
    """

    traits: Traits
    tally: UnitTally | None
    meter: Meter | None
    last_words: str
    fitting: Fitting | None
    life: LampLife | None
    decision: LampDecision | None
    per_day: float | None
    lasts: str
    ledger: LedgerPage
    pictures: Pictures
    undo: HoursAdded | None


def unit_page(unit: Unit, name: str, before: datetime | None, now: datetime) -> UnitPage:
    """What the page shows to the person of this name; the number of queries does not depend on what is on file."""
    tally = UnitTally.objects.filter(unit=unit).first()
    meter = unit.meters.still_open().first()
    fitting = unit.fittings.still_open().select_related("lamp__kind", "lamp__tally", "unit").first()
    life = None if fitting is None else life_of(fitting.lamp)
    decision = None if fitting is None else fitting.lamp.decisions.order_by("-at", "-pk").first()
    per_day = use_of(unit.house, [unit.pk], now).get(unit.pk)
    return UnitPage(
        traits=traits(source_of(unit.source)),
        tally=tally,
        meter=meter,
        last_words=_last_words(unit, meter),
        fitting=fitting,
        life=life,
        decision=decision,
        per_day=per_day,
        lasts=_lasts(life, per_day, now, unit),
        ledger=ledger_page(unit, before),
        pictures=pictures_of(unit, None if fitting is None else fitting.lamp.kind, now),
        undo=_undo(unit, name, now),
    )


def _last_words(unit: Unit, meter: Meter | None) -> str:
    """When the meter was read last."""
    if meter is None:
        return ""
    reading = Reading.objects.counting().filter(meter=meter).order_by("-at").first()
    return when_words(run_of(meter).starts_at if reading is None else reading.at, unit.house.time_zone)


def _lasts(life: LampLife | None, per_day: float | None, now: datetime, unit: Unit) -> str:
    """How long the lamp lasts by the usual use; empty where that can't be told."""
    if life is None or life.left_h is None or life.left_h <= Decimal(0) or not per_day:
        return ""
    days = float(life.left_h) / per_day
    return lasts_words(int(days), now + timedelta(days=min(days, 36_500)), unit.house.time_zone)


def _undo(unit: Unit, name: str, now: datetime) -> HoursAdded | None:
    added = HoursAdded.objects.counting().filter(unit=unit).order_by("-entered_at").first()
    return added if added is not None and may_undo(added, unit, name, now) else None
