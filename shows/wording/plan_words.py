"""The words on the drawing, and what the drawing says to who can't see it."""

from django.utils.translation import gettext as _

from shows.core.drawing.plan import PlanWords
from shows.core.numbering.records import Comparison, House
from shows.wording.numbers import house_place
from venue.models import Setup


def plan_words(setup: Setup | None, view: str) -> PlanWords:
    """Both sides in whole words with their landmarks, the stage, and who looks."""
    left, right, end = "", "", ""
    if setup is not None:
        left, right, end = setup.house_left_landmark, setup.house_right_landmark, setup.stage_end_landmark
    stage_end = _("stage end · %(landmark)s") % {"landmark": end} if end else _("stage end")
    return PlanWords(
        house_left=tuple(filter(None, (_("HOUSE LEFT ·"), _("stage right"), left))),
        house_right=tuple(filter(None, (_("HOUSE RIGHT ·"), _("stage left"), right))),
        stage=_("STAGE"),
        stage_end=stage_end,
        you=_("YOU, facing the stage") if view == "house" else _("YOU, on stage, facing the house"),
        show_number=_("show number"),
        house_label=_("house label"),
        spare=_("spare"),
    )


def light_words(comparison: Comparison) -> list[str]:
    """For each place what stands there, in words: "show 3 / house 2, Rear booth"."""
    house = comparison.house
    numbers = {pair.slot: pair.number for pair in comparison.pairs}
    return [_light(slot, numbers.get(slot), house) for slot in range(len(house.slots))]


def _light(slot: int, number: str | None, house: House) -> str:
    return light_sentence(number, house.slots[slot].label, house.name_of(slot))


def light_sentence(number: str | None, label: str, position: str) -> str:
    """ "show 3 / house 2, Rear booth"; a place without a number is spare."""
    values = {"number": number, "label": label, "position": position}
    if not number:
        return _("spare / house %(label)s, %(position)s") % values
    return _("show %(number)s / house %(label)s, %(position)s") % values


def drawing_title(view: str) -> str:
    """What the drawing is, read aloud before its marks."""
    if view == "house":
        return _("Plan seen from the house: show numbers and house labels")
    return _("Plan seen from the stage: show numbers and house labels")


def undrawn(slots: tuple[int, ...], house: House) -> str:
    """Names the places that nothing on file puts anywhere."""
    places = ", ".join(house_place(slot, house) for slot in slots)
    return _("Not drawn, because neither order nor coordinates are on file: %(places)s.") % {"places": places}


def row_name(zone: str) -> str:
    """What a row is called that nobody has named yet."""
    return _("Bowl") if zone == "bowl" else _("Row")
