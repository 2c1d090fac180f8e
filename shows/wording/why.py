"""The proof under "Why": what each judgement is called, and the cycles."""

from collections.abc import Sequence

from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

_CODES: dict[str, str | Promise] = {
    "same": gettext_lazy("the same"),
    "same-order": gettext_lazy("same order, other labels"),
    "reversed": gettext_lazy("the other way round"),
    "reversed-in-blocks": gettext_lazy("the other way in some positions"),
    "blocks-moved": gettext_lazy("positions in another order"),
    "starts-elsewhere": gettext_lazy("same way round, starts elsewhere"),
    "other-way-round": gettext_lazy("other way round"),
    "swapped": gettext_lazy("swapped"),
    "alternating": gettext_lazy("odd on one half, even on the other"),
    "mixed": gettext_lazy("mixed"),
}


def judgement_words(code: str) -> str:
    """What a judgement's code means."""
    return str(_CODES.get(code, code))


def cycle_words(cycles: Sequence[Sequence[str]]) -> str:
    """ "1 → 4 → 1; 2 → 3 → 2": whose place each number's label belongs to, until it comes round."""
    return "; ".join(" → ".join([*cycle, cycle[0]]) for cycle in cycles) or _("none")
