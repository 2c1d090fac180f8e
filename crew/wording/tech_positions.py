"""A position on the technical sheet: how its labels run, and every fact that the house records of it."""

from collections.abc import Iterator
from dataclasses import dataclass

from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from crew.core.tech_sheet import Numbering, SheetBlockage, SheetPosition, SheetStage, TechSheet
from crew.moments import day_words
from crew.wording import tech_values as words
from venue.core.lengths import UnitSystem
from venue.core.light import GLASS_LOSS, PANES
from venue.models.positions import FallProtection, Glass, ShowExit, WhoMayOperate, Zone

SOURCES_OF_LOSS = tuple(round(100 * share) for share in GLASS_LOSS)


@dataclass(frozen=True)
class Fact:
    """A name and what is recorded under it; `is_known` False: the value says that nothing is."""

    name: str
    value: str
    is_known: bool = True


@dataclass(frozen=True)
class ShownPosition:
    """One position as it is said: what it is, how its labels run, its facts."""

    name: str
    lead: str
    numbering: tuple[str, ...]
    facts: tuple[Fact, ...]


def shown_position(position: SheetPosition, sheet: TechSheet) -> ShownPosition:
    return ShownPosition(
        name=position.name,
        lead=lead_words(position),
        numbering=(run_words(position.numbering, sheet.stage), walk_words(position.numbering)),
        facts=tuple(_facts(position, sheet.system)),
    )


def lead_words(position: SheetPosition) -> str:
    """ "Booth · front · level 3"; what is not recorded is said."""
    kind = capfirst(position.kind or _("kind not recorded"))
    level = _("level not recorded")
    if position.level is not None:
        level = _("level %(level)s") % {"level": words.number(position.level)}
    return " · ".join([kind, str(Zone(position.zone).label), level])


def run_words(numbering: Numbering, stage: SheetStage) -> str:
    """From where to where the labels run, both ends in whole words."""
    labels = ", ".join(numbering.labels)
    if numbering.run == "none":
        return _("No place is on file here.")
    if numbering.run == "single":
        return _("One place, label %(label)s.") % {"label": labels}
    if numbering.run == "unordered":
        return _("Labels %(labels)s: in which order they stand is not recorded.") % {"labels": labels}
    if numbering.zone == Zone.BOWL:
        return _bowl_words(numbering, stage)
    first, last = _ends(numbering, stage)
    if numbering.run == "down":
        first, last = last, first
        labels = ", ".join(reversed(numbering.labels))
    return _("Labels run from %(first)s to %(last)s: %(labels)s.") % {"first": first, "last": last, "labels": labels}


def _bowl_words(numbering: Numbering, stage: SheetStage) -> str:
    labels = numbering.labels
    end = _with_landmark(_("the stage end"), stage.stage_end)
    sentence = _("Labels run clockwise, seen from above, from %(end)s: %(labels)s.")
    if numbering.run == "down":
        labels = labels[::-1]
        sentence = _("Labels run counterclockwise, seen from above, the last one next to %(end)s: %(labels)s.")
    return sentence % {"end": end, "labels": ", ".join(labels)}


def _ends(numbering: Numbering, stage: SheetStage) -> tuple[str, str]:
    if numbering.zone == Zone.SIDE:
        return _("the end nearest the audience"), _("the end farthest upstage")
    return (
        _with_landmark(_("house left · stage right"), stage.house_left),
        _with_landmark(_("house right · stage left"), stage.house_right),
    )


def _with_landmark(side: str, landmark: str) -> str:
    return f"{side} ({landmark})" if landmark else side


def walk_words(numbering: Numbering) -> str:
    """Whether somebody stood there and confirmed the order."""
    if numbering.walk == "not-walked" or numbering.walked_on is None:
        return _("Not walked: nobody has confirmed this order on the spot.")
    day = {"day": day_words(numbering.walked_on)}
    if numbering.walk == "contradicted":
        return _("Walked on %(day)s, and the label found at the end does not fit: ask the house.") % day
    return _("Walked and confirmed on %(day)s.") % day


def _facts(position: SheetPosition, system: UnitSystem) -> Iterator[Fact]:
    """Every fact, each with its value or with the words that there is none."""
    unknown = words.unknown()
    for name, value in (*_access(position, system), *_view(position, system), *_working(position)):
        yield Fact(name, value or unknown, bool(value) and value != unknown)


def _access(position: SheetPosition, system: UnitSystem) -> Iterator[tuple[str, str]]:
    yield _("Way up"), position.access
    minutes = position.access_min
    yield (
        _("Time to get there"),
        "" if minutes is None else ngettext("%(count)s minute", "%(count)s minutes", minutes) % {"count": minutes},
    )
    yield _("Narrowest passage"), words.length_words(position.passage, system)
    load = position.load_limit_kg
    yield _("Load limit"), "" if load is None else _("%(load)s kg") % {"load": words.number(load)}
    yield _("Power service"), position.power
    yield _("Power switched off at"), position.switched_at
    yield _("Intercom"), position.intercom


def _view(position: SheetPosition, system: UnitSystem) -> Iterator[tuple[str, str]]:
    yield _("Glass"), _glass(position)
    yield _("Sees upstage as far as"), words.along_words(position.sees_upstage, system)
    yield _("Sees downstage as far as"), words.along_words(position.sees_downstage, system)
    yield _("Pans"), words.pan_words(position.pans)
    yield _("In the way"), "; ".join(map(blockage_words, position.blockages))


def _glass(position: SheetPosition) -> str:
    """What is in front, and how much light it takes."""
    if not position.glass:
        return ""
    glass = str(Glass(position.glass).label)
    if position.glass not in PANES:
        return glass
    least, most = SOURCES_OF_LOSS
    loss = _("loss not measured, usually %(least)s to %(most)s %%") % {"least": least, "most": most}
    if position.glass_loss_pct is not None:
        loss = _("takes %(loss)s %% of the light") % {"loss": words.number(position.glass_loss_pct)}
    return f"{glass}; {loss}"


def blockage_words(blockage: SheetBlockage) -> str:
    """What is in the way, of which place, and where."""
    parts = [blockage.name]
    if blockage.place:
        parts.append(_("in the way of place %(label)s alone") % {"label": blockage.place})
    if blockage.pans:
        parts.append(_("blocks pans %(pans)s") % {"pans": words.pan_words(blockage.pans)})
    if blockage.has_zone:
        parts.append(_("a part of the plan is on file for it"))
    return ", ".join(parts)


def _working(position: SheetPosition) -> Iterator[tuple[str, str]]:
    fall, exits, who = position.fall_protection, position.show_exit, position.who_may_operate
    yield _("Needed there"), position.needs
    yield _("Fall protection"), str(FallProtection(fall).label) if fall else ""
    way_out = [str(ShowExit(exits).label) if exits else "", position.show_exit_words]
    yield _("Way out during the show"), ", ".join(filter(None, way_out))
    yield _("Who may operate"), str(WhoMayOperate(who).label) if who else ""
    yield _("Seats lost"), "" if position.seats_lost is None else words.number(position.seats_lost)
    yield _("Rescue plan on file"), _("yes; ask the house for it") if position.has_rescue_plan else _("no")
    yield _("Last checked"), day_words(position.checked_on) if position.checked_on else ""
