"""Templates of calls, from which a roster's new calls begin."""

from datetime import datetime
from typing import Any

from django.db import transaction

from crew.models import CallTemplate, Roster
from venue.history import Actor, record
from venue.storing import end, store, store_version


@transaction.atomic
def add_template(*, actor: Actor, roster: Roster, values: dict[str, Any]) -> CallTemplate:
    """A template of the roster. Raises AlreadyExists, Invalid."""
    template = store(CallTemplate(roster=roster, **values))
    record(actor, "template.added", template, house=None, name=template.name, roster=roster.name)
    return template


@transaction.atomic
def change_template(*, actor: Actor, template: CallTemplate, values: dict[str, Any], seen: int) -> None:
    """Other values; calls made before stay as they are. Raises StaleVersion, AlreadyExists, Invalid."""
    for name, value in values.items():
        setattr(template, name, value)
    store_version(template, values, seen)
    record(actor, "template.changed", template, house=None, name=template.name, roster=template.roster.name)


@transaction.atomic
def end_template(*, actor: Actor, template: CallTemplate, at: datetime, reason: str) -> None:
    """No new call begins with it. Raises AlreadyEnded, StaleVersion, Invalid without a reason."""
    end(template, at=at, reason=reason)
    facts = {"name": template.name, "roster": template.roster.name, "reason": reason}
    record(actor, "template.ended", template, house=None, **facts)
