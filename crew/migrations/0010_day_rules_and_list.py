import uuid

import django.db.models.deletion
from django.db import migrations, models

from venue.guards import AddGuard, AppendOnly, NoOverlap


class Migration(migrations.Migration):
    dependencies = [
        ("crew", "0009_times_are_told"),
        ("venue", "0009_light_circuits_areas"),
    ]

    operations = [
        migrations.CreateModel(
            name="Attendance",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("in_at", models.DateTimeField(blank=True, null=True, verbose_name="in")),
                ("out_at", models.DateTimeField(blank=True, null=True, verbose_name="out")),
                (
                    "absence",
                    models.CharField(
                        blank=True,
                        choices=[("no-show", "did not come"), ("sent-home", "was sent home")],
                        max_length=9,
                        verbose_name="absence",
                    ),
                ),
                ("note", models.CharField(blank=True, max_length=200, verbose_name="note")),
                (
                    "line",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT, related_name="attendance", to="crew.callline"
                    ),
                ),
            ],
            options={
                "ordering": ("line",),
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("absence__in", ["no-show", "sent-home", ""])),
                        name="attendance_absence_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("out_at__isnull", True),
                            models.Q(("in_at__isnull", False), ("out_at__gt", models.F("in_at"))),
                            _connector="OR",
                        ),
                        name="attendance_in_before_out",
                        violation_error_message="The time out is not after the time in. Write a later one.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("absence", "no-show"), _negated=True),
                            models.Q(("in_at__isnull", True), ("out_at__isnull", True)),
                            _connector="OR",
                        ),
                        name="attendance_who_did_not_come_has_no_times",
                        violation_error_message="Somebody who signed in did come: take the times out first.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="HourRules",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("name", models.CharField(max_length=80, verbose_name="name")),
                ("rules", models.JSONField(default=dict, verbose_name="rules")),
                (
                    "house",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="venue.house",
                    ),
                ),
                (
                    "roster",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="hour_rules", to="crew.roster"
                    ),
                ),
            ],
            options={
                "verbose_name_plural": "hour rules",
                "ordering": ("roster", "house", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True), ("house__isnull", True)),
                        fields=("roster",),
                        name="hour_rules_unique",
                        violation_error_code="already_exists",
                        violation_error_message="The roster has rules already: change those.",
                    ),
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True), ("house__isnull", False)),
                        fields=("roster", "house"),
                        name="hour_rules_unique_in_house",
                        violation_error_code="already_exists",
                        violation_error_message="The roster has rules for this house already: change those.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="hour_rules_end_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="MealBreak",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("starts_at", models.DateTimeField(verbose_name="meal from")),
                ("ends_at", models.DateTimeField(blank=True, null=True, verbose_name="meal until")),
                (
                    "attendance",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="meals", to="crew.attendance"
                    ),
                ),
            ],
            options={
                "ordering": ("starts_at", "pk"),
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            ("ends_at__isnull", True), ("ends_at__gte", models.F("starts_at")), _connector="OR"
                        ),
                        name="meal_break_ends_after_start",
                        violation_error_message="The meal ends before it starts. Write a later end.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("ended_at__isnull", True), ("ends_at", models.F("starts_at")), _connector="OR"
                        ),
                        name="meal_break_mistaken_is_empty",
                        violation_error_message="A meal that was entered by mistake has no length.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="meal_break_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="PassedOver",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("reason", models.CharField(max_length=200, verbose_name="why")),
                ("at", models.DateTimeField()),
                ("by", models.CharField(max_length=120)),
                (
                    "line",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="passed_over", to="crew.callline"
                    ),
                ),
                (
                    "person",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="passed_over", to="crew.person"
                    ),
                ),
            ],
            options={
                "verbose_name_plural": "passed over",
                "ordering": ("at", "pk"),
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("reason", ""), _negated=True),
                        name="passed_over_for_a_reason",
                        violation_error_message="Write why somebody earlier on the list is passed over.",
                    )
                ],
            },
        ),
        AddGuard("mealbreak", NoOverlap("meal_break_no_overlap", by="attendance")),
        AddGuard("passedover", AppendOnly("passed_over_append_only")),
    ]
