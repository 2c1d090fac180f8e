"""The venue's sentences: lines of history, in the reader's language."""

from typing import Any

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from venue.models import Event

EVENT_SENTENCES: dict[str, str | Promise] = {
    "house.made": _("opened the house %(name)s"),
    "house.changed": _("changed the house %(subject)s"),
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
    "link.made": _("made a link for %(purpose)s"),
    "link.used": _("used a link for %(purpose)s"),
    "link.revoked": _("revoked a link for %(purpose)s"),
    "code.made": _("printed a code for %(purpose)s"),
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
