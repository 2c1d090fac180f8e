import uuid

import django.core.validators
import django.db.models.deletion
from django.db import migrations, models

import venue.fields
import venue.validators


class Migration(migrations.Migration):
    dependencies = [
        ("venue", "0002_positions_and_places"),
    ]

    operations = [
        migrations.CreateModel(
            name="Unit",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("tag", models.CharField(max_length=40, verbose_name="tag")),
                ("tag_key", venue.fields.BinaryCharField(blank=True, editable=False, max_length=80)),
                (
                    "source",
                    models.CharField(blank=True, help_text="Short-arc, LED.", max_length=40, verbose_name="source"),
                ),
                (
                    "watts",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.0),
                            django.core.validators.MaxValueValidator(1000000.0),
                        ],
                        verbose_name="watts",
                    ),
                ),
                (
                    "frames",
                    models.PositiveSmallIntegerField(
                        blank=True,
                        null=True,
                        validators=[django.core.validators.MaxValueValidator(50)],
                        verbose_name="frames",
                    ),
                ),
                (
                    "frame_1_end",
                    models.CharField(
                        blank=True,
                        choices=[("lens", "lens end"), ("lamp", "lamp end")],
                        max_length=4,
                        verbose_name="frame 1 is at",
                    ),
                ),
                (
                    "magazine",
                    models.CharField(
                        blank=True,
                        choices=[("front", "at the very front"), ("between", "between the lenses")],
                        max_length=8,
                        verbose_name="color magazine",
                    ),
                ),
                (
                    "narrow_deg",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.0),
                            django.core.validators.MaxValueValidator(179.0),
                        ],
                        verbose_name="narrowest beam",
                    ),
                ),
                (
                    "wide_deg",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.0),
                            django.core.validators.MaxValueValidator(179.0),
                        ],
                        verbose_name="widest beam",
                    ),
                ),
                (
                    "narrow_cd",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.0),
                            django.core.validators.MaxValueValidator(1000000000000.0),
                        ],
                        verbose_name="candela, narrowest",
                    ),
                ),
                (
                    "wide_cd",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.0),
                            django.core.validators.MaxValueValidator(1000000000000.0),
                        ],
                        verbose_name="candela, widest",
                    ),
                ),
                (
                    "cct_k",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(500.0),
                            django.core.validators.MaxValueValidator(50000.0),
                        ],
                        verbose_name="color temperature",
                    ),
                ),
                (
                    "house",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="units", to="venue.house"
                    ),
                ),
            ],
            options={
                "ordering": ("tag_key", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        fields=("house", "tag_key"),
                        name="unit_tag_unique",
                        violation_error_code="already_exists",
                        violation_error_message="The house has a unit of this tag already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("tag_key", ""), _negated=True),
                        name="unit_tag_not_empty",
                        violation_error_message="Write a tag.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("frame_1_end__in", ["lens", "lamp", ""])),
                        name="unit_frame_1_end_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("magazine__in", ["front", "between", ""])),
                        name="unit_magazine_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("watts__isnull", True),
                                models.Q(("watts__gte", 0.0), ("watts__lte", 1000000.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("frames__isnull", True),
                                models.Q(("frames__gte", 0), ("frames__lte", 50)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("narrow_deg__isnull", True),
                                models.Q(("narrow_deg__gte", 0.0), ("narrow_deg__lte", 179.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("wide_deg__isnull", True),
                                models.Q(("wide_deg__gte", 0.0), ("wide_deg__lte", 179.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("narrow_cd__isnull", True),
                                models.Q(("narrow_cd__gte", 0.0), ("narrow_cd__lte", 1000000000000.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("wide_cd__isnull", True),
                                models.Q(("wide_cd__gte", 0.0), ("wide_cd__lte", 1000000000000.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("cct_k__isnull", True),
                                models.Q(("cct_k__gte", 500.0), ("cct_k__lte", 50000.0)),
                                _connector="OR",
                            ),
                        ),
                        name="unit_numbers_in_range",
                        violation_error_message="A number is out of its range.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("narrow_deg__isnull", True),
                            ("wide_deg__isnull", True),
                            ("narrow_deg__lte", models.F("wide_deg")),
                            _connector="OR",
                        ),
                        name="unit_narrow_within_wide",
                        violation_error_message="The narrowest beam is no wider than the widest.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="unit_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Placement",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("starts_at", models.DateTimeField(verbose_name="from")),
                ("ends_at", models.DateTimeField(blank=True, null=True, verbose_name="until")),
                (
                    "place",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="placements", to="venue.place"
                    ),
                ),
                (
                    "unit",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="placements", to="venue.unit"
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
                        name="placement_ends_after_start",
                        violation_error_message="It ends before it starts. Write a later end.",
                    )
                ],
            },
        ),
    ]
