"""The words of a technical sheet, the same on paper and on the page."""

from dataclasses import dataclass
from datetime import datetime
from functools import cached_property

from django.utils.translation import gettext as _

from crew.core.tech_sheet import SheetStage, TechSheet
from crew.moments import moment
from crew.wording import tech_values as words
from crew.wording.sheet import caution
from crew.wording.tech_positions import Fact, ShownPosition, shown_position
from crew.wording.tech_tables import SheetTable, place_table, unit_table
from venue.models.setups import Layout, PromptSide


@dataclass(frozen=True)
class ShownSheet:
    """The whole sheet as it is said at a time of the house's clocks."""

    sheet: TechSheet
    at: datetime

    @property
    def title(self) -> str:
        return _("Technical sheet: follow spots")

    @property
    def moment(self) -> str:
        """ "As on file Mar 2, 2026, 6:30 PM"."""
        return _("As on file %(at)s, by the house's clocks") % {"at": moment(self.at)}

    @property
    def setup(self) -> str:
        stage = self.sheet.stage
        return _("Set-up: %(name)s (%(layout)s)") % {"name": stage.name, "layout": Layout(stage.layout).label}

    @property
    def foot(self) -> str:
        """Which sheet a page belongs to."""
        return f"{self.sheet.house} · {self.title} · {moment(self.at)}"

    @cached_property
    def stage_facts(self) -> tuple[Fact, ...]:
        return tuple(_stage_facts(self.sheet))

    @cached_property
    def tables(self) -> tuple[SheetTable, SheetTable]:
        return place_table(self.sheet), unit_table(self.sheet)

    @cached_property
    def positions(self) -> tuple[ShownPosition, ...]:
        return tuple(shown_position(position, self.sheet) for position in self.sheet.positions)

    @property
    def note(self) -> Fact:
        """What the house wants a tour to know."""
        note = self.sheet.note
        return Fact(_("What a tour should know"), note or words.unknown(), bool(note))

    @property
    def explanation(self) -> str:
        """What the figures are and what they are not."""
        return _(
            "Angles below the horizontal go from the lens to the set-up's target: %(target)s. Throws on the drawings "
            "are as told, else computed. Light angles are full angles; like the candela they are the maker's data, "
            "not measured here."
        ) % {"target": words.point_words(self.sheet.stage.target, self.sheet.system)}

    @property
    def dimensions(self) -> str:
        if self.sheet.system == "metric":
            text = _("Dimensions in meters as recorded; computed values are marked %(mark)s.")
        else:
            text = _("Dimensions in feet and inches as recorded; computed values are marked %(mark)s.")
        return text % {"mark": words.COMPUTED}

    @property
    def nothing(self) -> str:
        """That nothing is on file; empty where something is."""
        return "" if self.sheet.positions else _("No position is on file yet.")

    @property
    def caution(self) -> str:
        return caution()


def _stage_facts(sheet: TechSheet) -> list[Fact]:
    stage, system = sheet.stage, sheet.system
    facts = [
        (_("Opening"), words.length_words(stage.opening, system)),
        (_("Depth"), words.length_words(stage.depth, system)),
        (_("Apron"), words.length_words(stage.apron, system)),
        (_("Prompt side"), str(PromptSide(stage.prompt_side).label) if stage.prompt_side else words.unknown()),
        *_landmarks(stage),
        *_dial(sheet),
    ]
    return [Fact(name, value, value != words.unknown()) for name, value in facts]


def _landmarks(stage: SheetStage) -> list[tuple[str, str]]:
    return [
        (_("At house left · stage right"), stage.house_left or words.unknown()),
        (_("At house right · stage left"), stage.house_right or words.unknown()),
        (_("At the stage end"), stage.stage_end or words.unknown()),
    ]


def _dial(sheet: TechSheet) -> list[tuple[str, str]]:
    """Where the dial of a bowl begins."""
    if not sheet.has_bowl:
        return []
    twelve = _("%(bearing)s° clockwise from the stage end") % {"bearing": words.number(sheet.stage.twelve_deg)}
    return [(_("12 o'clock"), twelve if sheet.stage.twelve_deg else _("at the stage end"))]
