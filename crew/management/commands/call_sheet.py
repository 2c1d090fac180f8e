"""manage.py call_sheet: a call's sheet as PDF, the latest issued revision or a draft."""

from pathlib import Path
from typing import Any
from uuid import UUID

from django.conf import settings
from django.core.management.base import CommandParser
from django.utils import timezone
from django.utils.translation import gettext as _

from crew.core.call_sheet import CallSheet, read_sheet
from crew.models import Call, IssuedSheet
from crew.printing import draft_pdf, issued_pdf
from crew.sheet_content import Draft, draft_of, latest_sheet
from crew.sheets.pen import PAPERS
from crew.wording import sheet as words
from venue.core.local_time import shown
from venue.errors import NotFound
from venue.management.command import Answer, AnswerCommand, CommandRefused, Options


class Command(AnswerCommand):
    help = _("Write a call's sheet as PDF: its latest issued revision, or with --draft what it would be now.")

    def add_arguments(self, parser: CommandParser) -> None:
        super().add_arguments(parser)
        parser.add_argument("call", metavar="CALL", help=_("the call's reference, as in its address"))
        parser.add_argument("--pdf", metavar="FILE", required=True, help=_("the file to write"))
        parser.add_argument("--draft", action="store_true", help=_("what would be issued now"))
        parser.add_argument("--paper", choices=sorted(PAPERS), default="letter", help=_("letter or a4"))
        parser.add_argument("--site", default=default_site(), help=_("where sheets are checked, such as %(default)s"))

    def answer(self, options: Options) -> Answer:
        call = the_call(options["call"])
        if options["draft"]:
            draft = draft_of(call)
            write(options["pdf"], draft_pdf(draft, paper=PAPERS[options["paper"]], now=timezone.now()))
            return _drafted(call, draft, options["pdf"])
        sheet = latest_sheet(call)
        if sheet is None:
            line = _("%(call)s: no sheet is issued yet; issue one, or see what it would be with --draft")
            raise CommandRefused([line % {"call": call.ref}])
        paper, site = PAPERS[options["paper"]], options["site"]
        write(options["pdf"], issued_pdf(sheet, paper=paper, now=timezone.now(), site=site))
        return _issued(call, sheet, options["pdf"])


def default_site() -> str:
    """The address of this installation, as far as the settings tell it."""
    hosts = [host.lstrip(".") for host in settings.ALLOWED_HOSTS if host.strip(".*")]
    return f"https://{hosts[0]}" if settings.SECURE_SSL_REDIRECT and hosts else "http://localhost:8000"


def the_call(text: str) -> Call:
    """The call of the reference. Raises CommandRefused, NotFound."""
    try:
        ref = UUID(text)
    except ValueError:
        line = _("“%(text)s” is not a call's reference; copy it from the address of the call's page")
        raise CommandRefused([line % {"text": text}]) from None
    calls = Call.objects.select_related("event", "engagement__house", "engagement__setup")
    call = calls.filter(ref=ref).first()
    if call is None:
        raise NotFound(_("call"), text)
    return call


def write(file: str, content: bytes) -> None:
    """Raises CommandRefused if the file can't be written."""
    try:
        Path(file).write_bytes(content)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        line = _("%(file)s: can't be written: %(reason)s; name a file in a folder that exists")
        raise CommandRefused([line % {"file": file, "reason": reason}]) from error


def _drafted(call: Call, draft: Draft, file: str) -> Answer:
    text = _("%(file)s: draft, not issued; %(filled)s")
    document = {**_document(call, draft.sheet, file), "revision": None, "issued_at": None, "code": None}
    return Answer(document, text % {"file": file, "filled": words.filled(draft.sheet)})


def _issued(call: Call, sheet: IssuedSheet, file: str) -> Answer:
    content = read_sheet(sheet.content)
    told = {"file": file, "n": sheet.n, "at": shown(sheet.issued_at, call.zone), "filled": words.filled(content)}
    text = _("%(file)s: revision %(n)s, issued %(at)s; %(filled)s") % told
    issued = {"revision": sheet.n, "issued_at": sheet.issued_at.isoformat(), "code": sheet.code.code}
    return Answer({**_document(call, content, file), **issued}, text)


def _document(call: Call, sheet: CallSheet, file: str) -> dict[str, Any]:
    return {"call": str(call.ref), "file": file, "wanted": sheet.wanted, "filled": sheet.filled}
