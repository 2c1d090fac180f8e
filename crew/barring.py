"""Whether somebody may come on a line at all, asked once more while the person is locked, as a refusal by name."""

from collections.abc import Callable, Iterable, Mapping

from crew.candidates import Asked, Offers, asked_of, facts_of, people_for, rules_of
from crew.core.filling.bars import bars_of
from crew.core.filling.records import Bar, Somebody
from crew.line_errors import Barred, CertificationMissing, DayOff, LeftRoster, ShortRest
from crew.line_needs import Light, Seat, lights_of
from crew.models import Call, CallLine, CertificationKind, Person
from venue.core.labels import label_key


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
    refusal = _first_refusal(bars_of(somebody, wanted, asked.rules), person, line, asked.kinds)
    if refusal is not None:
        raise refusal


def barred_now(call: Call) -> dict[int, Barred]:
    """By the line's key what keeps its person off it at the times that the call has, stored or not.

    As many queries however many lines. The call and the people are locked. As in `refuse_barred`, the database refuses
    who is on another call.
    """
    asked = asked_of(call)
    offers = Offers(asked, people_for(asked, to_rank=False))
    people = {who.key: who for who in offers.roll.people}
    found = {}
    for seat, line in asked.standing.items():
        if line.person is not None:
            bars = offers.bars_on(people.get(line.person.pk), asked.wanted[seat])
            found[line.pk] = _first_refusal(bars, line.person, line, asked.kinds)
    return {key: refusal for key, refusal in found.items() if refusal is not None}


def _first_refusal(
    bars: Iterable[Bar], person: Person, line: CallLine, kinds: Mapping[int, CertificationKind]
) -> Barred | None:
    """The refusal that the first stop means, but for another call."""
    stops = (bar for bar in bars if bar.is_stop and bar.code != "booked")
    return next((refusal_of(bar, person, line, kinds) for bar in stops), None)


def _asked(line: CallLine, seat: Seat, lights: Mapping[Seat, Light] | None) -> Asked:
    """The call as far as the check of one line needs it; what is only told is not looked up."""
    call = line.call
    kinds = {kind.pk: kind for kind in call.roster.certification_kinds.standing().filter(is_required=True)}
    of_places = any(kind.needed_for not in {"", "house"} for kind in kinds.values())
    if lights is None:
        lights = lights_of(call) if of_places and seat[0] else {}
    return Asked(call, lights, {}, kinds, rules_of(call))


def refusal_of(bar: Bar, person: Person, line: CallLine, kinds: Mapping[int, CertificationKind]) -> Barred:
    """The refusal that the bar means."""
    made: dict[str, Callable[[], Barred]] = {
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
