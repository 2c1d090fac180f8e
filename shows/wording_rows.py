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
    "check.marked": _("checked %(place)s for %(show)s: %(by)s"),
    "check.blockage": _("noted in the way of %(place)s for %(show)s: %(words)s"),
    "check.signed": _("signed the arrival check of %(show)s %(side)s: %(name)s"),
    "fit.decided": _("decided for show %(number)s of %(show)s"),
    "fit.decision_ended": _("took a decision for %(show)s back: %(reason)s"),
    "showspot.changed": _("changed %(subject)s"),
    "showcolor.added": _("explained a color of %(show)s: %(name)s"),
    "showcolor.changed": _("changed the color %(subject)s"),
    "showcolor.ended": _("took the color %(name)s off %(show)s: %(reason)s"),
}
