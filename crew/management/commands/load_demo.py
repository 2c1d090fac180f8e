"""manage.py load_demo: the invented houses, tours and people, once."""

from django.conf import settings
from django.utils import timezone
from django.utils.translation import gettext as _

from crew.demo import SIGN_INS, load_demo
from venue.management.command import Answer, AnswerCommand, CommandRefused, Options


class Command(AnswerCommand):
    help = _("Load the demo houses, tours and sign-ins, unless they are there already.")

    def answer(self, options: Options) -> Answer:
        if not settings.MAY_LOAD_DEMO:
            refusal = _("load_demo makes accounts with known passwords; it runs with the development settings only")
            raise CommandRefused([refusal])
        is_new = load_demo(now=timezone.now())
        rows = [{"name": each.username, "password": each.password, "for": each.purpose} for each in SIGN_INS]
        return Answer({"loaded": is_new, "sign_ins": rows}, _text(is_new))


def _text(is_new: bool) -> str:
    loaded = _("The demo is loaded. Sign in as:") if is_new else _("The demo is there already. Sign in as:")
    lines = [f"  {each.username:<10}{each.password:<16}{each.purpose}" for each in SIGN_INS]
    return "\n".join([loaded, *lines])
