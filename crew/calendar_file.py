"""Entries of a calendar as a file that every calendar program reads. Takes plain records, runs no query."""

from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta

from icalendar import Calendar, Component, Event, Timezone, TimezoneStandard, vCalAddress, vText

from crew.core.calendar import Entry, Method, Organizer, escaped, plain

MEDIA_TYPE = "text/calendar; charset=utf-8"
PRODID = "-//Throwbook//Calls//EN"
ASK_AGAIN = timedelta(hours=1)
"""How often a reader is asked to look for changes."""


class _Text(vText):
    """TEXT, escaped as the RFC says and no further."""

    def to_ical(self) -> bytes:
        return escaped(str(self)).encode()


def call_file(entry: Entry) -> bytes:
    """One call to keep: published, or cancelled."""
    return _written(_calendar(entry.method), [_event(entry)])


def feed_file(name: str, entries: Sequence[Entry]) -> bytes:
    """What a reader subscribes to, the calls in order. What was called off stays, as cancelled."""
    calendar = _calendar("PUBLISH" if entries else None)
    calendar.add("name", _Text(plain(name)))
    calendar.add("refresh-interval", ASK_AGAIN, {"VALUE": "DURATION"})
    return _written(calendar, map(_event, entries) if entries else [_universal_time()])


def _calendar(method: Method | None) -> Calendar:
    calendar = Calendar()
    calendar.add("prodid", PRODID)
    calendar.add("version", "2.0")
    if method:
        calendar.add("method", method)
    return calendar


def _event(entry: Entry) -> Event:
    event = Event()
    event.add("uid", str(entry.uid))
    event.add("sequence", entry.sequence)
    event.add("dtstamp", entry.changed_at)
    event.add("last-modified", entry.changed_at)
    event.add("dtstart", entry.starts)
    if entry.ends > entry.starts:  # else it is a moment, which has no DTEND
        event.add("dtend", entry.ends)
    event.add("status", entry.status)
    event.add("transp", entry.transparency)
    event.add("organizer", _organizer(entry.organizer))
    texts = {"summary": entry.summary, "location": entry.location, "description": "\n".join(entry.description)}
    for name, text in texts.items():
        if text:
            event.add(name, _Text(text))
    return event


def _organizer(organizer: Organizer) -> vCalAddress:
    address = vCalAddress(organizer.address)
    address.params["CN"] = " ".join(plain(organizer.name).split())
    return address


def _universal_time() -> Timezone:
    """What stands in a feed without a call: a calendar has at least one component (RFC 5545, 3.6)."""
    standard = TimezoneStandard()
    standard.add("dtstart", datetime(1970, 1, 1))
    standard.add("tzoffsetfrom", timedelta())
    standard.add("tzoffsetto", timedelta())
    zone = Timezone()
    zone.add("tzid", "UTC")
    zone.add_component(standard)
    return zone


def _written(calendar: Calendar, components: Iterable[Component]) -> bytes:
    for component in components:
        calendar.add_component(component)
    return calendar.to_ical()
