"""What a code answers, without a name of anybody or anything."""

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crew.moments import moment
from crew.sheet_standing import Standing
from venue.core.local_time import wall_time


def standing_sentence(standing: Standing) -> str:
    """ "Replaced by revision 3, issued Mar 2, 2026, 5:04 PM." """
    return str(_SENTENCES[standing.state]) % {
        "n": standing.sheet.n,
        "latest": standing.latest.n,
        "at": moment(wall_time(standing.latest_at, standing.zone)),
    }


def standing_word(standing: Standing) -> str:
    """The state in a word or two."""
    return {
        "current": _("CURRENT"),
        "changed-not-issued": _("CHANGED SINCE"),
        "replaced": _("REPLACED"),
    }[standing.state]


_SENTENCES = {
    "current": gettext_lazy(
        "Current: this is revision %(n)s, the latest, issued %(at)s, and nothing has changed since."
    ),
    "changed-not-issued": gettext_lazy(
        "Changed since revision %(n)s, not issued: ask for the next revision before you rely on this one."
    ),
    "replaced": gettext_lazy(
        "Replaced: this is revision %(n)s; revision %(latest)s was issued %(at)s. Get the new sheet."
    ),
}
