"""The two marks of a light, different in word, shape and size: {% show_number "3" %} and {% house_label "A" %}.

Written here and not as a part to include: a sheet of sixty lights has 120 of them.
"""

from django import template
from django.utils.html import format_html
from django.utils.safestring import SafeString
from django.utils.translation import gettext as _

register = template.Library()

LONG = 4
"""So many characters stand in the round mark at its full size."""


@register.simple_tag
def show_number(number: str) -> SafeString:
    """What the caller says."""
    size = "" if len(number) <= LONG else " show-number-long"
    form = '<span class="show-number{}"><span class="mark-word">{}</span> <b>{}</b></span>'
    return format_html(form, size, _("show"), number or "—")


@register.simple_tag
def house_label(label: str) -> SafeString:
    """What is painted there."""
    return format_html(
        '<span class="house-label"><span class="mark-word">{}</span> <b>{}</b></span>', _("house"), label or "—"
    )
