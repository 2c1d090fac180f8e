"""Write a house as its file."""

from collections.abc import Iterable

from django.core.management.base import CommandParser
from django.utils.translation import gettext as _

from venue.errors import NotFound
from venue.house_file.gathering import gathered
from venue.house_file.problems import HouseFileRefused
from venue.house_file.reading import read_house_file
from venue.house_file.writing import house_document, house_text
from venue.management.command import Answer, AnswerCommand, Options
from venue.models import House


class Command(AnswerCommand):
    help = _("Write a house on file as a house file, to standard output.")

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        parser.add_argument("slug", metavar="SLUG", help=_("the house's short name in addresses"))

    def answer(self, options: Options) -> Answer:
        slug = options["slug"]
        house = House.objects.filter(slug=slug).first()
        if house is None:
            raise NotFound(_("house"), slug)
        stored = gathered(house)
        text = house_text(stored)
        return Answer(house_document(stored), text, tuple(_reservations(slug, text)))

    def written(self, answer: Answer, *, as_json: bool) -> str:
        """The same text either way: it is JSON already."""
        return answer.text


def _reservations(slug: str, text: str) -> Iterable[str]:
    """What stands in the way of loading the file again: rows may hold what a file must not leave open."""
    try:
        read_house_file(text.encode())
    except HouseFileRefused as refused:
        line = _("%(slug)s: %(problem)s (stored so; load_house will refuse it)")
        yield from (line % {"slug": slug, "problem": problem} for problem in refused.problems)
