"""What somebody who walks a position is asked, and what the answer means, in words that say where to stand."""

from dataclasses import dataclass

from django.utils.translation import gettext as _

from venue.book import BookPosition
from venue.models.positions import Zone


@dataclass(frozen=True)
class WalkQuestion:
    """Where to stand, the question, and how to tell that one stands right."""

    stand: str
    ask: str
    check: str


def walk_question(entry: BookPosition) -> WalkQuestion:
    """The question for the position in its zone of the set-up."""
    name = {"position": entry.position.name}
    if entry.zone == Zone.BOWL:
        return _bowl(entry)
    if entry.zone == Zone.SIDE:
        return WalkQuestion(
            _("Stand at %(position)s.") % name,
            _("Which label is at the end nearest the audience?"),
            _("The other end is nearest the back wall of the stage."),
        )
    if entry.zone == Zone.REAR:
        stand = _("Stand at %(position)s, behind the stage, and face the stage: the seats lie beyond it.") % name
        return WalkQuestion(stand, _("Which label is at the left end?"), _left_hand(house_right_words(entry)))
    if entry.zone == Zone.OVERHEAD:
        stand = _("Stand in the house, face the stage and look up at %(position)s.") % name
        return WalkQuestion(stand, _("Which label is at the left end?"), _left_hand(house_left_words(entry)))
    stand = _("Stand at %(position)s and face the stage.") % name
    return WalkQuestion(stand, _("Which label is at the left end?"), _left_hand(house_left_words(entry)))


def _bowl(entry: BookPosition) -> WalkQuestion:
    landmark = entry.setup.stage_end_landmark
    end = _("the stage end (%(landmark)s)") % {"landmark": landmark} if landmark else _("the stage end")
    return WalkQuestion(
        _("Stand at %(end)s with the back to it and face the middle of the bowl.") % {"end": end},
        _("Go round to the left hand: which label of %(position)s comes first?") % {"position": entry.position.name},
        _("%(left)s Seen from above that way is clockwise. A light right at the stage end comes first.")
        % {"left": _left_hand(house_right_words(entry))},
    )


def _left_hand(side: str) -> str:
    return _("The left hand then points to %(side)s.") % {"side": side}


def house_left_words(entry: BookPosition) -> str:
    """The side, in the house's and the stage's words, with the house's own landmark."""
    return _with_landmark(_("house left · stage right"), entry.setup.house_left_landmark)


def house_right_words(entry: BookPosition) -> str:
    """The side, in the house's and the stage's words, with the house's own landmark."""
    return _with_landmark(_("house right · stage left"), entry.setup.house_right_landmark)


def _with_landmark(side: str, landmark: str) -> str:
    return f"{side} ({landmark})" if landmark else side


def row_ends(entry: BookPosition) -> tuple[str, str]:
    """What lies before the first and after the last place of the row, as the list shows it."""
    if entry.row.basis == "label":
        return _("By label only: no order is on file."), ""
    if entry.zone == Zone.BOWL:
        return _("From the stage end clockwise, seen from above"), _("and round to the stage end again")
    if entry.zone == Zone.SIDE:
        return _("Nearest the audience"), _("Farthest upstage")
    return house_left_words(entry), house_right_words(entry)


def contradiction(entry: BookPosition) -> str:
    """What does not fit: the walk and the book, in one sentence."""
    if entry.walk is None or not entry.is_contradicted:
        return ""
    facts = {"seen": entry.walk.label_seen, "who": entry.walk.walked_by}
    if entry.walk.left_end.has_ended or entry.walk.left_end.label != entry.walk.label_seen:
        return _("%(who)s found label %(seen)s there, which was changed in the book since.") % facts
    booked = _(" or ").join(place.label for place in entry.at_end)
    return _("%(who)s found label %(seen)s there; the book has %(booked)s there.") % {**facts, "booked": booked}
