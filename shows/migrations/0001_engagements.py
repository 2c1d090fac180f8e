import uuid

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    initial = True

    dependencies = [
        ("venue", "0005_guards"),
        ("venue", "__first__"),
    ]

    operations = [
        migrations.CreateModel(
            name="Engagement",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("name", models.CharField(max_length=120, verbose_name="show")),
                ("starts_on", models.DateField(verbose_name="first day")),
                ("ends_on", models.DateField(verbose_name="last day")),
                ("statement", models.CharField(blank=True, max_length=1000, verbose_name="how its numbers run")),
                (
                    "house",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="engagements", to="venue.house"
                    ),
                ),
                (
                    "setup",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="engagements", to="venue.setup"
                    ),
                ),
            ],
            options={
                "ordering": ("starts_on", "name", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("house", "name", "starts_on"),
                        name="engagement_unique",
                        violation_error_code="already_exists",
                        violation_error_message="The house has this show from that day already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("ends_on__gte", models.F("starts_on"))),
                        name="engagement_ends_after_start",
                        violation_error_message="The last day is before the first. Write a later one.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="engagement_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="EngagementPlace",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "engagement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="own_places", to="shows.engagement"
                    ),
                ),
                (
                    "place",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT, related_name="+", to="venue.place"
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="EngagementPosition",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "engagement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="own_positions", to="shows.engagement"
                    ),
                ),
                (
                    "position",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT, related_name="+", to="venue.position"
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="RoadAccess",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("until", models.DateTimeField(verbose_name="until")),
                (
                    "engagement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="road_access", to="shows.engagement"
                    ),
                ),
                (
                    "user",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="road_access",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ("engagement", "user"),
                "constraints": [
                    models.UniqueConstraint(
                        fields=("user", "engagement"),
                        name="road_access_unique",
                        violation_error_code="already_exists",
                        violation_error_message="This person is with the show already.",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="ShowEvent",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                (
                    "kind",
                    models.CharField(
                        choices=[
                            ("load-in", "load-in"),
                            ("focus", "focus"),
                            ("rehearsal", "rehearsal"),
                            ("show", "show"),
                            ("load-out", "load-out"),
                        ],
                        max_length=10,
                        verbose_name="what",
                    ),
                ),
                ("name", models.CharField(blank=True, max_length=120, verbose_name="name")),
                ("starts_at", models.DateTimeField(editable=False)),
                ("ends_at", models.DateTimeField(blank=True, editable=False, null=True)),
                ("zone", models.CharField(editable=False, max_length=60)),
                ("starts_date", models.DateField(verbose_name="day")),
                ("starts_time", models.TimeField(verbose_name="from")),
                ("ends_date", models.DateField(blank=True, null=True, verbose_name="last day")),
                ("ends_time", models.TimeField(blank=True, null=True, verbose_name="until")),
                (
                    "engagement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="events", to="shows.engagement"
                    ),
                ),
            ],
            options={
                "ordering": ("starts_at", "pk"),
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("kind__in", ["load-in", "focus", "rehearsal", "show", "load-out"])),
                        name="show_event_kind_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("ends_at__isnull", True), ("ends_at__gt", models.F("starts_at")), _connector="OR"
                        ),
                        name="show_event_ends_after_start",
                        violation_error_message="It ends before it starts. Write a later end.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("ends_at__isnull", True), ("ends_date__isnull", True), ("ends_time__isnull", True)
                            ),
                            models.Q(
                                ("ends_at__isnull", False), ("ends_date__isnull", False), ("ends_time__isnull", False)
                            ),
                            _connector="OR",
                        ),
                        name="show_event_end_all_or_none",
                        violation_error_message="Write the day and the time of the end, or neither.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="show_event_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
    ]
