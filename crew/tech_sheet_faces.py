"""The technical sheet as a page and as PDF, each with its drawings."""

from datetime import datetime
from typing import Any

from django.utils.translation import gettext as _

from crew.sheets.pen import Paper
from crew.sheets.tech_sheet import drawing_width, tech_sheet_pdf
from crew.tech_sheet_content import TechContent, tech_content
from crew.wording.tech_sheet import ShownSheet
from venue.core.local_time import wall_time
from venue.house_drawings import as_figure, plan_drawing, section_drawing
from venue.models import Setup

PLAN_TALLEST = 240.0
"""What is to scale on the first page, so that its writing stays as large as the text around it [pt]."""


def page_of(setup: Setup, now: datetime) -> dict[str, Any]:
    """What the page shows: the words, the plan and the section, the house's other set-ups."""
    content = tech_content(setup, now)
    house = setup.house
    plan = plan_drawing(setup, content.lights) if content.lights else None
    section = section_drawing(setup, content.lights) if content.lights else None
    return {
        "house": house,
        "setup": setup,
        "setups": list(house.setups.all()),
        "shown": shown_of(content, now),
        "plan": as_figure(plan, _("Plan of the house"), "tech-plan") if plan else "",
        "section": as_figure(section, _("Section along the center line"), "tech-section") if section else "",
    }


def pdf_of(setup: Setup, now: datetime, paper: Paper) -> bytes:
    """The sheet on paper."""
    content, width = tech_content(setup, now), drawing_width(paper)
    plan = plan_drawing(setup, content.lights, width=width, tallest=PLAN_TALLEST) if content.lights else None
    section = section_drawing(setup, content.lights, width=width) if content.lights else None
    return tech_sheet_pdf(shown_of(content, now), plan, section, paper)


def shown_of(content: TechContent, now: datetime) -> ShownSheet:
    """The content by the house's clocks."""
    return ShownSheet(content.sheet, wall_time(now, content.setup.house.time_zone))
