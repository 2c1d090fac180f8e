"""Calls and lines made before ends were kept get the usual ones: half an hour after the event, else four hours.

Who was on two calls at once stays on both, booked for the earlier: from now on the database refuses a second.
"""

from datetime import datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from django.db import migrations

AFTER = timedelta(minutes=30)
LENGTH = timedelta(hours=4)
# (name, asked for by, nobody works there without it): common practice, no source
KINDS = (
    ("Climb and harness", "climb", True),
    ("Lift or platform", "lift", True),
    ("Arc-lamp handling", "arc-lamp", False),
    ("House orientation", "house", False),
)


def fill(apps: Any, schema_editor: Any) -> None:
    for call in apps.get_model("crew", "Call").objects.select_related("event"):
        ends = _end(call)
        wall = ends.astimezone(ZoneInfo(call.zone))
        call.ends_at, call.ends_date, call.ends_time = ends, wall.date(), wall.time()
        call.save(update_fields=["ends_at", "ends_date", "ends_time"])
    booked_until: dict[int, datetime] = {}
    for line in apps.get_model("crew", "CallLine").objects.select_related("call").order_by("call__call_at", "pk"):
        is_over = line.ended_at is not None or line.call.ended_at is not None
        line.starts_at = line.ends_at = line.call.call_at
        if not is_over and booked_until.get(line.person_id, line.starts_at) <= line.starts_at:
            line.ends_at = line.call.ends_at
        if line.person_id is not None and not is_over:
            booked_until[line.person_id] = max(line.ends_at, booked_until.get(line.person_id, line.ends_at))
        line.save(update_fields=["starts_at", "ends_at"])
    kinds = apps.get_model("crew", "CertificationKind")
    for roster in apps.get_model("crew", "Roster").objects.all():
        kinds.objects.bulk_create(
            kinds(roster=roster, name=name, name_key=name.casefold(), needed_for=needed_for, is_required=is_required)
            for name, needed_for, is_required in KINDS
        )


def _end(call: Any) -> datetime:
    if call.event.ends_at is not None and call.event.ends_at + AFTER > call.call_at:
        return call.event.ends_at + AFTER
    return max(call.event.starts_at, call.call_at) + LENGTH


class Migration(migrations.Migration):
    dependencies = [("crew", "0007_people_and_times")]

    operations = [migrations.RunPython(fill, migrations.RunPython.noop)]
