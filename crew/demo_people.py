"""What the demo knows of its operators: experience, certifications, ways to reach them, all of it invented.

Phone numbers are of the block that is kept for stories (555-0100 to 555-0199), e-mail addresses of the domain
that is kept for examples (RFC 2606).
"""

from collections.abc import Iterator, Sequence
from datetime import date, datetime, timedelta

from crew.actions.people_files import load_people
from crew.core.people_table import WRITTEN
from crew.models import Person, Roster
from crew.models.certifications import NeededFor
from crew.people_file import judge_people
from crew.people_page import today_of
from venue.core.csv_text import Cell, csv_record
from venue.history import Actor

KNOWN: Sequence[tuple[str, str, int, int | None, int | None]] = (
    ("lead", "FS-01, short-arc", 1, 400, 300),
    ("some", "short-arc", 6, -12, 200),
    ("lead", "short-arc, LED", 2, 500, 21),
    ("some", "LED", 7, 250, 300),
    ("some", "short-arc", 4, 18, 250),
    ("some", "", 9, 365, None),
    ("lead", "short-arc", 3, 420, 340),
    ("some", "LED, short-arc", 5, 300, 260),
    ("none", "", 10, None, 330),
    ("some", "short-arc", 8, 200, 150),
)
"""Experience, units known, place on the list, days left of climb and harness, of the house's orientation; None: not
held. Who knows short-arc units is certified for their lamps."""
GRADES = {"lead": 1, "some": 2, "none": 4}


def add_operators(names: Sequence[str], roster: Roster, actor: Actor, now: datetime) -> list[Person]:
    """The operators with what is known of them, in the order of the names."""
    text = "".join(map(csv_record, [tuple(WRITTEN.values()), *_rows(names, roster, now)]))
    load_people(actor=actor, roster=roster, text=text, shown=judge_people(roster, text).fingerprint)
    made = {person.name: person for person in roster.persons.all()}
    return [made[name] for name in names]


def _rows(names: Sequence[str], roster: Roster, now: datetime) -> Iterator[tuple[Cell, ...]]:
    kinds = {kind.needed_for: kind.name for kind in roster.certification_kinds.standing()}
    today = today_of(roster, now)
    for index, (name, facts) in enumerate(zip(names, KNOWN, strict=True)):
        experience, units, seniority, climb, orientation = facts
        held = [
            _held(kinds[NeededFor.CLIMB], today, climb),
            _held(kinds[NeededFor.HOUSE], today, orientation),
            kinds[NeededFor.ARC_LAMP] if "short-arc" in units else "",
        ]
        contact = (f"555-01{index + 40}", f"operator{index + 1}@lantern-street.example")
        yield name, *contact, experience, units, seniority, GRADES[experience], "; ".join(filter(None, held)), None


def _held(kind: str, today: date, days: int | None) -> str:
    return "" if days is None else f"{kind}: {today + timedelta(days=days)}"
