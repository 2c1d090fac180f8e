import uuid

import django.core.validators
import django.db.models.deletion
from django.db import migrations, models

import venue.fields
import venue.validators


class Migration(migrations.Migration):
    dependencies = [
        ("shows", "0001_engagements"),
    ]

    operations = [
        migrations.CreateModel(
            name="ShowSpot",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("number", models.CharField(max_length=40, verbose_name="show number")),
                ("number_key", venue.fields.BinaryCharField(blank=True, editable=False, max_length=80)),
                ("sort_key", venue.fields.BinaryCharField(blank=True, editable=False, max_length=320)),
                ("house_label", models.CharField(blank=True, max_length=80, verbose_name="house label")),
                ("position_words", models.CharField(blank=True, max_length=80, verbose_name="position")),
                ("side", models.CharField(blank=True, max_length=80, verbose_name="side")),
                ("nth", models.CharField(blank=True, max_length=80, verbose_name="which from that side")),
                ("whose_left", models.CharField(blank=True, max_length=80, verbose_name="whose left")),
                ("frames", models.JSONField(blank=True, default=list, verbose_name="frames")),
                ("channel", models.CharField(blank=True, max_length=80, verbose_name="headset channel")),
                ("pick_up", models.CharField(blank=True, max_length=200, verbose_name="pick-up")),
                (
                    "least_lux",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[venue.validators.validate_finite, django.core.validators.MinValueValidator(0.0)],
                        verbose_name="least light",
                    ),
                ),
                ("notes", models.CharField(blank=True, max_length=1000, verbose_name="notes")),
                (
                    "engagement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="spots", to="shows.engagement"
                    ),
                ),
            ],
            options={
                "ordering": ("engagement", "sort_key", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("engagement", "number_key"),
                        name="show_spot_number_unique",
                        violation_error_code="already_exists",
                        violation_error_message="The show has this number already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("number_key", ""), _negated=True),
                        name="show_spot_number_not_empty",
                        violation_error_message="Write a show number.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("least_lux__isnull", True),
                            models.Q(("least_lux__gte", 0.0), ("least_lux__lte", 10000000.0)),
                            _connector="OR",
                        ),
                        name="show_spot_numbers_in_range",
                        violation_error_message="A number is out of its range.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="show_spot_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="SpotPlace",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("team_order", models.PositiveSmallIntegerField(default=1)),
                (
                    "engagement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="spot_places", to="shows.engagement"
                    ),
                ),
                (
                    "place",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="spot_places", to="venue.place"
                    ),
                ),
                (
                    "spot",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="spot_places", to="shows.showspot"
                    ),
                ),
            ],
            options={
                "ordering": ("spot", "team_order", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("engagement", "place"),
                        name="spot_place_unique",
                        violation_error_code="already_exists",
                        violation_error_message="Another show number is at this place already.",
                    ),
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("spot", "team_order"),
                        name="spot_place_team_order_unique",
                        violation_error_code="already_exists",
                        violation_error_message="The team has somebody in this order already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("team_order__gte", 1)),
                        name="spot_place_team_order_from_1",
                        violation_error_message="A team is counted from 1.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="spot_place_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
    ]
