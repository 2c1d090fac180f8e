"""Who was asked for which line, and what they answered; what is to be told to whom."""

import uuid

from django.core.exceptions import ValidationError
from django.db import models
from django.db.models import Q
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from crew.models.calls import Call, CallLine
from crew.models.rosters import Person
from venue.models import Ref, Versioned
from venue.models.base import one_of


class Answer(models.TextChoices):
    """What became of an offer. Without one it is still open."""

    ACCEPTED = "accepted", _("accepted")
    DECLINED = "declined", _("declined")
    NO_ANSWER = "no-answer", _("did not answer in time")
    FILLED = "filled", _("somebody else was quicker")
    WITHDRAWN = "withdrawn", _("withdrawn")


class Offer(Ref, Versioned):
    """Somebody is asked for a line. Several may be asked at once; the first whose yes passes the checks takes it.

    `answered_by` says through what the answer came: the person's link, or who wrote it down.
    """

    line = models.ForeignKey(CallLine, on_delete=models.PROTECT, related_name="offers")
    person = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="offers")
    asked_at = models.DateTimeField()
    asked_by = models.CharField(max_length=120)
    answer_by = models.DateTimeField(_("answer by"), null=True, blank=True)
    answer = models.CharField(_("answer"), max_length=9, choices=Answer, blank=True)
    answered_at = models.DateTimeField(null=True, blank=True)
    answered_by = models.CharField(max_length=120, blank=True)
    note = models.CharField(_("note"), max_length=200, blank=True)

    class Meta:
        ordering = ("asked_at", "pk")
        indexes = (models.Index(fields=["answer_by"], name="offer_open_by_time", condition=Q(answer="")),)
        constraints = (
            models.UniqueConstraint(
                fields=["line", "person"],
                condition=Q(answer=""),
                name="offer_open_once",
                violation_error_code="already_exists",
                violation_error_message=_("This person is asked already and has not answered."),
            ),
            one_of("offer_answer_known", "answer", Answer, or_blank=True),
            models.CheckConstraint(
                name="offer_answered_at_a_time",
                condition=Q(answer="", answered_at__isnull=True) | (~Q(answer="") & Q(answered_at__isnull=False)),
                violation_error_message=_("An answer has a time."),
            ),
        )

    def __str__(self) -> str:
        return f"{self.person}: {self.line}"

    def clean(self) -> None:
        super().clean()
        if self.person.roster_id != self.line.call.roster_id:
            raise ValidationError({"person": gettext("Choose somebody of this roster.")})


class MessageKind(models.TextChoices):
    """What a message is about."""

    OFFER = "offer", _("asks for a call")
    BOOKED = "booked", _("is on a call")
    CHANGED = "changed", _("has another number or time")
    FILLED = "filled", _("somebody else has it")
    RELEASED = "released", _("is not on the call any more")
    REVISION = "revision", _("a new revision of the sheet")
    CALLED_OFF = "called-off", _("the call is off")


class Delivery(models.TextChoices):
    WAITING = "waiting", _("to be sent")
    SENDING = "sending", _("being sent")
    SENT = "sent", _("sent")
    FAILED = "failed", _("could not be sent")
    BY_HAND = "by-hand", _("to be sent by hand")
    DROPPED = "dropped", _("not to be sent any more")


def new_message_id() -> str:
    """An identifier that says nothing of person or machine, the same at every try."""
    return uuid.uuid4().hex


class Message(Ref, Versioned):
    """Something to be told to a person on the roster about a call, sent at least once.

    The text is made when it is sent, from the rows; the address is the person's then. `message_id` stays the same
    at every try, so that a mail program can tell a second copy. A row that has been `sending` for long is shown to
    dispatch, not sent again in silence. `seen_at` is when the person said on the own page to have seen it.
    """

    person = models.ForeignKey(Person, on_delete=models.PROTECT, related_name="messages")
    call = models.ForeignKey(Call, on_delete=models.PROTECT, related_name="messages")
    offer = models.ForeignKey(Offer, on_delete=models.PROTECT, null=True, blank=True, related_name="messages")
    line = models.ForeignKey(CallLine, on_delete=models.PROTECT, null=True, blank=True, related_name="messages")
    kind = models.CharField(max_length=10, choices=MessageKind)
    words = models.CharField(_("in addition"), max_length=300, blank=True)
    message_id = models.CharField(max_length=40, unique=True, default=new_message_id, editable=False)
    delivery = models.CharField(max_length=7, choices=Delivery, default=Delivery.WAITING)
    made_at = models.DateTimeField()
    claimed_at = models.DateTimeField(null=True, blank=True)
    sent_at = models.DateTimeField(null=True, blank=True)
    seen_at = models.DateTimeField(null=True, blank=True)
    tries = models.PositiveSmallIntegerField(default=0)
    trouble = models.CharField(max_length=200, blank=True)

    class Meta:
        ordering = ("made_at", "pk")
        indexes = (
            models.Index(
                fields=["made_at"], name="message_to_send", condition=Q(delivery__in=("waiting", "sending", "failed"))
            ),
        )
        constraints = (
            one_of("message_kind_known", "kind", MessageKind),
            one_of("message_delivery_known", "delivery", Delivery),
            models.CheckConstraint(
                name="message_sent_at_a_time",
                condition=~Q(delivery="sent") | Q(sent_at__isnull=False),
                violation_error_message=_("What was sent has a time."),
            ),
        )

    def __str__(self) -> str:
        return f"{self.person}: {self.get_kind_display()}"
