"""What is expected at a place, as a page lists it: facts by name, frames, and what is known of getting there."""

from collections.abc import Iterator

from django.utils import dateformat
from django.utils.translation import gettext as _

from shows.arrival_place import Expected
from shows.wording.asks import color_words, frame_one_words
from shows.wording.limits import unit_sentences
from venue.book import BookPosition
from venue.core.local_time import wall_time
from venue.models import Unit
from venue.models.positions import Zone
from venue.wording_walks import contradiction, house_left_words, walk_question

Fact = tuple[str, str]
"""The name of a fact and what is on file of it; "" where nothing is."""


def row_facts(expected: Expected) -> list[Fact]:
    """Which end of the row the label is at, how to stand so as to tell, and whether anybody looked before."""
    question = walk_question(expected.entry)
    return [
        (_("In its row"), _row(expected)),
        (_("How to tell"), f"{question.stand} {question.check}"),
        (_("On foot"), _walked(expected.entry)),
    ]


def _row(expected: Expected) -> str:
    nth, places = expected.nth, expected.entry.places
    if nth is None:
        return _("No order is on file, only labels: %(labels)s. Write down which end this is, as a note.") % {
            "labels": ", ".join(place.label for place in places)
        }
    facts = {"nth": nth, "count": len(places), "end": _first_end(expected.entry)}
    said = _("%(nth)s of %(count)s, counted from %(end)s.") % facts
    if len(places) == 1:
        return said
    ends = {"first": places[0].label, "last": places[-1].label}
    return f"{said} {_('The book has label %(first)s at that end and %(last)s at the other.') % ends}"


def _first_end(entry: BookPosition) -> str:
    if entry.zone == Zone.BOWL:
        return _("the stage end, clockwise seen from above")
    if entry.zone == Zone.SIDE:
        return _("the end nearest the audience")
    return house_left_words(entry)


def _walked(entry: BookPosition) -> str:
    if entry.is_contradicted:
        return contradiction(entry)
    if entry.walk is None:
        return _("Nobody walked this row in this set-up yet: look at the label at its end first.")
    day = dateformat.format(wall_time(entry.walk.walked_at, entry.setup.house.time_zone), "M j, Y")
    return _("Walked by %(who)s on %(day)s: the order fits the book.") % {"who": entry.walk.walked_by, "day": day}


def unit_facts(expected: Expected) -> list[Fact]:
    """The unit, what it can't do, the channel, and from which end frames are counted."""
    unit, spot, condition = expected.checked.unit, expected.checked.spot, expected.checked.condition
    if unit is None:
        facts = [(_("Unit"), _("None stands here, by the book"))]
    else:
        can_not = unit_sentences(unit.tag, condition.stops, condition.limits)
        notes = "; ".join((*can_not, *condition.notes))
        facts = [(_("Unit"), _unit(unit)), (_("What it can't do"), notes or _("Nothing on file"))]
    if spot is not None:
        facts.append((_("Headset channel"), spot.channel))
        facts.append((_("Frame 1 is at"), _ends(expected.show_end, unit)))
    return facts


def _unit(unit: Unit) -> str:
    return ", ".join(filter(None, [unit.tag, unit.source]))


def _ends(show_end: str, unit: Unit | None) -> str:
    """Both ends, since the show may count its frames the other way than the unit."""
    on_unit = str(unit.get_frame_1_end_display()) if unit is not None else ""
    said = _("on the unit: %(unit)s; as the show counts: %(show)s")
    words = said % {"unit": on_unit or _("not recorded"), "show": frame_one_words(show_end)}
    if unit is not None and unit.frame_1_end and show_end and unit.frame_1_end != show_end:
        return _("%(words)s. The two count opposite ways.") % {"words": words}
    return words


def frame_lines(expected: Expected) -> Iterator[tuple[int, list[Fact]]]:
    """Each frame's number, and each code in it with what is known of the color."""
    for frame in expected.frames:
        yield frame.number, [(code, color_words(row)) for code, row in frame.colors]


def going_up(expected: Expected) -> list[Fact]:
    """What is on file of getting there and of what keeps people from falling."""
    position = expected.entry.position
    way_out = ", ".join(filter(None, [str(position.get_show_exit_display()), position.show_exit_words]))
    return [
        (_("How to get there"), position.access),
        (_("Fall protection needed"), str(position.get_fall_protection_display())),
        (_("A way out during the show"), way_out),
        (_("What else is needed there"), position.needs),
        (_("Rescue plan"), position.rescue_plan),
    ]
