"""What rows have in common: a public reference, a version, an end, derived keys."""

import uuid
from collections.abc import Collection, Iterable
from datetime import datetime
from typing import Any, NoReturn, Self

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import F, Q
from django.utils.translation import gettext_lazy as _

from venue.errors import AlreadyEnded, HistoryIsKept, StaleVersion
from venue.fields import fill_keys
from venue.validators import validate_finite


class Ref(models.Model):
    """A row that appears in addresses, by a reference that says nothing and never changes."""

    ref = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)

    class Meta:
        abstract = True


class Versioned(models.Model):
    """A row that people edit. Each change raises `version`; a change to an older version is refused."""

    version = models.PositiveIntegerField(default=1, editable=False)

    class Meta:
        abstract = True

    def save(self, *args: Any, update_fields: Iterable[str] | None = None, **options: Any) -> None:
        """Store the row: a new one as it is, a stored one by `save_version`."""
        if self._state.adding:
            super().save(*args, **{**options, "force_insert": True})
        else:
            self.save_version(update_fields)

    def save_version(self, fields: Iterable[str] | None = None, seen: int | None = None) -> None:
        """Store the fields (default: all) if the stored row still has the version `seen`.

        `seen` is the version that the user was shown, by default the row's own. Raises StaleVersion, with the
        row as stored and the values refused, if somebody stored the row in between.
        """
        seen = self.version if seen is None else seen
        values = self._values_to_store(fields)
        rows = type(self)._base_manager.filter(pk=self.pk, version=seen)
        if not rows.update(**values, version=F("version") + 1):
            raise StaleVersion(stored=type(self)._base_manager.get(pk=self.pk), submitted=values)
        self.version = seen + 1

    def _values_to_store(self, fields: Iterable[str] | None) -> dict[str, Any]:
        fill_keys(self)
        wanted = None if fields is None else {*fields, *self.derived_from(fields)}
        return {
            field.attname: field.pre_save(self, add=False)
            for field in self._meta.concrete_fields
            if not field.primary_key and field.name not in {"ref", "version"}
            if wanted is None or field.name in wanted or field.attname in wanted
        }

    def derived_from(self, fields: Iterable[str]) -> set[str]:
        """The names of the keys that follow from the fields."""
        names = set(fields)
        return {field.name for field in self._meta.concrete_fields if getattr(field, "source", None) in names}


class Keyed(models.Model):
    """A row with keys derived from what people typed; checked as they will be stored."""

    class Meta:
        abstract = True

    def clean_fields(self, exclude: Collection[str] | None = None) -> None:
        fill_keys(self)
        super().clean_fields(exclude=exclude)


class EndingQuerySet(models.QuerySet):
    """Rows that may have ended."""

    def standing(self) -> Self:
        """Those that have not ended."""
        return self.filter(ended_at__isnull=True)


class Ending(models.Model):
    """A row that is never deleted: it ends, with a date and a reason."""

    ended_at = models.DateTimeField(_("ended"), null=True, blank=True, editable=False)
    ended_reason = models.CharField(_("why it ended"), max_length=200, blank=True, editable=False)

    class Meta:
        abstract = True

    @property
    def has_ended(self) -> bool:
        return self.ended_at is not None

    def mark_ended(self, at: datetime, reason: str) -> None:
        """The row ends at the instant; it is still to be stored. Raises AlreadyEnded."""
        if self.ended_at is not None:
            raise AlreadyEnded(self, self.ended_at)
        self.ended_at, self.ended_reason = at, reason


class KeptQuerySet(models.QuerySet):
    """Rows that can only be read and added to."""

    def update(self, **_values: Any) -> NoReturn:
        raise HistoryIsKept

    def delete(self) -> NoReturn:
        raise HistoryIsKept


class Kept(Ref):
    """A row that is never changed or deleted."""

    objects = KeptQuerySet.as_manager()

    class Meta:
        abstract = True

    def save(self, *args: Any, **options: Any) -> None:
        if not self._state.adding:
            raise HistoryIsKept
        super().save(*args, **options)

    def delete(self, *_args: Any, **_options: Any) -> NoReturn:
        raise HistoryIsKept


NOT_ENDED = Q(ended_at__isnull=True)


def ends_with_reason(name: str) -> models.CheckConstraint:
    """A row has a reason exactly if it has ended."""
    return models.CheckConstraint(
        name=name,
        condition=Q(ended_at__isnull=True, ended_reason="") | (Q(ended_at__isnull=False) & ~Q(ended_reason="")),
        violation_error_message=_("Say why it ends."),
    )


def one_of(name: str, field: str, choices: type[models.TextChoices], *, or_blank: bool = False) -> Any:
    """The column holds one of the choices, whoever wrote it."""
    allowed = [*choices.values, *([""] if or_blank else [])]
    return models.CheckConstraint(
        name=name,
        condition=Q(**{f"{field}__in": allowed}),
        violation_error_message=_("Choose one of the values offered."),
    )


def not_empty(name: str, key: str, message: Any) -> models.CheckConstraint:
    """The key holds something: what was typed is more than spaces and marks."""
    return models.CheckConstraint(name=name, condition=~Q(**{key: ""}), violation_error_message=message)


PAN = (-360.0, 360.0)
"""Of a light [degrees]."""


def number(verbose_name: Any, low: float, high: float, **options: Any) -> models.FloatField:
    """A column for a double from `low` to `high`, both included; without a default it may be left out.

    `in_ranges` has the database keep the same ranges.
    """
    if "default" not in options:
        options |= {"null": True, "blank": True}
    within = (validate_finite, MinValueValidator(low), MaxValueValidator(high))
    return models.FloatField(verbose_name, validators=within, **options)


def hour_count(verbose_name: Any, **options: Any) -> models.DecimalField:
    """A column for hours to two places: what a meter shows, what a lamp has burned."""
    return models.DecimalField(verbose_name, max_digits=9, decimal_places=2, **options)


def pans_together(name: str) -> models.CheckConstraint:
    """A range of pans has both of its ends, `pan_from_deg` and `pan_to_deg`, or none."""
    return models.CheckConstraint(
        name=name,
        condition=Q(pan_from_deg__isnull=True, pan_to_deg__isnull=True)
        | Q(pan_from_deg__isnull=False, pan_to_deg__isnull=False),
        violation_error_message=_("Write both pans, from and to, or neither."),
    )


def in_ranges(name: str, **ranges: tuple[float, float]) -> models.CheckConstraint:
    """Each number, where there is one, is from the first to the second of its range."""
    fits = Q()
    for field, (low, high) in ranges.items():
        fits &= Q(**{f"{field}__isnull": True}) | Q(**{f"{field}__gte": low, f"{field}__lte": high})
    return models.CheckConstraint(name=name, condition=fits, violation_error_message=_("A number is out of its range."))
