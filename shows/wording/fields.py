"""What the fields of a paperwork are called on a page."""

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shows.core.paperwork import FIELDS, MAX_FRAMES
from shows.reading import Changes
from shows.wording.numbers import number_list, words_and

NAMES: dict[str, str | Promise] = {
    "number": gettext_lazy("show number"),
    "label": gettext_lazy("house label"),
    "position": gettext_lazy("position"),
    "side": gettext_lazy("side"),
    "nth": gettext_lazy("which from that side"),
    "whose_left": gettext_lazy("whose left"),
    "least_lux": gettext_lazy("least light"),
    "pick_up": gettext_lazy("pick-up"),
    "channel": gettext_lazy("channel"),
    "notes": gettext_lazy("notes"),
}
_FACTS = {"house_label": "label", "position_words": "position"}


def field_name(field: str) -> str:
    """The name of a field of paperwork or of a spot's fact."""
    field = _FACTS.get(field, field)
    if field == "frames":
        return _("frames")
    if field.startswith("frame "):
        return _("frame %(number)s") % {"number": field.removeprefix("frame ")}
    return str(NAMES.get(field, field))


def field_choices() -> list[tuple[str, str]]:
    """Every field that a column may hold, to choose from."""
    fields = [*FIELDS, *(f"frame {number}" for number in range(1, MAX_FRAMES + 1))]
    return [("", _("not read")), *((field, field_name(field)) for field in fields)]


def change_lines(changes: Changes) -> list[str]:
    """What acceptance would change, a line each."""
    said = []
    if changes.added:
        said.append(_("Added: show %(numbers)s.") % {"numbers": number_list(changes.added)})
    for number, fields in changes.changed:
        values = {"number": number, "fields": words_and([field_name(field) for field in fields])}
        said.append(_("Show %(number)s changes: %(fields)s.") % values)
    if changes.gone:
        said.append(_("Gone: show %(numbers)s.") % {"numbers": number_list(changes.gone)})
    return said or [_("No line differs from what was accepted before.")]
