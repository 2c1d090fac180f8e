"""The venue's sentences: lines of history, in the reader's language."""

from typing import Any

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from venue.models import Event

EVENT_SENTENCES: dict[str, str | Promise] = {
    "house.made": _("opened the house %(name)s"),
    "house.changed": _("changed the house %(subject)s"),
    "house.book_loaded": _("took in from a house file: %(listed)s"),
    "book.corrected": _("corrected %(subject)s by a house file"),
    "setup.added": _("added the set-up %(name)s"),
    "setup.changed": _("changed the set-up %(subject)s"),
    "setup.zone_set": _("set the zone of %(position)s in the set-up %(setup)s to %(zone)s"),
    "membership.granted": _("made %(name)s %(role)s of the house"),
    "membership.revoked": _("ended the access of %(name)s: %(reason)s"),
    "position.added": _("added the position %(name)s"),
    "position.changed": _("changed the position %(subject)s"),
    "position.ended": _("ended the position %(name)s: %(reason)s"),
    "position.turned": _("turned the row of %(position)s round"),
    "walk.confirmed": _("wrote down that %(walked_by)s walked %(position)s and found %(label)s at the end"),
    "place.added": _("added %(place)s"),
    "place.changed": _("changed %(subject)s"),
    "place.ended": _("ended %(place)s: %(reason)s"),
    "unit.added": _("added the unit %(tag)s"),
    "unit.changed": _("changed the unit %(subject)s"),
    "unit.ended": _("took the unit %(tag)s off the books: %(reason)s"),
    "unit.placed": _("put %(tag)s at %(place)s"),
    "unit.left": _("took %(tag)s away from %(place)s"),
    "unit.moved": _("moved %(tag)s from %(from_place)s to %(place)s"),
    "unit.sent": _("sent %(tag)s away: %(where)s"),
    "unit.brought": _("brought %(tag)s to %(place)s"),
    # Faults, the log, care and light
    "fault.reported": _("reported a fault of %(tag)s"),
    "fault.changed": _("corrected the fault of %(subject)s"),
    "fault.closed": _("closed a fault of %(tag)s: %(done)s"),
    "fault.stands_again": _("opened the fault of %(tag)s again"),
    "log.written": _("wrote into the log of %(about)s"),
    "log.struck": _("struck out a log entry about %(about)s: %(reason)s"),
    "log.attached": _("attached %(file)s to a log entry about %(about)s"),
    "logentry.changed": _("corrected a log entry: %(subject)s"),
    "relamp.answered": _("answered for the relamp of %(about)s, which stays open"),
    "relamp.closed": _("closed the relamp of %(about)s"),
    "careplan.added": _("added the care plan “%(what)s”"),
    "careplan.changed": _("changed the care plan “%(subject)s”"),
    "careplan.ended": _("ended the care plan “%(what)s”: %(reason)s"),
    "care.done": _("recorded “%(what)s” as done on %(about)s"),
    "light.measured": _("measured the light of %(tag)s"),
    # Circuits, filters, sizes, areas, what is in the way
    "circuit.added": _("added the circuit %(name)s"),
    "circuit.changed": _("changed the circuit %(subject)s"),
    "circuit.ended": _("ended the circuit %(name)s: %(reason)s"),
    "colorfilter.added": _("added the filter %(name)s"),
    "colorfilter.changed": _("changed the filter %(subject)s"),
    "colorfilter.ended": _("ended the filter %(name)s: %(reason)s"),
    "size.set": _("set the pick-up size “%(size)s” to %(diameter)s m"),
    "area.added": _("added the area %(name)s to the set-up %(setup)s"),
    "area.changed": _("changed the area %(subject)s"),
    "area.ended": _("ended the area %(name)s of the set-up %(setup)s: %(reason)s"),
    "blockage.added": _("noted what is in the way of %(position)s: %(name)s"),
    "blockage.changed": _("corrected what is in the way: %(subject)s"),
    "blockage.ended": _("noted that it is in the way of %(position)s no more: %(name)s; %(reason)s"),
    # Hours and lamps
    "meter.put": _("put a meter on %(tag)s, which showed %(shows)s h"),
    "meter.replaced": _("replaced the meter of %(tag)s at %(closing)s h; the new one showed %(shows)s h"),
    "meter.bridged": _("replaced the dead meter of %(tag)s, bridged by %(gap)s h; the new one showed %(shows)s h"),
    "meter.reset": _("reset the meter of %(tag)s at a relamp; it showed %(shows)s h then"),
    "meter.lost": _("replaced the dead meter of %(tag)s, hours since its last reading not known"),
    "reading.taken": _("read %(shows)s h on the meter of %(tag)s"),
    "reading.undone": _("took back a reading of %(tag)s, %(shows)s h"),
    "reading.struck": _("struck out a reading of %(tag)s, %(shows)s h: %(reason)s"),
    "reading.corrected": _("corrected a reading of %(tag)s from %(shows)s h to %(instead)s h: %(reason)s"),
    "readings.loaded": _("loaded %(count)s readings from a file: %(tags)s"),
    "hours.added": _("added %(hours)s h to %(tag)s"),
    "hours.undone": _("took back %(shows)s h that were added to %(tag)s"),
    "hours.struck": _("struck out %(hours)s h that were added to %(tag)s: %(reason)s"),
    "lamp.added": _("put the lamp %(serial)s on the shelf, %(kind)s"),
    "lamp.ended": _("took the lamp %(serial)s off the books: %(reason)s"),
    "lamp.fitted": _("fitted lamp %(serial)s to %(tag)s"),
    "lamp.changed": _("changed the lamp of %(tag)s: %(out)s out, %(serial)s in"),
    "lamp.taken_out": _("took lamp %(serial)s out of %(tag)s: %(reason)s"),
    "lamp.decided": _("wrote down that %(by)s lets lamp %(serial)s burn until %(until)s h: %(source)s"),
    "lampkind.added": _("added the lamp kind %(name)s"),
    "lampkind.changed": _("changed the lamp kind %(subject)s"),
    "lampkind.ended": _("ended the lamp kind %(name)s: %(reason)s"),
    "lampkind.counted": _("counted %(spares)s spares of %(name)s, %(on_order)s on order"),
    "link.made": _("made a link for %(purpose)s"),
    "link.used": _("used a link for %(purpose)s"),
    "link.revoked": _("revoked a link for %(purpose)s"),
    "code.made": _("printed a code for %(purpose)s"),
    "labels.coded": _("made %(number)s codes for labels of %(purpose)s"),
}
"""By verb; the apps above add their own."""


class _Details(dict[str, Any]):
    """An old line may lack a detail that today's sentence names."""

    def __missing__(self, name: str) -> str:
        return "…"


def event_sentence(event: Event) -> str:
    """What the line says was done, to follow the actor's name: "moved FS-01 from … to …"."""
    sentence = EVENT_SENTENCES.get(event.verb)
    return str(sentence) % _Details(event.data) if sentence else event.verb
