"""Checking and storing one row, with every refusal by name, whether Python or the database finds it."""

from collections.abc import Callable, Iterable
from datetime import datetime
from typing import Any, TypeVar

from django.core.exceptions import NON_FIELD_ERRORS, ValidationError
from django.db import IntegrityError, models, transaction
from django.utils.translation import gettext as _

from venue.errors import AlreadyExists, DomainError, Invalid
from venue.models import Ending, Versioned

AnyRow = TypeVar("AnyRow", bound=models.Model)


def store(row: AnyRow) -> AnyRow:
    """Check the row and save it.

    Raises Invalid, AlreadyExists, StaleVersion, or what a guard of the table refuses (Overlap). After a
    refusal the surrounding transaction goes on.
    """
    check(row)
    with_names(row, row.save)
    return row


def store_version(row: Versioned, fields: Iterable[str], seen: int) -> None:
    """Check the row and save the fields if the stored row still has the version `seen`. Raises as `store`."""
    check(row)
    with_names(row, lambda: row.save_version(fields, seen))


def end(row: Ending, *, at: datetime, reason: str, also: Iterable[str] = ()) -> None:
    """End the row at the instant, for a reason; other fields changed with it are stored too.

    Raises AlreadyEnded, Invalid without a reason, StaleVersion.
    """
    row.mark_ended(at, reason)
    if not reason.strip():
        raise Invalid({"ended_reason": [_("Say why it ends.")]})
    changed = {"ended_at", "ended_reason", *also}
    check_columns(row, exclude={field.name for field in row._meta.fields} - changed)
    with_names(row, lambda: row.save(update_fields=changed))


def check(row: models.Model) -> None:
    """Raise Invalid or AlreadyExists if the row breaks a rule of its fields, or as a whole.

    The table's constraints are left to the database, which checks them anyway; `with_names` words a refusal.
    """
    _require_storable(row, exclude=set())
    try:
        row.full_clean(validate_constraints=False)
    except ValidationError as error:
        raise named(error) from error


def check_columns(row: models.Model, exclude: set[str]) -> None:
    """Raise Invalid if a column but those excluded, or the row as a whole, breaks a rule; no query is run."""
    _require_storable(row, exclude)
    try:
        row.clean_fields(exclude=exclude)
        row.clean()
    except ValidationError as error:
        raise named(error) from error


def _require_storable(row: models.Model, exclude: set[str]) -> None:
    """Neither database stores half a character, and PostgreSQL no NUL."""
    bad = [
        field.name
        for field in row._meta.concrete_fields
        if field.name not in exclude and not _is_storable(getattr(row, field.attname))
    ]
    if bad:
        message = _("There is a character in this that can't be stored. Write it again by hand.")
        raise Invalid({name: [message] for name in bad})


def _is_storable(value: Any) -> bool:
    if isinstance(value, str):
        return "\0" not in value and not any("\ud800" <= char <= "\udfff" for char in value)
    if isinstance(value, list | tuple):
        return all(map(_is_storable, value))
    return True


def with_names(row: models.Model, save: Callable[[], None]) -> None:
    """Save in a savepoint; a refusal of the database gets its name."""
    try:
        with transaction.atomic():
            save()
    except IntegrityError as error:
        raise _refusal(row, error) from error


def named(error: ValidationError) -> DomainError:
    """The validation error as AlreadyExists, if uniqueness is all that it is about, else Invalid."""
    if not hasattr(error, "error_dict"):
        return Invalid({NON_FIELD_ERRORS: error.messages})
    found = [one for errors in error.error_dict.values() for one in errors]
    if all(one.code in {"already_exists", "unique"} for one in found):
        return AlreadyExists(" ".join(message for one in found for message in one.messages))
    return Invalid(error.message_dict)


def _refusal(row: models.Model, error: IntegrityError) -> Exception:
    for guard in getattr(row, "guards", ()):
        if guard.is_in(error):
            refusal: DomainError = guard.refusal(row)
            return refusal
    try:
        row.full_clean()
    except ValidationError as found:
        return named(found)
    return error
