import uuid

import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):
    initial = True

    dependencies = [
        ("venue", "0005_guards"),
        migrations.swappable_dependency(settings.AUTH_USER_MODEL),
    ]

    operations = [
        migrations.CreateModel(
            name="Roster",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("name", models.CharField(max_length=120, verbose_name="name")),
            ],
            options={
                "ordering": ("name", "pk"),
            },
        ),
        migrations.CreateModel(
            name="Person",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("name", models.CharField(max_length=120, verbose_name="name")),
                (
                    "roster",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="persons", to="crew.roster"
                    ),
                ),
            ],
            options={
                "ordering": ("name", "pk"),
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="person_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="DispatchMembership",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                (
                    "user",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="dispatch",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "roster",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="dispatch", to="crew.roster"
                    ),
                ),
            ],
            options={
                "ordering": ("roster", "user"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("user", "roster"),
                        name="dispatch_membership_unique",
                        violation_error_code="already_exists",
                        violation_error_message="This person dispatches the roster already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="dispatch_membership_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="RosterHouse",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                (
                    "house",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="roster_houses", to="venue.house"
                    ),
                ),
                (
                    "roster",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="roster_houses", to="crew.roster"
                    ),
                ),
            ],
            options={
                "ordering": ("roster", "house"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("roster", "house"),
                        name="roster_house_unique",
                        violation_error_code="already_exists",
                        violation_error_message="The roster serves this house already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="roster_house_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
    ]
