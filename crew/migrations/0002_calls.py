import uuid

import django.db.models.deletion
from django.db import migrations, models

import venue.fields


class Migration(migrations.Migration):
    dependencies = [
        ("crew", "0001_rosters"),
        ("shows", "0002_show_spots"),
        ("venue", "0005_guards"),
    ]

    operations = [
        migrations.CreateModel(
            name="Call",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("zone", models.CharField(editable=False, max_length=60)),
                ("call_at", models.DateTimeField(editable=False)),
                ("call_date", models.DateField(verbose_name="day of the call")),
                ("call_time", models.TimeField(verbose_name="call time")),
                ("place", models.CharField(blank=True, max_length=120, verbose_name="where to come")),
                ("talk_at", models.DateTimeField(blank=True, editable=False, null=True)),
                ("talk_date", models.DateField(blank=True, null=True, verbose_name="day of the spot talk")),
                ("talk_time", models.TimeField(blank=True, null=True, verbose_name="spot talk")),
                ("talk_place", models.CharField(blank=True, max_length=120, verbose_name="where the spot talk is")),
                ("notes", models.CharField(blank=True, max_length=1000, verbose_name="notes for everybody")),
                (
                    "engagement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="calls", to="shows.engagement"
                    ),
                ),
                (
                    "event",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="calls", to="shows.showevent"
                    ),
                ),
                (
                    "roster",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="calls", to="crew.roster"
                    ),
                ),
            ],
            options={
                "ordering": ("call_at", "pk"),
                "indexes": [models.Index(fields=["call_at"], name="call_by_time")],
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("event", "roster"),
                        name="call_unique",
                        violation_error_code="already_exists",
                        violation_error_message="This roster has a call for the event already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("talk_at__isnull", True), ("talk_date__isnull", True), ("talk_time__isnull", True)
                            ),
                            models.Q(
                                ("talk_at__isnull", False), ("talk_date__isnull", False), ("talk_time__isnull", False)
                            ),
                            _connector="OR",
                        ),
                        name="call_talk_all_or_none",
                        violation_error_message="Write the day and the time of the spot talk, or neither.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("talk_at__isnull", True), ("talk_at__gte", models.F("call_at")), _connector="OR"
                        ),
                        name="call_talk_after_call",
                        violation_error_message="The spot talk is before the call. Write a later time for it.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="call_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="CallLine",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("number", models.CharField(blank=True, max_length=40, verbose_name="show number")),
                ("number_key", venue.fields.BinaryCharField(blank=True, editable=False, max_length=80)),
                ("sort_key", venue.fields.BinaryCharField(blank=True, editable=False, max_length=320)),
                ("seat", models.PositiveSmallIntegerField(default=1)),
                (
                    "call",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="lines", to="crew.call"
                    ),
                ),
                (
                    "person",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="call_lines",
                        to="crew.person",
                    ),
                ),
            ],
            options={
                "ordering": ("call", "sort_key", "seat", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("call", "number_key", "seat"),
                        name="call_line_number_unique",
                        violation_error_code="already_exists",
                        violation_error_message="Somebody is on this number already.",
                    ),
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("call", "person"),
                        name="call_line_person_unique",
                        violation_error_code="already_exists",
                        violation_error_message="This person is on the call already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="call_line_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="IssuedSheet",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("kind", models.CharField(choices=[("call-sheet", "call sheet")], default="call-sheet", max_length=20)),
                ("n", models.PositiveIntegerField()),
                ("content", models.TextField()),
                ("sha256", venue.fields.BinaryCharField(max_length=64)),
                ("issued_at", models.DateTimeField()),
                ("issued_by", models.CharField(max_length=120)),
                (
                    "call",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="sheets", to="crew.call"
                    ),
                ),
                (
                    "code",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT, related_name="+", to="venue.printedcode"
                    ),
                ),
            ],
            options={
                "ordering": ("call", "kind", "-n"),
                "constraints": [
                    models.UniqueConstraint(
                        fields=("call", "kind", "n"),
                        name="issued_sheet_unique",
                        violation_error_code="already_exists",
                        violation_error_message="This revision was issued already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("kind__in", ["call-sheet"])),
                        name="issued_sheet_kind_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                ],
            },
        ),
    ]
