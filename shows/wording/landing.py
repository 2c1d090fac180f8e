"""An engagement's first page: the one sentence and the one button."""

from dataclasses import dataclass

from django.utils.translation import gettext as _

from shows.standing import Standing
from shows.wording import choices, verdict
from shows.wording.numbers import number_list


@dataclass(frozen=True)
class Landing:
    """`sentence` answers the question; `button` is what to do now, `to` the page that does it (empty: nothing)."""

    sentence: str
    button: str
    to: str


def landing(standing: Standing, may_write: bool) -> Landing:
    """The sentence and the button for somebody who may change the engagement, or only look."""
    if not standing.has_spots:
        sentence = _("Nobody can say yet: no paperwork has been accepted.")
        return Landing(sentence, *((_("Bring in the paperwork"), "shows:paperwork_receive") if may_write else ("", "")))
    said = standing.verdict.sentence
    if not may_write:
        return Landing(said, _("See the numbers"), "shows:compare")
    if standing.verdict.kind == "none":
        return Landing(said, _("Put numbers on places"), "shows:assign")
    return Landing(_with_choice(said, standing), _button(standing), "shows:compare")


def _with_choice(said: str, standing: Standing) -> str:
    if standing.verdict.kind not in {"tell", "agree"} or not standing.way:
        return said
    return _("%(said)s Chosen: %(way)s.") % {"said": said, "way": str(choices.NAMES[standing.way]).lower()}


def _button(standing: Standing) -> str:
    kind = standing.verdict.kind
    if kind == "fix":
        return _("See what is wrong")
    if kind == "ask":
        return _("See the question")
    return _("Choose what to do") if kind == "tell" and not standing.way else _("See the numbers")


def not_walked(names: list[str]) -> str:
    """That the order on file was never checked on foot; empty where it was."""
    if not names:
        return ""
    return _("House order not walked: %(positions)s.") % {"positions": ", ".join(names)}


def also_to_know(standing: Standing) -> list[str]:
    """What the flags say, but for the questions that the page asks anyway."""
    comparison = standing.comparison
    asked = {"unclear", "convention-missing"}
    said = [verdict.flag_sentence(flag, comparison) for flag in comparison.flags if flag.flag not in asked]
    unplaced = [line.number for line in standing.lines if line.place_ref is None]
    if unplaced and standing.verdict.kind not in {"ask", "none"}:
        said.append(_("Without a place: show %(numbers)s.") % {"numbers": number_list(unplaced)})
    return said
