"""Entries of a calendar as bytes: read back by a library, and looked at byte by byte."""

import re
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import Any
from uuid import UUID

import pytest
from hypothesis import given
from hypothesis import strategies as st
from icalendar import Calendar, Event

from crew.calendar_file import call_file, feed_file
from crew.core.calendar import Entry, Organizer, entry_uid, escaped, last_change, plain, sequence_of

STARTS = datetime(2026, 3, 3, 23, 30, tzinfo=UTC)
ENTRY = Entry(
    uid=entry_uid(UUID(int=1), UUID(int=2)),
    sequence=7,
    summary="Call: Nine Paper Boats, show · show number 3",
    starts=STARTS,
    ends=STARTS + timedelta(hours=4),
    location="stage door, Quillmark Hall",
    description=("Call: Mar 3, 2026, 6:30 PM, stage door", "Bring gloves; water, too"),
    is_cancelled=False,
    changed_at=datetime(2026, 3, 2, 12, 0, 5, tzinfo=UTC),
    organizer=Organizer(UUID(int=3), "Quillmark crew"),
)
OFF = replace(ENTRY, is_cancelled=True, sequence=8)


def the_event(content: bytes) -> Event:
    (event,) = Calendar.from_ical(content).walk("VEVENT")
    return event


def unfolded(content: bytes) -> list[str]:
    """The content lines as bytes tell them (RFC 5545, 3.1): CRLF and one space or tab between are taken out."""
    return content.replace(b"\r\n ", b"").replace(b"\r\n\t", b"").decode().split("\r\n")


def value(content: bytes, name: str) -> str:
    (found,) = [line for line in unfolded(content) if re.match(rf"{name}[:;]", line)]
    return found[len(name) + 1 :]


def test_a_library_reads_back_what_was_written() -> None:
    event = the_event(call_file(ENTRY))
    assert event["UID"] == str(ENTRY.uid)
    assert (event["SEQUENCE"], event["STATUS"], event["TRANSP"]) == (7, "CONFIRMED", "OPAQUE")
    assert (event["DTSTART"].dt, event["DTEND"].dt) == (ENTRY.starts, ENTRY.ends)
    assert event["DTSTAMP"].dt == event["LAST-MODIFIED"].dt == ENTRY.changed_at
    assert (event["SUMMARY"], event["LOCATION"]) == (ENTRY.summary, ENTRY.location)
    assert event["DESCRIPTION"] == "\n".join(ENTRY.description)
    assert (event["ORGANIZER"], event["ORGANIZER"].params["CN"]) == (UUID(int=3).urn, "Quillmark crew")


def test_times_are_instants_in_utc_and_need_no_zone() -> None:
    lines = unfolded(call_file(ENTRY))
    assert "DTSTART:20260303T233000Z" in lines
    assert "DTEND:20260304T033000Z" in lines
    assert not any("TZID" in line for line in lines)


def test_what_ends_no_later_than_it_starts_has_no_end() -> None:
    assert "DTEND" not in the_event(call_file(replace(ENTRY, ends=ENTRY.starts)))
    assert "DTEND" not in the_event(call_file(replace(ENTRY, ends=ENTRY.starts - timedelta(hours=1))))


def test_one_call_that_is_off_cancels_and_a_feed_publishes_it_as_cancelled() -> None:
    assert value(call_file(ENTRY), "METHOD") == "PUBLISH"
    assert value(call_file(OFF), "METHOD") == "CANCEL"
    assert value(feed_file("Calls", [OFF]), "METHOD") == "PUBLISH"
    for content in (call_file(OFF), feed_file("Calls", [OFF])):
        event = the_event(content)
        assert (event["STATUS"], event["TRANSP"], event["UID"]) == ("CANCELLED", "TRANSPARENT", str(ENTRY.uid))
        assert "ORGANIZER" in event


def test_a_feed_has_its_name_its_pace_and_its_entries_in_order() -> None:
    other = replace(OFF, uid=entry_uid(UUID(int=9)))
    content = feed_file("Calls: Quillmark, Hall", [ENTRY, other])
    calendar = Calendar.from_ical(content)
    assert value(content, "NAME") == r"Calls: Quillmark\, Hall"
    assert "REFRESH-INTERVAL;VALUE=DURATION:PT1H" in unfolded(content)
    assert [event["UID"] for event in calendar.walk("VEVENT")] == [str(ENTRY.uid), str(other.uid)]


def test_a_feed_without_a_call_is_a_calendar_all_the_same() -> None:
    content = feed_file("Calls", [])
    assert [component.name for component in Calendar.from_ical(content).subcomponents] == ["VTIMEZONE"]
    assert not any(line.startswith("METHOD") for line in unfolded(content))


