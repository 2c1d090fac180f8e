"""Whether somebody may come on a line at all, asked once more while the person is locked, as a refusal by name."""

from collections.abc import Callable, Iterable, Mapping

from crew.candidates import Asked, facts_of, rules_of
from crew.core.filling.bars import bars_of
from crew.core.filling.records import Bar, Somebody
from crew.errors import CertificationMissing, DayOff, LeftRoster, ShortRest
from crew.line_needs import Light, Seat, lights_of
from crew.models import CallLine, CertificationKind, Person
from venue.core.labels import label_key
from venue.errors import DomainError


def lock_persons(persons: Iterable[Person | None]) -> None:
    """Lock them by key, so that two who put the same people on lines wait for each other and never both."""
    keys = {person.pk for person in persons if person is not None}
    list(Person._base_manager.select_for_update().filter(pk__in=keys).order_by("pk").values_list("pk"))


def refuse_barred(line: CallLine, lights: Mapping[Seat, Light] | None = None) -> None:
    """Raise CertificationMissing, ShortRest, DayOff or LeftRoster if the line's person may not come on it.

    The call is locked; the person is locked here. `lights` spares the look at the show where many lines are put.
    Who is on another call at that time is refused by the database, and somebody of another roster by the row.
    """
    if line.person is None or line.person.roster_id != line.call.roster_id:
        return
    person = Person._base_manager.select_for_update().get(pk=line.person.pk)
    seat = (label_key(line.number) if line.number else "", line.seat)
    asked = _asked(line, seat, lights)
    wanted = asked.wanted_anew(line, seat)
    facts = facts_of(asked, wanted.starts, wanted.ends, only=person)
    somebody = Somebody(person.pk, person.name, has_left=person.has_ended, **facts.of(person.pk))
    for bar in bars_of(somebody, wanted, asked.rules):
        if bar.is_stop and bar.code != "booked":
            raise refusal_of(bar, person, line, asked.kinds)


def _asked(line: CallLine, seat: Seat, lights: Mapping[Seat, Light] | None) -> Asked:
    """The call as far as the check of one line needs it; what is only told is not looked up."""
    call = line.call
    kinds = {kind.pk: kind for kind in call.roster.certification_kinds.standing().filter(is_required=True)}
    of_places = any(kind.needed_for not in {"", "house"} for kind in kinds.values())
    if lights is None:
        lights = lights_of(call) if of_places and seat[0] else {}
    return Asked(call, lights, {}, kinds, rules_of(call))


def refusal_of(bar: Bar, person: Person, line: CallLine, kinds: Mapping[int, CertificationKind]) -> DomainError:
    """The refusal that the bar means."""
    made: dict[str, Callable[[], DomainError]] = {
        "left": lambda: LeftRoster(person.name),
        "short-rest": lambda: _short_rest(bar, person, line),
        "day-off": lambda: DayOff(person.name, bar.day, bar.last),
        "certification-missing": lambda: CertificationMissing(person.name, str(kinds[bar.kind or 0])),
        "certification-expired": lambda: CertificationMissing(person.name, str(kinds[bar.kind or 0]), bar.day),
    }
    return made[bar.code]()


def _short_rest(bar: Bar, person: Person, line: CallLine) -> ShortRest:
    """A rest runs from the other call into this one, or from this one into the next."""
    assert bar.until is not None and bar.starts is not None
    return ShortRest(person.name, bar.until, line.zone, bar.starts if bar.is_next else None)
