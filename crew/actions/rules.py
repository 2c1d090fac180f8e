"""A roster's rules for hours: made from a preset, changed, ended. A rule set with a problem is never stored."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from django.db import transaction
from django.utils.translation import gettext as _

from crew.core.hours.reading_rules import read_rules
from crew.errors import NotServed, RulesRefused
from crew.models import HourRules, Roster
from venue.history import Actor, record
from venue.models import House
from venue.storing import end, store, store_version

Document = Mapping[str, Any]


@transaction.atomic
def make_rules(*, actor: Actor, roster: Roster, house: House | None, name: str, rules: Document) -> HourRules:
    """Rules for one house of the roster, or without one for all that have none of their own.

    Raises RulesRefused, NotServed, AlreadyExists, Invalid.
    """
    _require_sound(rules)
    if house is not None and not roster.roster_houses.standing().filter(house=house).exists():
        raise NotServed(roster.name, house.name)
    row = store(HourRules(roster=roster, house=house, name=name, rules=_kept(rules)))
    _record(actor, "hours.rules_made", row)
    return row


@transaction.atomic
def change_rules(*, actor: Actor, row: HourRules, name: str, rules: Document, seen: int) -> None:
    """Other numbers. Raises RulesRefused, StaleVersion unless the rules have version `seen`, Invalid."""
    _require_sound(rules)
    row.name, row.rules = name, _kept(rules)
    store_version(row, ("name", "rules"), seen)
    _record(actor, "hours.rules_changed", row)


@transaction.atomic
def end_rules(*, actor: Actor, row: HourRules, at: datetime, reason: str) -> None:
    """They hold no more. Raises AlreadyEnded, StaleVersion, Invalid without a reason."""
    end(row, at=at, reason=reason)
    _record(actor, "hours.rules_ended", row, reason=reason)


SAYS_NOTHING = {"combine": "highest"}
"""What is stored of a rule set without any rule: the column takes no empty object, and this is so anyway."""


def _kept(rules: Document) -> dict[str, Any]:
    return dict(rules) or dict(SAYS_NOTHING)


def _require_sound(rules: Document) -> None:
    if problems := read_rules(rules).problems:
        raise RulesRefused(problems)


def _record(actor: Actor, verb: str, row: HourRules, **facts: object) -> None:
    where = row.house.name if row.house else _("all its houses")
    record(actor, verb, row, house=row.house, name=row.name, roster=row.roster.name, where=where, **facts)
