"""Sentences for what is wrong with circuits, filters, sizes, areas and views in a house file."""

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

LIGHT_SENTENCES: dict[str, Promise] = {
    "duplicate-circuit": _("%(value)s is there already at %(first)s; give each circuit once"),
    "duplicate-filter": _("%(value)s is there already at %(first)s; give each filter once"),
    "duplicate-size": _("%(value)s is there already at %(first)s; give each size once"),
    "duplicate-area": _("%(value)s is there already at %(first)s; within a set-up each area has its own name"),
    "unknown-circuit": _("%(value)s is not the name of a circuit in circuits (%(circuits)s); add it, or correct it"),
    "too-few-corners": _("are too few corners; an area has three different ones or more"),
    "no-area": _("the corners lie on one line and enclose nothing; correct them"),
    "crosses-itself": _("the edge crosses or touches itself; write the corners in their order along the edge"),
    "downstage-past-upstage": _(
        "the farthest point downstage (%(downstage)s) is not downstage of the farthest upstage (%(upstage)s); "
        "both count upstage from the plaster line: correct one of them"
    ),
}
