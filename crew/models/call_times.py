"""Within which times a call lies, and an own call time within its call: what is wrong, by the field to correct."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta
from typing import TYPE_CHECKING

from django.utils.text import capfirst
from django.utils.translation import gettext as _

from crew.moments import moment, moment_at

if TYPE_CHECKING:
    from crew.models.calls import Call, CallLine

FAR = timedelta(days=7)
"""So long before its event a call begins at most, and so long after it it ends (common practice, no source)."""
OPEN_END = timedelta(hours=24)
"""So long an event lasts at most where its end is not known (common practice, no source)."""

Problem = tuple[str, str]
"""The field, and the sentence that stands at it."""


def call_problems(call: Call) -> dict[str, str]:
    """What is wrong with the times of the call, which are reckoned already."""
    found = dict(_of_the_day(call))
    if call.ends_at <= call.call_at:
        told = {"ends": moment(call.ends_wall), "call": moment(call.call_wall)}
        text = _("The expected end, %(ends)s, is not after the call, %(call)s. Write a later end.")
        return {**found, "ends_time": text % told}
    return {**found, **dict(_of_talk(call)), **dict(_of_meal(call))}


def _of_the_day(call: Call) -> Iterator[Problem]:
    """Where a call is too far from its event to be meant for it."""
    event = call.event
    over = event.ends_at or event.starts_at + OPEN_END
    told = {"event": capfirst(event.name or event.get_kind_display()), "at": moment(event.starts_wall)}
    if not event.starts_at - FAR <= call.call_at < over:
        text = _("%(event)s is on %(at)s. Choose a day at most 7 days before that, and a time before it ends.")
        yield "call_date", text % told
    elif call.ends_at > over + FAR:
        text = _("%(event)s is on %(at)s. Choose a day of the end at most 7 days after it is over.")
        yield "ends_date", text % told


def _of_talk(call: Call) -> Iterator[Problem]:
    if call.talk_at is None or call.talk_wall is None:
        return
    told = {"at": moment(call.talk_wall), "call": moment(call.call_wall), "ends": moment(call.ends_wall)}
    if call.talk_at < call.call_at:
        text = _("The spot talk, %(at)s, is before the call, %(call)s. Write a later time for it.")
        yield "talk_time", text % told
    elif call.talk_at > call.ends_at:
        text = _("The spot talk, %(at)s, is after the expected end, %(ends)s. Write an earlier time, or a later end.")
        yield "talk_time", text % told


def _of_meal(call: Call) -> Iterator[Problem]:
    if call.meal_at is None or call.meal_wall is None or call.call_at <= call.meal_at <= call.ends_at:
        return
    told = {"at": moment(call.meal_wall), "call": moment(call.call_wall), "ends": moment(call.ends_wall)}
    text = _("The meal, %(at)s, is outside the call. Write a time from %(call)s to %(ends)s.")
    yield "meal_time", text % told


def own_problems(line: CallLine) -> dict[str, str]:
    """What is wrong with the own call time of the line."""
    call = line.call
    if line.own_at is None or line.own_wall is None:
        return {}
    told = {"line": capfirst(str(line)), "own": moment(line.own_wall)}
    if line.own_at > call.ends_at:
        text = _("%(line)s: the own call time, %(own)s, is after the end of the call, %(ends)s. Write an earlier one.")
        return {"own_time": text % {**told, "ends": moment_at(call.ends_at, call.zone)}}
    if line.own_at < call.call_at - FAR:
        text = _("%(line)s: the own call time, %(own)s, is more than 7 days before the call. Choose a later day.")
        return {"own_date": text % told}
    return {}
