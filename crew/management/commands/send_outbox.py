"""manage.py send_outbox: end questions that nobody answered in time, ask the next, and send what waits.

To be run every minute or so. Several at once send nothing twice.
"""

from django.core.management.base import CommandParser
from django.utils import timezone
from django.utils.translation import gettext as _

from crew.actions.offers import expire
from crew.mailing import SENDER, send_all
from crew.management.commands.call_sheet import default_site
from crew.models.offers import Delivery
from crew.outbox import stuck
from venue.management.command import Answer, AnswerCommand, Options

COUNTED = {Delivery.SENT: "sent", Delivery.FAILED: "failed", Delivery.BY_HAND: "by_hand", Delivery.DROPPED: "dropped"}


class Command(AnswerCommand):
    help = _("Send the messages that wait, after ending the questions that nobody answered in time.")

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        parser.add_argument("--site", default=default_site(), help=_("the site's own address, such as %(default)s"))

    def answer(self, options: Options) -> Answer:
        unanswered = expire(actor=SENDER, now=timezone.now())
        found = send_all(timezone.now, options["site"])
        maybe = stuck(timezone.now()).count()
        document = {"unanswered": unanswered, **{name: found[str(key)] for key, name in COUNTED.items()}}
        text = _("sent %(sent)s, failed %(failed)s, by hand %(by_hand)s, dropped %(dropped)s") % document
        warnings = (_("%(n)s were taken up and may have been sent or not: see the page of messages") % {"n": maybe},)
        return Answer({**document, "maybe_sent": maybe}, text, warnings if maybe else ())
