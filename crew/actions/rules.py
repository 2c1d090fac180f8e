"""A roster's rules for hours: begun, corrected, followed by others, ended. A set with a problem is never stored."""

from collections.abc import Mapping
from datetime import date, datetime
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from crew.core.hours.reading_rules import read_rules
from crew.errors import NotServed, RulesFromThen, RulesRefused
from crew.models import HourRules, Roster
from crew.models.hour_rules import FROM_THE_START
from venue.history import Actor, record
from venue.models import House
from venue.storing import end, store, store_version

Document = Mapping[str, Any]


@transaction.atomic
def make_rules(
    *,
    actor: Actor,
    roster: Roster,
    house: House | None,
    name: str,
    rules: Document,
    first_day: date = FROM_THE_START,
) -> HourRules:
    """Rules for one house of the roster, or without one for all that have none of their own, from the day on.

    Raises RulesRefused, NotServed, RulesFromThen, AlreadyExists, Invalid.
    """
    _require_sound(rules)
    if house is not None and not roster.roster_houses.standing().filter(house=house).exists():
        raise NotServed(roster.name, house.name)
    taken = roster.hour_rules.standing().filter(house=house, first_day=first_day).first()
    if taken is not None:
        raise RulesFromThen(taken.name, None if first_day == FROM_THE_START else first_day)
    row = store(HourRules(roster=roster, house=house, name=name, rules=dict(rules), first_day=first_day))
    if first_day == FROM_THE_START:
        _record(actor, "hours.rules_made", row)
    else:
        _record(actor, "hours.rules_begun", row, day=first_day.isoformat())
    return row


def follow_rules(*, actor: Actor, row: HourRules, first_day: date) -> HourRules:
    """A set of its own that says the same as the row, from the day on, to be corrected. Raises as `make_rules`."""
    facts = {"name": row.name, "rules": row.rules, "first_day": first_day}
    return make_rules(actor=actor, roster=row.roster, house=row.house, **facts)


@transaction.atomic
def change_rules(*, actor: Actor, row: HourRules, name: str, rules: Document, seen: int) -> None:
    """Other numbers for all its days. Raises RulesRefused, StaleVersion unless the row has version `seen`, Invalid."""
    _require_sound(rules)
    row.name, row.rules = name, dict(rules)
    store_version(row, ("name", "rules"), seen)
    _record(actor, "hours.rules_changed", row)


@transaction.atomic
def end_rules(*, actor: Actor, row: HourRules, at: datetime, reason: str) -> None:
    """They hold no more, not for past days either. Raises AlreadyEnded, StaleVersion, Invalid without a reason."""
    end(row, at=at, reason=reason)
    _record(actor, "hours.rules_ended", row, reason=reason)


def _require_sound(rules: Document) -> None:
    if problems := read_rules(rules).problems:
        raise RulesRefused(problems)


def _record(actor: Actor, verb: str, row: HourRules, **facts: object) -> None:
    where = row.house.name if row.house else _("all its houses")
    record(actor, verb, row, house=row.house, name=row.name, roster=row.roster.name, where=where, **facts)
