"""manage.py check_meters: whether no meter of a house runs backward, and whether its hours add up."""

from django.core.management.base import CommandParser
from django.utils.translation import gettext as _

from venue.errors import NotFound
from venue.management.command import Answer, AnswerCommand, CommandRefused, Options
from venue.meter_check import Checked, check_house
from venue.models import House
from venue.wording_hours import check_sentence


class Command(AnswerCommand):
    help = _("Check that no meter of a house runs backward and that every tally is what the book adds up to.")

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        parser.add_argument("slug", metavar="SLUG", help=_("the house's short name in addresses"))

    def answer(self, options: Options) -> Answer:
        slug = options["slug"]
        house = House.objects.filter(slug=slug).first()
        if house is None:
            raise NotFound(_("house"), slug)
        checked = check_house(house)
        if checked.problems:
            raise CommandRefused(check_sentence(problem, house.time_zone) for problem in checked.problems)
        return Answer(_document(slug, checked), _text(slug, checked))


def _document(slug: str, checked: Checked) -> dict[str, object]:
    return {"house": slug, "units": checked.units, "readings": checked.readings, "lamps": checked.lamps}


def _text(slug: str, checked: Checked) -> str:
    line = _("%(house)s: %(readings)s readings of %(units)s units and %(lamps)s lamps: everything adds up.")
    return line % _document(slug, checked)
