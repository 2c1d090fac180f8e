"""Store a house file."""

from collections.abc import Iterable
from typing import Any

from django.core.management.base import CommandParser
from django.db import transaction
from django.utils import timezone
from django.utils.translation import gettext as _

from venue.errors import DomainError
from venue.history import Actor
from venue.house_file.differences import differences
from venue.house_file.gathering import gathered
from venue.house_file.keys import Written
from venue.house_file.problems import Difference, HouseExists, HouseFileRefused
from venue.house_file.records import BOOK, HouseFile
from venue.house_file.storing import store_house
from venue.management.command import Answer, AnswerCommand, Options
from venue.management.house_source import difference_lines, house_file_at, problem_lines, warning_lines
from venue.models import House


class Command(AnswerCommand):
    help = _("Store a house file, all or nothing. With --update, change a house that is on file.")

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        parser.add_argument("file", metavar="FILE", help=_("the house file, or - for standard input"))
        parser.add_argument(
            "--update",
            action="store_true",
            help=_("change the house of the same slug: add and change, end nothing"),
        )

    def answer(self, options: Options) -> Answer:
        file, update = options["file"], options["update"]
        house_file = house_file_at(file)
        with transaction.atomic():
            before = House.objects.filter(slug=house_file.house.slug).first()
            changes = differences(gathered(before), house_file) if before else []
            changes = [change for change in changes if change.file is not None]
            store_house(house_file, actor=Actor.of_command("load_house"), now=timezone.now(), update=update)
        outcome = "stored" if before is None else "updated" if changes else "unchanged"
        return Answer(
            document=_document(house_file, outcome, changes),
            text=_text(house_file, outcome, changes),
            warnings=warning_lines(file, house_file),
        )

    def refusal_lines(self, refusal: DomainError, options: Options) -> Iterable[str]:
        if isinstance(refusal, HouseExists):
            return difference_lines(options["file"], refusal)
        if isinstance(refusal, HouseFileRefused):
            return problem_lines(options["file"], refusal)
        return [f"{options['file']}: {line}" for line in super().refusal_lines(refusal, options)]


def _document(house_file: HouseFile, outcome: str, changes: list[Difference]) -> dict[str, Any]:
    return {
        "slug": house_file.house.slug,
        "name": house_file.house.name,
        "outcome": outcome,
        "in_file": _counts(house_file),
        "changes": [{"path": each.where, "stored": each.stored, "file": each.file} for each in changes],
        "warnings": [{"path": each.where, "sentence": each.sentence} for each in house_file.warnings],
    }


def _text(house_file: HouseFile, outcome: str, changes: list[Difference]) -> str:
    facts = {"name": house_file.house.name, "slug": house_file.house.slug}
    if outcome == "unchanged":
        return _("%(name)s (%(slug)s) says the same already; nothing was changed.") % facts
    if outcome == "updated":
        lines = [f"{each.where}: {each.sentence}" for each in changes]
        return "\n".join([_("Updated %(name)s (%(slug)s):") % facts, *lines])
    counted = ", ".join(f"{name.replace('_', ' ')}: {count}" for name, count in _counts(house_file).items())
    return _("Stored %(name)s (%(slug)s). %(counted)s.") % {**facts, "counted": counted.capitalize()}


def _counts(house_file: HouseFile) -> dict[str, int]:
    """How many things the file names, by their sections; empty sections of the book are left out."""
    book = {name: sum(map(_is_named, getattr(house_file.book, name))) for name in BOOK}
    return {
        "positions": len(house_file.positions),
        "slots": sum(len(position.slots) for position in house_file.positions),
        "units": len(house_file.units),
        "placements": len(house_file.placements) + len(house_file.elsewhere),
        **{name: count for name, count in {**_light(house_file), **book}.items() if count},
    }


def _light(house_file: HouseFile) -> dict[str, int]:
    return {name: len(getattr(house_file, name)) for name in ("circuits", "filters", "sizes")}


def _is_named(record: Written) -> bool:
    return not getattr(record, "is_implied", False)
