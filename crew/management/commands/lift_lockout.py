"""manage.py lift_lockout: let one user try to sign in again, and nobody else's lock with it."""

from axes.models import AccessAttempt
from django.core.management.base import CommandParser
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from venue.errors import NotFound
from venue.management.command import Answer, AnswerCommand, Options
from venue.models import User


class Command(AnswerCommand):
    help = _("Forget the failed sign-ins of one user, so that the pause after too many of them is over.")

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        parser.add_argument("username", metavar="USERNAME", help=_("the name that was locked out"))

    def answer(self, options: Options) -> Answer:
        username = options["username"]
        if not User.objects.filter(username=username).exists():
            raise NotFound(_("user"), username)
        lifted, _by_model = AccessAttempt.objects.filter(username=username).delete()
        text = ngettext(
            "%(name)s may sign in again: %(count)s lock-out count was cleared.",
            "%(name)s may sign in again: %(count)s lock-out counts were cleared.",
            lifted,
        )
        return Answer({"username": username, "lifted": lifted}, text % {"name": username, "count": lifted})
