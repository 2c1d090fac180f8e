"""The sentences of history for engagements and their spots."""

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

EVENT_SENTENCES: dict[str, str | Promise] = {
    "engagement.made": _("booked %(name)s, %(starts_on)s to %(ends_on)s"),
    "engagement.changed": _("changed the show %(subject)s"),
    "engagement.ended": _("ended the show %(name)s: %(reason)s"),
    "event.added": _("added to %(show)s: %(event)s"),
    "event.ended": _("called off %(event)s: %(reason)s"),
    "showevent.changed": _("changed %(subject)s"),
    "road.granted": _("gave %(name)s access to %(show)s"),
    "road.ended": _("ended the access of %(name)s to %(show)s"),
    "spots.put": _("took in the spots of %(show)s"),
    "spots.bound": _("put spots of %(show)s on places"),
    "paperwork.received": _("received paperwork of %(show)s: %(file)s"),
    "paperwork.accepted": _("accepted paperwork of %(show)s: %(file)s"),
    "place.put_in_use": _("put %(place)s in use for %(show)s"),
    "place.put_out_of_use": _("put %(place)s out of use for %(show)s"),
    "way.chosen": _("chose for %(show)s: %(way)s"),
    "showspot.changed": _("changed %(subject)s"),
}
