"""Calendars of calls against the published texts.

RFC 5545, Internet Calendaring and Scheduling Core Object Specification (B. Desruisseaux, September 2009); RFC 5546,
iCalendar Transport-Independent Interoperability Protocol (C. Daboo, December 2009); RFC 7986, New Properties for
iCalendar (C. Daboo, October 2016). Quoted from secondary copies of the texts; what is from memory says so.
Wall times over clock changes (PEP 495; the night of 7 h and that of 9 h) are in test_wall_times.py.
"""

import re
from dataclasses import replace
from datetime import UTC, datetime
from uuid import UUID

import pytest
from icalendar import Calendar, Event

from crew.calendar_file import call_file, feed_file
from crew.core.calendar import Entry, Organizer, entry_uid, escaped
from venue.core.local_time import possible_instants

NEW_YORK = "America/New_York"
CALL, PERSON, ROSTER = UUID(int=11), UUID(int=12), UUID(int=13)


def an_entry(starts: datetime, ends: datetime, **facts: object) -> Entry:
    usual = {"summary": "Call", "location": "", "description": (), "is_cancelled": False, "sequence": 1}
    whose = {"uid": entry_uid(CALL, PERSON), "changed_at": starts, "organizer": Organizer(ROSTER, "Crew")}
    return Entry(starts=starts, ends=ends, **{**usual, **whose, **facts})  # type: ignore[arg-type]


def night(first: datetime, last: datetime, *, folds: tuple[int, int] = (0, 0)) -> Entry:
    """A call between two wall times of New York; where one exists twice its fold picks."""
    starts, ends = (possible_instants(wall, NEW_YORK)[at] for wall, at in zip((first, last), folds, strict=True))
    return an_entry(starts, ends)


EVENING = night(datetime(2026, 3, 3, 18, 30), datetime(2026, 3, 3, 23))


def the_event(content: bytes) -> Event:
    (event,) = Calendar.from_ical(content).walk("VEVENT")
    return event


def test_a_time_that_exists_twice_means_the_first_and_only_utc_can_say_the_second() -> None:
    """RFC 5545, 3.3.5: TZID=America/New_York:20071104T013000 is 2007-11-04T05:30:00Z."""
    wall, late = datetime(2007, 11, 4, 1, 30), datetime(2007, 11, 4, 5)
    first, second = (call_file(night(wall, late, folds=(fold, 0))) for fold in (0, 1))
    assert b"\r\nDTSTART:20071104T053000Z\r\n" in first
    assert b"\r\nDTSTART:20071104T063000Z\r\n" in second
    published = "BEGIN:VEVENT\r\nDTSTART;TZID=America/New_York:20071104T013000\r\nEND:VEVENT\r\n"
    (told,) = Event.from_ical(published).walk("VEVENT")
    assert told["DTSTART"].dt.astimezone(UTC) == the_event(first)["DTSTART"].dt


@pytest.mark.parametrize(
    ("starts", "ends", "hours"),
    [
        (datetime(2026, 3, 7, 23), datetime(2026, 3, 8, 7), 7),
        (datetime(2026, 10, 31, 23), datetime(2026, 11, 1, 7), 9),
    ],
)
def test_a_night_call_over_a_clock_change_is_as_long_as_it_is_worked(
    starts: datetime, ends: datetime, hours: int
) -> None:
    """Derived from the United States' rule for daylight time; no published answer."""
    event = the_event(call_file(night(starts, ends)))
    assert (event["DTEND"].dt - event["DTSTART"].dt).total_seconds() == hours * 3600


def test_three_lines_of_text_become_one() -> None:
    """RFC 5545, 3.3.11: the three lines of its own example, joined by a backslash and an n."""
    published = r"Project XYZ Final Review\nConference Room - 3B\nCome Prepared."
    lines = ("Project XYZ Final Review", "Conference Room - 3B", "Come Prepared.")
    assert escaped("\n".join(lines)) == published
    content = call_file(replace(EVENING, description=lines))
    assert f"DESCRIPTION:{published}".encode() in content.replace(b"\r\n ", b"")


def test_backslash_semicolon_and_comma_are_escaped_and_a_colon_is_not() -> None:
    r"""RFC 5545, 3.3.11: ESCAPED-CHAR = ("\\" / "\;" / "\," / "\N" / "\n"); a colon stands as it is."""
    assert escaped("\\ ; , :") == r"\\ \; \, :"


def test_lines_are_at_most_75_octets_and_no_character_is_cut() -> None:
    """RFC 5545, 3.1: lines of text should not be longer than 75 octets, line break excluded.

    They are folded by CRLF and one white space; cutting a character of several octets is what it warns of.
    """
    content = call_file(replace(EVENING, summary="Мира Лисовская · ελαφρύ · 光の番 · " * 8))
    assert content.count(b"\r\n ") >= 4
    for line in content.split(b"\r\n"):
        assert len(line) <= 75
        line.decode()


def test_calling_off_cancels_the_published_entry() -> None:
    """RFC 5546, 4.2 on cancelling; of a published event 3.2.5 and 4.1.3, these two numbers from memory.

    METHOD:CANCEL, the same UID, a higher SEQUENCE, STATUS:CANCELLED.
    """
    before = the_event(call_file(EVENING))
    content = call_file(replace(EVENING, is_cancelled=True, sequence=2))
    after = the_event(content)
    assert Calendar.from_ical(content)["METHOD"] == "CANCEL"
    assert (after["UID"], after["STATUS"]) == (before["UID"], "CANCELLED")
    assert after["SEQUENCE"] > before["SEQUENCE"]


def test_a_subscribed_feed_keeps_the_cancelled_entry() -> None:
    """RFC 5546, publishing (3.2.1, from memory): an ORGANIZER, no ATTENDEE, STATUS may be CANCELLED."""
    content = feed_file("Calls", [replace(EVENING, is_cancelled=True, sequence=2)])
    event = the_event(content)
    assert Calendar.from_ical(content)["METHOD"] == "PUBLISH"
    assert (event["STATUS"], "ORGANIZER" in event, "ATTENDEE" in event) == ("CANCELLED", True, False)


def test_an_identifier_is_a_uuid_and_tells_no_user_host_or_domain() -> None:
    """RFC 7986, 5.3: the UID should be a UUID and must not hold what identifies a user, a host or a domain."""
    uid = str(the_event(call_file(EVENING))["UID"])
    assert re.fullmatch(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}", uid)
    assert uid not in {str(CALL), str(PERSON), str(ROSTER)}
    assert "@" not in uid
