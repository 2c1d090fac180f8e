"""The crew's sentences of history."""

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

EVENT_SENTENCES: dict[str, str | Promise] = {
    "roster.made": _("made the roster %(name)s"),
    "roster.changed": _("changed the roster %(subject)s"),
    "roster.serves": _("had the roster %(roster)s serve %(served)s"),
    "person.added": _("added %(name)s to the roster %(roster)s"),
    "person.changed": _("changed %(subject)s"),
    "person.ended": _("took %(name)s off the roster: %(reason)s"),
    "dispatch.granted": _("let %(name)s dispatch the roster %(roster)s"),
    "dispatch.revoked": _("ended the dispatch of %(roster)s by %(name)s: %(reason)s"),
    "call.made": _("called a crew of %(show)s for %(event)s"),
    "call.changed": _("changed the call of %(show)s for %(event)s"),
    "call.off": _("called off the call of %(show)s for %(event)s: %(reason)s"),
    "call.filled": _("put people on the call of %(show)s for %(event)s"),
    "call.put": _("put %(name)s on the call of %(show)s, %(line)s"),
    "call.taken_off": _("took %(name)s off the call of %(show)s, %(line)s: %(reason)s"),
    "line.confirmed": _("confirmed revision %(n)s for %(line)s of %(show)s: %(by)s"),
    "sheet.issued": _("issued the call sheet of %(show)s for %(event)s, revision %(n)s"),
}
