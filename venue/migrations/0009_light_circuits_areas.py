import uuid

import django.core.validators
import django.db.models.deletion
from django.db import migrations, models

import venue.fields
import venue.validators


class Migration(migrations.Migration):
    dependencies = [
        ("venue", "0008_guards_of_lamps_and_meters"),
    ]

    operations = [
        migrations.CreateModel(
            name="Area",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("corners", models.JSONField(blank=True, default=list, verbose_name="corners")),
                ("corners_text", models.TextField(blank=True, max_length=4000, verbose_name="corners as typed")),
                ("name", models.CharField(max_length=60, verbose_name="name")),
                ("name_key", venue.fields.BinaryCharField(blank=True, editable=False, max_length=120)),
                (
                    "kind",
                    models.CharField(
                        choices=[
                            ("stage", "part of the stage"),
                            ("pit", "pit"),
                            ("aisle", "aisle"),
                            ("house", "part of the house"),
                        ],
                        default="house",
                        max_length=5,
                        verbose_name="what it is",
                    ),
                ),
                (
                    "setup",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="areas", to="venue.setup"
                    ),
                ),
            ],
            options={
                "ordering": ("name_key", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("setup", "name_key"),
                        name="area_name_unique",
                        violation_error_code="already_exists",
                        violation_error_message="The set-up has an area of this name already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("name_key", ""), _negated=True),
                        name="area_name_not_empty",
                        violation_error_message="Write a name.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("kind__in", ["stage", "pit", "aisle", "house"])),
                        name="area_kind_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="area_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Blockage",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("corners", models.JSONField(blank=True, default=list, verbose_name="corners")),
                ("corners_text", models.TextField(blank=True, max_length=4000, verbose_name="corners as typed")),
                ("name", models.CharField(max_length=120, verbose_name="what is in the way")),
                (
                    "pan_from_deg",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(-360.0),
                            django.core.validators.MaxValueValidator(360.0),
                        ],
                        verbose_name="pan from",
                    ),
                ),
                (
                    "pan_to_deg",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(-360.0),
                            django.core.validators.MaxValueValidator(360.0),
                        ],
                        verbose_name="pan to",
                    ),
                ),
                ("noted_on", models.DateField(blank=True, null=True, verbose_name="noted on")),
                ("only_for", models.UUIDField(blank=True, editable=False, null=True)),
                (
                    "place",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="blockages",
                        to="venue.place",
                    ),
                ),
                (
                    "position",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="blockages", to="venue.position"
                    ),
                ),
            ],
            options={
                "ordering": ("pk",),
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("name", ""), _negated=True),
                        name="blockage_named",
                        violation_error_message="Write what is in the way.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("pan_from_deg__isnull", True), ("pan_to_deg__isnull", True)),
                            models.Q(("pan_from_deg__isnull", False), ("pan_to_deg__isnull", False)),
                            _connector="OR",
                        ),
                        name="blockage_pans_together",
                        violation_error_message="Write both pans, from and to, or neither.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("pan_from_deg__isnull", True),
                                models.Q(("pan_from_deg__gte", -360.0), ("pan_from_deg__lte", 360.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("pan_to_deg__isnull", True),
                                models.Q(("pan_to_deg__gte", -360.0), ("pan_to_deg__lte", 360.0)),
                                _connector="OR",
                            ),
                        ),
                        name="blockage_numbers_in_range",
                        violation_error_message="A number is out of its range.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="blockage_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Circuit",
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
                    "name",
                    models.CharField(help_text="As it is marked on the panel.", max_length=60, verbose_name="name"),
                ),
                ("name_key", venue.fields.BinaryCharField(blank=True, editable=False, max_length=120)),
                (
                    "volts",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(12.0),
                            django.core.validators.MaxValueValidator(600.0),
                        ],
                        verbose_name="volts",
                    ),
                ),
                (
                    "rating_a",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.5),
                            django.core.validators.MaxValueValidator(400.0),
                        ],
                        verbose_name="rating, amperes",
                    ),
                ),
                (
                    "other_a",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.0),
                            django.core.validators.MaxValueValidator(400.0),
                        ],
                        verbose_name="what else draws on it, amperes",
                    ),
                ),
                (
                    "house",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="circuits", to="venue.house"
                    ),
                ),
            ],
            options={
                "ordering": ("name_key", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("house", "name_key"),
                        name="circuit_name_unique",
                        violation_error_code="already_exists",
                        violation_error_message="The house has a circuit of this name already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("name_key", ""), _negated=True),
                        name="circuit_name_not_empty",
                        violation_error_message="Write a name.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("volts__isnull", True),
                                models.Q(("volts__gte", 12.0), ("volts__lte", 600.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("rating_a__isnull", True),
                                models.Q(("rating_a__gte", 0.5), ("rating_a__lte", 400.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("other_a__isnull", True),
                                models.Q(("other_a__gte", 0.0), ("other_a__lte", 400.0)),
                                _connector="OR",
                            ),
                        ),
                        name="circuit_numbers_in_range",
                        violation_error_message="A number is out of its range.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="circuit_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="ColorFilter",
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
                    "code",
                    models.CharField(help_text="As it is written on the frame.", max_length=40, verbose_name="code"),
                ),
                ("code_key", venue.fields.BinaryCharField(blank=True, editable=False, max_length=80)),
                ("name", models.CharField(blank=True, max_length=80, verbose_name="name")),
                (
                    "transmission_pct",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.0),
                            django.core.validators.MaxValueValidator(100.0),
                        ],
                        verbose_name="light that passes, percent",
                    ),
                ),
                (
                    "shift_mired",
                    models.FloatField(
                        blank=True,
                        help_text="Positive is warmer, negative is cooler.",
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(-1000.0),
                            django.core.validators.MaxValueValidator(1000.0),
                        ],
                        verbose_name="shift in mired",
                    ),
                ),
                (
                    "is_near_neutral",
                    models.BooleanField(blank=True, null=True, verbose_name="takes every color about alike"),
                ),
                ("is_diffusion", models.BooleanField(default=False, verbose_name="diffusion")),
                (
                    "house",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="color_filters", to="venue.house"
                    ),
                ),
            ],
            options={
                "ordering": ("code_key", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("house", "code_key"),
                        name="color_filter_code_unique",
                        violation_error_code="already_exists",
                        violation_error_message="The house has a filter of this code already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("code_key", ""), _negated=True),
                        name="color_filter_code_not_empty",
                        violation_error_message="Write a code.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("transmission_pct__isnull", True),
                                models.Q(("transmission_pct__gte", 0.0), ("transmission_pct__lte", 100.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("shift_mired__isnull", True),
                                models.Q(("shift_mired__gte", -1000.0), ("shift_mired__lte", 1000.0)),
                                _connector="OR",
                            ),
                        ),
                        name="color_filter_numbers_in_range",
                        violation_error_message="A number is out of its range.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="color_filter_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="PickUpSize",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                (
                    "size",
                    models.CharField(
                        choices=[
                            ("head", "head"),
                            ("head and shoulders", "head and shoulders"),
                            ("waist", "waist"),
                            ("knees", "knees"),
                            ("full body", "full body"),
                        ],
                        max_length=20,
                        verbose_name="size",
                    ),
                ),
                (
                    "diameter_m",
                    models.FloatField(
                        default=1.0,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.1),
                            django.core.validators.MaxValueValidator(20.0),
                        ],
                        verbose_name="diameter",
                    ),
                ),
                ("diameter_text", models.CharField(blank=True, max_length=40, verbose_name="diameter as typed")),
                (
                    "house",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="pick_up_sizes", to="venue.house"
                    ),
                ),
            ],
            options={
                "ordering": ("house", "diameter_m"),
                "constraints": [
                    models.UniqueConstraint(
                        fields=("house", "size"),
                        name="pick_up_size_unique",
                        violation_error_code="already_exists",
                        violation_error_message="The house has this size already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("size__in", ["head", "head and shoulders", "waist", "knees", "full body"])),
                        name="pick_up_size_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("diameter_m__isnull", True),
                            models.Q(("diameter_m__gte", 0.1), ("diameter_m__lte", 20.0)),
                            _connector="OR",
                        ),
                        name="pick_up_size_in_range",
                        violation_error_message="A number is out of its range.",
                    ),
                ],
            },
        ),
        migrations.RemoveConstraint(
            model_name="position",
            name="position_numbers_in_range",
        ),
        migrations.RemoveConstraint(
            model_name="unit",
            name="unit_numbers_in_range",
        ),
        migrations.AddField(
            model_name="house",
            name="tech_note",
            field=models.TextField(
                blank=True,
                help_text="Stands on the technical sheet. Name nobody here.",
                max_length=2000,
                verbose_name="what a tour should know",
            ),
        ),
        migrations.AddField(
            model_name="position",
            name="farthest_downstage_m",
            field=models.FloatField(
                blank=True,
                null=True,
                validators=[
                    venue.validators.validate_finite,
                    django.core.validators.MinValueValidator(-1000.0),
                    django.core.validators.MaxValueValidator(1000.0),
                ],
                verbose_name="sees downstage as far as",
            ),
        ),
        migrations.AddField(
            model_name="position",
            name="farthest_downstage_text",
            field=models.CharField(blank=True, max_length=40, verbose_name="downstage as typed"),
        ),
        migrations.AddField(
            model_name="position",
            name="farthest_upstage_m",
            field=models.FloatField(
                blank=True,
                null=True,
                validators=[
                    venue.validators.validate_finite,
                    django.core.validators.MinValueValidator(-1000.0),
                    django.core.validators.MaxValueValidator(1000.0),
                ],
                verbose_name="sees upstage as far as",
            ),
        ),
        migrations.AddField(
            model_name="position",
            name="farthest_upstage_text",
            field=models.CharField(blank=True, max_length=40, verbose_name="upstage as typed"),
        ),
        migrations.AddField(
            model_name="position",
            name="glass_loss_pct",
            field=models.FloatField(
                blank=True,
                null=True,
                validators=[
                    venue.validators.validate_finite,
                    django.core.validators.MinValueValidator(0.0),
                    django.core.validators.MaxValueValidator(60.0),
                ],
                verbose_name="light lost in the glass, measured, percent",
            ),
        ),
        migrations.AddField(
            model_name="position",
            name="needs",
            field=models.CharField(blank=True, max_length=300, verbose_name="what else is needed there"),
        ),
        migrations.AddField(
            model_name="position",
            name="other_load_kg",
            field=models.FloatField(
                blank=True,
                null=True,
                validators=[
                    venue.validators.validate_finite,
                    django.core.validators.MinValueValidator(0.0),
                    django.core.validators.MaxValueValidator(100000.0),
                ],
                verbose_name="what else stands or hangs there",
            ),
        ),
        migrations.AddField(
            model_name="position",
            name="pan_from_deg",
            field=models.FloatField(
                blank=True,
                null=True,
                validators=[
                    venue.validators.validate_finite,
                    django.core.validators.MinValueValidator(-360.0),
                    django.core.validators.MaxValueValidator(360.0),
                ],
                verbose_name="pans from",
            ),
        ),
        migrations.AddField(
            model_name="position",
            name="pan_to_deg",
            field=models.FloatField(
                blank=True,
                null=True,
                validators=[
                    venue.validators.validate_finite,
                    django.core.validators.MinValueValidator(-360.0),
                    django.core.validators.MaxValueValidator(360.0),
                ],
                verbose_name="pans to",
            ),
        ),
        migrations.AddField(
            model_name="position",
            name="seats_lost",
            field=models.PositiveSmallIntegerField(
                blank=True,
                null=True,
                validators=[django.core.validators.MaxValueValidator(10000)],
                verbose_name="seats lost to it",
            ),
        ),
        migrations.AddField(
            model_name="unit",
            name="angle_percent",
            field=models.PositiveSmallIntegerField(
                blank=True,
                choices=[(50, "50 % of the peak (beam angle)"), (10, "10 % of the peak (field angle)")],
                null=True,
                verbose_name="the angles end at",
            ),
        ),
        migrations.AddField(
            model_name="unit",
            name="far_field_m",
            field=models.FloatField(
                blank=True,
                null=True,
                validators=[
                    venue.validators.validate_finite,
                    django.core.validators.MinValueValidator(0.0),
                    django.core.validators.MaxValueValidator(305.0),
                ],
                verbose_name="shortest throw of the inverse square",
            ),
        ),
        migrations.AddField(
            model_name="unit",
            name="far_field_text",
            field=models.CharField(blank=True, max_length=40, verbose_name="that throw as typed"),
        ),
        migrations.AddField(
            model_name="unit",
            name="input_w",
            field=models.FloatField(
                blank=True,
                null=True,
                validators=[
                    venue.validators.validate_finite,
                    django.core.validators.MinValueValidator(0.0),
                    django.core.validators.MaxValueValidator(1000000.0),
                ],
                verbose_name="watts taken from the supply",
            ),
        ),
        migrations.AddField(
            model_name="unit",
            name="power_factor",
            field=models.FloatField(
                blank=True,
                null=True,
                validators=[
                    venue.validators.validate_finite,
                    django.core.validators.MinValueValidator(0.05),
                    django.core.validators.MaxValueValidator(1.0),
                ],
                verbose_name="power factor",
            ),
        ),
        migrations.AddField(
            model_name="unit",
            name="sized_by",
            field=models.CharField(
                blank=True, choices=[("zoom", "zoom"), ("iris", "iris")], max_length=4, verbose_name="sized by"
            ),
        ),
        migrations.AddField(
            model_name="unit",
            name="weight_kg",
            field=models.FloatField(
                blank=True,
                null=True,
                validators=[
                    venue.validators.validate_finite,
                    django.core.validators.MinValueValidator(1.0),
                    django.core.validators.MaxValueValidator(1000.0),
                ],
                verbose_name="weight, kilograms",
            ),
        ),
        migrations.AddConstraint(
            model_name="position",
            constraint=models.CheckConstraint(
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
                    models.Q(
                        ("access_min__isnull", True),
                        models.Q(("access_min__gte", 0), ("access_min__lte", 1440)),
                        _connector="OR",
                    ),
                    models.Q(
                        ("passage_m__isnull", True),
                        models.Q(("passage_m__gte", 0.0), ("passage_m__lte", 50.0)),
                        _connector="OR",
                    ),
                    models.Q(
                        ("load_limit_kg__isnull", True),
                        models.Q(("load_limit_kg__gte", 0.0), ("load_limit_kg__lte", 100000.0)),
                        _connector="OR",
                    ),
                    models.Q(
                        ("glass_loss_pct__isnull", True),
                        models.Q(("glass_loss_pct__gte", 0.0), ("glass_loss_pct__lte", 60.0)),
                        _connector="OR",
                    ),
                    models.Q(
                        ("other_load_kg__isnull", True),
                        models.Q(("other_load_kg__gte", 0.0), ("other_load_kg__lte", 100000.0)),
                        _connector="OR",
                    ),
                    models.Q(
                        ("seats_lost__isnull", True),
                        models.Q(("seats_lost__gte", 0), ("seats_lost__lte", 10000)),
                        _connector="OR",
                    ),
                    models.Q(
                        ("farthest_upstage_m__isnull", True),
                        models.Q(("farthest_upstage_m__gte", -1000.0), ("farthest_upstage_m__lte", 1000.0)),
                        _connector="OR",
                    ),
                    models.Q(
                        ("farthest_downstage_m__isnull", True),
                        models.Q(("farthest_downstage_m__gte", -1000.0), ("farthest_downstage_m__lte", 1000.0)),
                        _connector="OR",
                    ),
                    models.Q(
                        ("pan_from_deg__isnull", True),
                        models.Q(("pan_from_deg__gte", -360.0), ("pan_from_deg__lte", 360.0)),
                        _connector="OR",
                    ),
                    models.Q(
                        ("pan_to_deg__isnull", True),
                        models.Q(("pan_to_deg__gte", -360.0), ("pan_to_deg__lte", 360.0)),
                        _connector="OR",
                    ),
                ),
                name="position_numbers_in_range",
                violation_error_message="A number is out of its range.",
            ),
        ),
        migrations.AddConstraint(
            model_name="position",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("pan_from_deg__isnull", True), ("pan_to_deg__isnull", True)),
                    models.Q(("pan_from_deg__isnull", False), ("pan_to_deg__isnull", False)),
                    _connector="OR",
                ),
                name="position_pans_together",
                violation_error_message="Write both pans, from and to, or neither.",
            ),
        ),
        migrations.AddConstraint(
            model_name="position",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("farthest_upstage_m__isnull", True),
                    ("farthest_downstage_m__isnull", True),
                    ("farthest_downstage_m__lt", models.F("farthest_upstage_m")),
                    _connector="OR",
                ),
                name="position_sees_some_depth",
                violation_error_message="The farthest point downstage lies downstage of the farthest upstage.",
            ),
        ),
        migrations.AddConstraint(
            model_name="unit",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(
                        ("watts__isnull", True),
                        models.Q(("watts__gte", 0.0), ("watts__lte", 1000000.0)),
                        _connector="OR",
                    ),
                    models.Q(
                        ("frames__isnull", True), models.Q(("frames__gte", 0), ("frames__lte", 50)), _connector="OR"
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
                    models.Q(
                        ("far_field_m__isnull", True),
                        models.Q(("far_field_m__gte", 0.0), ("far_field_m__lte", 305.0)),
                        _connector="OR",
                    ),
                    models.Q(
                        ("weight_kg__isnull", True),
                        models.Q(("weight_kg__gte", 1.0), ("weight_kg__lte", 1000.0)),
                        _connector="OR",
                    ),
                    models.Q(
                        ("input_w__isnull", True),
                        models.Q(("input_w__gte", 0.0), ("input_w__lte", 1000000.0)),
                        _connector="OR",
                    ),
                    models.Q(
                        ("power_factor__isnull", True),
                        models.Q(("power_factor__gte", 0.05), ("power_factor__lte", 1.0)),
                        _connector="OR",
                    ),
                ),
                name="unit_numbers_in_range",
                violation_error_message="A number is out of its range.",
            ),
        ),
        migrations.AddConstraint(
            model_name="unit",
            constraint=models.CheckConstraint(
                condition=models.Q(("angle_percent__isnull", True), ("angle_percent__in", [50, 10]), _connector="OR"),
                name="unit_angle_percent_known",
                violation_error_message="Choose one of the values offered.",
            ),
        ),
        migrations.AddConstraint(
            model_name="unit",
            constraint=models.CheckConstraint(
                condition=models.Q(("sized_by__in", ["zoom", "iris", ""])),
                name="unit_sized_by_known",
                violation_error_message="Choose one of the values offered.",
            ),
        ),
        migrations.AddField(
            model_name="place",
            name="circuit",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.PROTECT,
                related_name="places",
                to="venue.circuit",
            ),
        ),
    ]
