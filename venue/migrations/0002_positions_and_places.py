import uuid

import django.core.validators
import django.db.models.deletion
from django.db import migrations, models

import venue.fields
import venue.validators


class Migration(migrations.Migration):
    dependencies = [
        ("venue", "0001_people_and_houses"),
    ]

    operations = [
        migrations.CreateModel(
            name="Position",
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
                ("name_key", venue.fields.BinaryCharField(blank=True, editable=False, max_length=160)),
                (
                    "kind",
                    models.CharField(
                        blank=True, help_text="Booth, rail, truss, tower.", max_length=40, verbose_name="kind"
                    ),
                ),
                (
                    "zone",
                    models.CharField(
                        choices=[
                            ("front", "front"),
                            ("side", "side"),
                            ("rear", "rear"),
                            ("overhead", "overhead"),
                            ("bowl", "bowl"),
                        ],
                        default="front",
                        max_length=10,
                        verbose_name="zone",
                    ),
                ),
                (
                    "level",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(-100.0),
                            django.core.validators.MaxValueValidator(100.0),
                        ],
                        verbose_name="level",
                    ),
                ),
                (
                    "row_order",
                    models.PositiveIntegerField(
                        default=0,
                        validators=[django.core.validators.MaxValueValidator(100000)],
                        verbose_name="order in the house",
                    ),
                ),
                ("only_for", models.UUIDField(blank=True, editable=False, null=True)),
                (
                    "house",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="positions", to="venue.house"
                    ),
                ),
            ],
            options={
                "ordering": ("row_order", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True), ("only_for__isnull", True)),
                        fields=("house", "name_key"),
                        name="position_name_unique",
                        violation_error_code="already_exists",
                        violation_error_message="The house has a position of this name already.",
                    ),
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True), ("only_for__isnull", False)),
                        fields=("house", "name_key", "only_for"),
                        name="position_name_unique_in_engagement",
                        violation_error_code="already_exists",
                        violation_error_message="The house has a position of this name already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("name_key", ""), _negated=True),
                        name="position_name_not_empty",
                        violation_error_message="Write a name.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("zone__in", ["front", "side", "rear", "overhead", "bowl"])),
                        name="position_zone_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("level__isnull", True),
                                models.Q(("level__gte", -100.0), ("level__lte", 100.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("row_order__isnull", True),
                                models.Q(("row_order__gte", 0), ("row_order__lte", 100000)),
                                _connector="OR",
                            ),
                        ),
                        name="position_numbers_in_range",
                        violation_error_message="A number is out of its range.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="position_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Place",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("label", models.CharField(max_length=40, verbose_name="label")),
                ("label_key", venue.fields.BinaryCharField(blank=True, editable=False, max_length=80)),
                ("sort_key", venue.fields.BinaryCharField(blank=True, editable=False, max_length=320)),
                (
                    "x_m",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(-1000.0),
                            django.core.validators.MaxValueValidator(1000.0),
                        ],
                        verbose_name="x",
                    ),
                ),
                (
                    "y_m",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(-1000.0),
                            django.core.validators.MaxValueValidator(1000.0),
                        ],
                        verbose_name="y",
                    ),
                ),
                (
                    "z_m",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(-1000.0),
                            django.core.validators.MaxValueValidator(1000.0),
                        ],
                        verbose_name="z",
                    ),
                ),
                ("x_text", models.CharField(blank=True, max_length=40, verbose_name="x as typed")),
                ("y_text", models.CharField(blank=True, max_length=40, verbose_name="y as typed")),
                ("z_text", models.CharField(blank=True, max_length=40, verbose_name="z as typed")),
                (
                    "bearing_deg",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.0),
                            django.core.validators.MaxValueValidator(360.0),
                        ],
                        verbose_name="bearing",
                    ),
                ),
                (
                    "row_order",
                    models.PositiveIntegerField(
                        blank=True,
                        null=True,
                        validators=[django.core.validators.MaxValueValidator(100000)],
                        verbose_name="order",
                    ),
                ),
                ("only_for", models.UUIDField(blank=True, editable=False, null=True)),
                (
                    "operated_from",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="operates",
                        to="venue.place",
                    ),
                ),
                (
                    "position",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="places", to="venue.position"
                    ),
                ),
            ],
            options={
                "ordering": ("position__row_order", "position", "sort_key", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True), ("only_for__isnull", True)),
                        fields=("position", "label_key"),
                        name="place_label_unique",
                        violation_error_code="already_exists",
                        violation_error_message="The position has a place of this label already.",
                    ),
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True), ("only_for__isnull", False)),
                        fields=("position", "label_key", "only_for"),
                        name="place_label_unique_in_engagement",
                        violation_error_code="already_exists",
                        violation_error_message="The position has a place of this label already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("label_key", ""), _negated=True),
                        name="place_label_not_empty",
                        violation_error_message="Write a label with at least one letter or digit.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("x_m__isnull", True), ("y_m__isnull", True), ("z_m__isnull", True)),
                            models.Q(("x_m__isnull", False), ("y_m__isnull", False), ("z_m__isnull", False)),
                            _connector="OR",
                        ),
                        name="place_coordinates_all_or_none",
                        violation_error_message="Write x, y and z, or none of them.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("x_m__isnull", True),
                                models.Q(("x_m__gte", -1000.0), ("x_m__lte", 1000.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("y_m__isnull", True),
                                models.Q(("y_m__gte", -1000.0), ("y_m__lte", 1000.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("z_m__isnull", True),
                                models.Q(("z_m__gte", -1000.0), ("z_m__lte", 1000.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("bearing_deg__isnull", True),
                                models.Q(("bearing_deg__gte", 0.0), ("bearing_deg__lte", 360.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("row_order__isnull", True),
                                models.Q(("row_order__gte", 0), ("row_order__lte", 100000)),
                                _connector="OR",
                            ),
                        ),
                        name="place_numbers_in_range",
                        violation_error_message="A number is out of its range.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("operated_from__isnull", True),
                            models.Q(("operated_from", models.F("pk")), _negated=True),
                            _connector="OR",
                        ),
                        name="place_operated_from_elsewhere",
                        violation_error_message="A place that is run from itself needs no other place.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="place_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="SetupZone",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                (
                    "zone",
                    models.CharField(
                        choices=[
                            ("front", "front"),
                            ("side", "side"),
                            ("rear", "rear"),
                            ("overhead", "overhead"),
                            ("bowl", "bowl"),
                        ],
                        max_length=10,
                        verbose_name="zone",
                    ),
                ),
                (
                    "position",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="setup_zones", to="venue.position"
                    ),
                ),
                (
                    "setup",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="zones", to="venue.setup"
                    ),
                ),
            ],
            options={
                "ordering": ("setup", "position"),
                "constraints": [
                    models.UniqueConstraint(
                        fields=("setup", "position"),
                        name="setup_zone_unique",
                        violation_error_code="already_exists",
                        violation_error_message="This set-up has a zone for the position already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("zone__in", ["front", "side", "rear", "overhead", "bowl"])),
                        name="setup_zone_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                ],
            },
        ),
    ]
