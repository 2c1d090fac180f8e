"""What the house relies on later: its history, links handed out, codes printed."""

from datetime import datetime
from typing import Any, ClassVar, NoReturn

from django.core.serializers.json import DjangoJSONEncoder
from django.db import models
from django.db.models import F, Q
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from venue.errors import HistoryIsKept
from venue.fields import BinaryCharField
from venue.guards import AppendOnly, Guard, Unchanging
from venue.models.base import Ref, one_of
from venue.models.house import House


class ActorKind(models.TextChoices):
    USER = "user", _("user")
    LINK = "link", _("link")
    COMMAND = "command", _("command")


class EventQuerySet(models.QuerySet):
    """History, which can only be read and added to."""

    def about(self, kind: str, ref: Any) -> "EventQuerySet":
        """The lines about one subject."""
        return self.filter(subject_kind=kind, subject_ref=ref)

    def update(self, **_values: Any) -> NoReturn:
        raise HistoryIsKept

    def delete(self) -> NoReturn:
        raise HistoryIsKept


class Event(models.Model):
    """One line of history: who did what to which subject, when. Never changed or deleted.

    `house` is None for what concerns no single house (a roster). `data` holds details by name, never a way to
    reach a person.
    """

    house = models.ForeignKey(House, on_delete=models.PROTECT, null=True, related_name="history")
    at = models.DateTimeField(default=timezone.now)
    actor_kind = models.CharField(max_length=8, choices=ActorKind)
    actor_user = models.ForeignKey("venue.User", on_delete=models.PROTECT, null=True, related_name="+")
    actor_name = models.CharField(max_length=120)
    verb = models.CharField(max_length=60)
    subject_kind = models.CharField(max_length=40)
    subject_ref = models.UUIDField()
    data = models.JSONField(default=dict, encoder=DjangoJSONEncoder)

    objects = EventQuerySet.as_manager()

    guards: ClassVar[tuple[Guard, ...]] = (AppendOnly("event_append_only"),)

    class Meta:
        ordering = ("at", "pk")
        indexes = (
            models.Index(fields=["house", "at"], name="event_by_house"),
            models.Index(fields=["subject_kind", "subject_ref"], name="event_by_subject"),
        )
        constraints = (
            one_of("event_actor_kind_known", "actor_kind", ActorKind),
            models.CheckConstraint(
                name="event_user_named",
                condition=Q(actor_kind="user", actor_user__isnull=False)
                | (~Q(actor_kind="user") & Q(actor_user__isnull=True)),
                violation_error_message=_("A user's line names the user, any other names none."),
            ),
        )

    def __str__(self) -> str:
        return f"{self.at:%Y-%m-%d %H:%M} {self.actor_name}: {self.verb}"

    def save(self, *args: Any, **options: Any) -> None:
        if not self._state.adding:
            raise HistoryIsKept
        super().save(*args, **options)

    def delete(self, *_args: Any, **_options: Any) -> NoReturn:
        raise HistoryIsKept


class LinkQuerySet(models.QuerySet):
    """Links by whether they still work."""

    def working(self, now: datetime) -> "LinkQuerySet":
        """Those neither revoked nor over."""
        return self.filter(revoked_at__isnull=True, expires_at__gt=now)


class Link(Ref):
    """An address that lets its holder do one thing without signing in. Only the secret's hash is kept."""

    purpose = models.CharField(max_length=40)
    subject_kind = models.CharField(max_length=40)
    subject_ref = models.UUIDField()
    house = models.ForeignKey(House, on_delete=models.PROTECT, null=True, blank=True, related_name="links")
    secret_hash = BinaryCharField(max_length=64, unique=True, editable=False)
    made_at = models.DateTimeField(default=timezone.now, editable=False)
    expires_at = models.DateTimeField()
    revoked_at = models.DateTimeField(null=True, editable=False)
    last_used_at = models.DateTimeField(null=True, editable=False)

    objects = LinkQuerySet.as_manager()

    guards: ClassVar[tuple[Guard, ...]] = (Unchanging("link_secret_unchanging", "secret_hash"),)

    class Meta:
        ordering = ("-made_at", "-pk")
        indexes = (models.Index(fields=["subject_kind", "subject_ref"], name="link_by_subject"),)
        constraints = (
            models.CheckConstraint(
                name="link_expires_later",
                condition=Q(expires_at__gt=F("made_at")),
                violation_error_message=_("A link ends after it was made."),
            ),
        )

    def __str__(self) -> str:
        return f"{self.purpose} {self.ref}"

    def works(self, now: datetime) -> bool:
        """Whether the link is neither revoked nor over."""
        return self.revoked_at is None and now < self.expires_at


class PrintedCode(Ref):
    """What `/q/<code>` on a tape, label or sheet stands for. Survives the subject's renaming."""

    code = BinaryCharField(max_length=20, unique=True, editable=False)
    purpose = models.CharField(max_length=40)
    subject_kind = models.CharField(max_length=40)
    subject_ref = models.UUIDField()
    house = models.ForeignKey(House, on_delete=models.PROTECT, related_name="printed_codes")
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    guards: ClassVar[tuple[Guard, ...]] = (Unchanging("printed_code_unchanging", "code"),)

    class Meta:
        ordering = ("-made_at", "-pk")
        indexes = (models.Index(fields=["subject_kind", "subject_ref"], name="printed_code_by_subject"),)

    def __str__(self) -> str:
        return self.code
