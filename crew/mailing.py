"""Messages as mail: each in words as the rows stand when it is sent, to the address that the person has then.

What is not true any more is not sent. A message goes out at least once: at every try it has the same Message-ID, by
which a mail program knows a second copy.
"""

import smtplib
import sys
from collections import Counter
from collections.abc import Callable
from contextlib import suppress
from datetime import datetime
from typing import Any

from django.conf import settings
from django.core.mail import EmailMessage, get_connection
from django.core.mail.backends.base import BaseEmailBackend
from django.urls import reverse
from django.utils import translation
from django.utils.translation import gettext as _

from crew.actions.sending import claim_next, leave_to_hand, note_failed, note_needless, note_sent
from crew.errors import NotInThisState
from crew.models import CallLine, Message
from crew.models.offers import MessageKind
from crew.person_links import PersonLink, ensured_link
from crew.told_lines import told_line
from crew.wording.messages import Text, text_of
from venue.history import Actor

DOMAIN = "throwbook.invalid"
"""Names no machine: the top-level domain is kept free for such use (RFC 2606, section 2)."""
SENDER = Actor.of_command("send_outbox")
ABOUT_THIS_ONE = (smtplib.SMTPRecipientsRefused, smtplib.SMTPDataError, ValueError)
"""Of these refusals the next message knows nothing; any other means that the server can't be used now."""


def send_all(now: Callable[[], datetime], site: str) -> Counter[str]:
    """Send what is due, one after the other; how many came to which end, by the values of Delivery.

    A mail server that does not answer ends the run: the rest waits.
    """
    found: Counter[str] = Counter()
    last = 0
    with translation.override(settings.LANGUAGE_CODE):
        connection = get_connection(stream=sys.stderr)
        try:
            while message := claim_next(now(), after=last):
                last = message.pk
                is_up = _send(message, now(), site, connection, found)
                if not is_up:
                    break
        finally:
            connection.close()
    return found


def _send(message: Message, now: datetime, site: str, connection: BaseEmailBackend, found: Counter[str]) -> bool:
    """Bring the message to its end; False where the server can't be reached."""
    if is_needless(message, now):
        _note(lambda each, _at: note_needless(each), message, now)
        found["dropped"] += 1
        return True
    link = ensured_link(message.person, actor=SENDER, now=now)
    to = message.person.email
    if not to or not settings.EMAIL_IS_ON:
        _note(leave_to_hand, message, _("no e-mail address") if not to else _("no mail server is set up"))
        found["by-hand"] += 1
        return True
    mail = as_mail(message, text_of_message(message, link_address(link, site)), to, connection)
    try:
        connection.open()
        mail.send()
    except (OSError, ValueError) as error:  # what smtplib raises is an OSError
        connection.close()
        _note(note_failed, message, trouble_of(error))
        found["failed"] += 1
        return isinstance(error, ABOUT_THIS_ONE)
    _note(note_sent, message, now)
    found["sent"] += 1
    return True


def _note(note: Callable[[Message, Any], None], message: Message, what: object) -> None:
    """What became of it, unless dispatch said so meanwhile."""
    with suppress(NotInThisState):
        note(message, what)


def as_mail(message: Message, text: Text, to: str, connection: BaseEmailBackend | None = None) -> EmailMessage:
    headers = {"Message-ID": f"<{message.message_id}@{DOMAIN}>", "Auto-Submitted": "auto-generated"}
    return EmailMessage(text.subject, text.body, to=[to], headers=headers, connection=connection)


def text_of_message(message: Message, address: str) -> Text:
    """The message in words; `address` is the person's own page, "" without one."""
    return text_of(message, told_line(_line_of(message)), address)


def _line_of(message: Message) -> CallLine:
    """What the message is about: the line as it is now, of a call without one a line that nobody has."""
    if message.line is not None:
        return message.line
    return CallLine(call=message.call)


def link_address(link: PersonLink | None, site: str) -> str:
    """The whole address of the person's page."""
    return site.rstrip("/") + reverse("crew:mine", args=[link.link.ref, link.secret]) if link else ""


def is_needless(message: Message, now: datetime) -> bool:
    """Whether what it says is not true any more, or too late."""
    line, offer = message.line, message.offer
    if message.person.has_ended or now >= message.call.ends_at:
        return True
    if message.kind == MessageKind.OFFER:
        return offer is None or offer.answer != ""
    if message.kind in {MessageKind.BOOKED, MessageKind.CHANGED, MessageKind.REVISION}:
        is_gone = line is None or line.has_ended or line.person_id != message.person_id
        return is_gone or message.call.has_ended
    return False


def trouble_of(error: Exception) -> str:
    """What went wrong, without what the server said: that may name the address."""
    if isinstance(error, smtplib.SMTPRecipientsRefused):
        codes = sorted({code for code, _words in error.recipients.values()})
        return _("the mail server refused the address (%(code)s)") % {"code": ", ".join(map(str, codes))}
    if isinstance(error, smtplib.SMTPResponseException):
        return _("the mail server refused it (%(code)s)") % {"code": error.smtp_code}
    if isinstance(error, ValueError):
        return _("the address or the subject can't be written into a mail")
    return _("the mail server does not answer (%(kind)s)") % {"kind": type(error).__name__}
