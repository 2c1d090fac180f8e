"""manage.py check_sheet: whether a printed sheet is still the one to go by."""

from django.core.management.base import CommandParser
from django.utils.translation import gettext as _

from crew.sheet_standing import Standing, standing_of
from crew.wording.standing import standing_sentence
from venue.core.codes import typed_code
from venue.errors import NotFound
from venue.management.command import Answer, AnswerCommand, Options
from venue.models import PrintedCode


class Command(AnswerCommand):
    help = _("Say whether the sheet with the code is current, changed since but not issued, or replaced.")

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        parser.add_argument("code", metavar="CODE", help=_("the code in letters that the sheet carries"))

    def answer(self, options: Options) -> Answer:
        code = PrintedCode.objects.filter(code=typed_code(options["code"])).first()
        standing = standing_of(code) if code else None
        if standing is None:
            raise NotFound(_("sheet with the code"), options["code"])
        return Answer(_document(standing), standing_sentence(standing))


def _document(standing: Standing) -> dict[str, object]:
    is_replaced = standing.state == "replaced"
    return {
        "code": standing.sheet.code.code,
        "state": standing.state,
        "revision": standing.sheet.n,
        "issued_at": standing.sheet.issued_at.isoformat(),
        "replaced_by": standing.latest.n if is_replaced else None,
        "replaced_at": standing.latest_at.isoformat() if is_replaced else None,
    }
