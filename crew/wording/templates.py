"""A call template in a line."""

from collections.abc import Iterator

from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from crew.models import CallTemplate


def template_words(template: CallTemplate) -> str:
    """ "For show: call 90 min before, spot talk 45 min before, released 30 min after; 1 head spot, 2 spares"."""
    kind = template.get_event_kind_display() if template.event_kind else _("any event")
    told = {"kind": kind, "times": ", ".join(_times(template))}
    words = capfirst(_("for %(kind)s: %(times)s") % told)
    return "; ".join(filter(None, (words, ", ".join(_people(template)))))


def _times(template: CallTemplate) -> Iterator[str]:
    yield _("call %(n)s min before") % {"n": template.call_before_min}
    if template.talk_before_min is not None:
        yield _("spot talk %(n)s min before") % {"n": template.talk_before_min}
    if template.meal_after_min is not None:
        yield _("meal %(n)s min after the call") % {"n": template.meal_after_min}
    yield _("released %(n)s min after its end") % {"n": template.ends_after_min}


def _people(template: CallTemplate) -> Iterator[str]:
    heads, spares, runners = template.head_spots, template.spares, template.runners
    if heads:
        yield ngettext("%(n)s head spot", "%(n)s head spots", heads) % {"n": heads}
    if spares:
        yield ngettext("%(n)s spare", "%(n)s spares", spares) % {"n": spares}
    if runners:
        yield ngettext("%(n)s runner", "%(n)s runners", runners) % {"n": runners}
