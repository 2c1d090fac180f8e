"""What the rows of a call's page say besides number, label and name."""

from django import template
from django.utils.html import format_html_join
from django.utils.safestring import SafeString

from crew.core.call_sheet import CallSheet, SheetLine
from crew.wording.lines import line_more

register = template.Library()


@register.simple_tag
def more_of(line: SheetLine, sheet: CallSheet) -> SafeString:
    """As what somebody is on the line and when, and what the position needs, a line each."""
    return format_html_join("", "<br><strong>{}</strong>", ((sentence,) for sentence in line_more(line, sheet)))