def test_the_product_names_no_machine() -> None:
    assert value(call_file(ENTRY), "PRODID") == "-//Throwbook//Calls//EN"


def test_the_same_entry_gives_the_same_bytes() -> None:
    assert feed_file("Calls", [ENTRY, OFF]) == feed_file("Calls", [ENTRY, OFF])


LONG = ("Мира Лисовская, Zofia Wiśniak; " * 9, "光" * 60, "x" * 74, "\\" * 90, "🔦" * 40)


@pytest.mark.parametrize("text", LONG)
def test_lines_end_with_crlf_and_fold_at_75_octets_between_characters(text: str) -> None:
    full = replace(ENTRY, summary=text, location=text, description=(text, text), organizer=Organizer(UUID(int=3), text))
    content = call_file(full)
    require_sound(content)
    assert b"\r\n " in content
    assert value(content, "SUMMARY") == escaped(text)


def require_sound(content: bytes) -> None:
    """Physical lines as RFC 5545, 3.1 has them: none over 75 octets, each whole UTF-8, no bare CR or LF."""
    assert content.endswith(b"\r\n")
    lines = content.removesuffix(b"\r\n").split(b"\r\n")
    for line in lines:
        assert 0 < len(line) <= 75
        line.decode()  # a split character would raise
        assert not re.search(rb"[\r\n\x00-\x08\x0b-\x1f\x7f]", line)
    assert (lines[0], lines[-1]) == (b"BEGIN:VCALENDAR", b"END:VCALENDAR")


@given(st.text(max_size=120))
def test_any_text_comes_out_sound_and_can_be_read_back(text: str) -> None:
    content = call_file(replace(ENTRY, summary=text, location=text, organizer=Organizer(UUID(int=3), text)))
    require_sound(content)
    assert the_event(content)["UID"] == str(ENTRY.uid)
    if plain(text):
        assert value(content, "SUMMARY") == escaped(text)
        assert bare(value(content, "SUMMARY")) == plain(text)


def bare(text: str) -> str:
    """TEXT read as RFC 5545, 3.3.11 says."""
    return re.sub(r"\\(.)", lambda found: "\n" if found[1] in "nN" else found[1], text)


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("a;b,c", r"a\;b\,c"),
        ("6:30 PM", "6:30 PM"),
        (r"dock\North", r"dock\\North"),
        (r"a\nb", r"a\\nb"),
        ("one\r\ntwo\rthree\nfour\u2028five", r"one\ntwo\nthree\nfour\nfive"),
        ("bell\x07 nul\x00 half\ud800", "bell nul half"),
        ("tab\there", "tab\there"),
        ('say "go"', 'say "go"'),
    ],
)
def test_text_is_escaped_and_freed_of_what_it_may_not_hold(text: str, written: str) -> None:
    assert escaped(text) == written


def test_no_line_of_text_becomes_a_line_of_the_file() -> None:
    sly = "gloves\r\nEND:VEVENT\r\nBEGIN:VEVENT\r\nSUMMARY:mine"
    content = call_file(replace(ENTRY, summary=sly, location=sly, organizer=Organizer(UUID(int=3), sly)))
    assert len(Calendar.from_ical(content).walk("VEVENT")) == 1
    assert the_event(content)["SUMMARY"] == sly.replace("\r\n", "\n")


@pytest.mark.parametrize("name", ['The "late" crew', "Harbor; hands, east: two", "hat ^ and 'n"])
def test_the_organizers_name_survives_every_mark(name: str) -> None:
    event = the_event(call_file(replace(ENTRY, organizer=Organizer(UUID(int=3), name))))
    assert event["ORGANIZER"].params["CN"] == name


def test_an_identifier_is_the_same_each_time_and_another_for_other_rows() -> None:
    refs: list[Any] = [UUID(int=1), UUID(int=2)]
    assert entry_uid(*refs) == entry_uid(*refs)
    assert len({entry_uid(*refs), entry_uid(*reversed(refs)), entry_uid(refs[0]), *refs}) == 5


def test_the_identifiers_of_calls_that_calendars_hold_already_stay() -> None:
    assert str(entry_uid(UUID(int=1))) == "49c7065f-0211-564a-b8c5-dd71375a081b"


def test_a_sequence_rises_with_any_version_and_with_a_line_more() -> None:
    assert sequence_of(2, 1, 1) < sequence_of(2, 1, 2) < sequence_of(3, 1, 2) < sequence_of(3, 1, 2, 1)


def test_the_last_change_is_the_latest_that_is_known() -> None:
    early, late = STARTS, STARTS + timedelta(hours=1)
    assert last_change([early, None, late], otherwise=early) == late
    assert last_change([None], otherwise=early) == early
