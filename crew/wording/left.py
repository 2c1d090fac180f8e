"""Why something could not be written of somebody's day, a sentence each."""

from collections.abc import Mapping

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

LEFT_SENTENCES: Mapping[str, Promise] = {
    "in-already": _("%(name)s is in already. Correct the time on their own page."),
    "absent": _("%(name)s is marked as not come. Change that on their own page."),
    "not-in": _("%(name)s is not in yet. Write the time in first."),
    "out-already": _("%(name)s is out already. Correct the time on their own page."),
    "not-after": _("%(name)s came, or had a meal, later than that. Write a later time out."),
    "at-meal": _("%(name)s is at a meal. Write first when it ended."),
    "no-meal": _("%(name)s is at no meal."),
    "meal-not-after": _("The meal of %(name)s ends before it starts. Write a later end."),
    "meal-outside": _("The meal of %(name)s does not lie between the times in and out. Write other times."),
    "meal-taken": _("%(name)s was at another meal then. Write other times."),
}
"""By the codes of `crew.actions.day`."""
NOBODY_SENTENCE = _("Nobody is ticked. Tick who is meant, then send it again.")


def left_sentence(name: str, why: str) -> str:
    """ "Ada Quillfeather is not in yet. Write the time in first."."""
    return str(LEFT_SENTENCES[why]) % {"name": name}
