import uuid
from decimal import Decimal

import django.core.validators
import django.db.models.deletion
import django.utils.timezone
from django.db import migrations, models

import venue.fields
import venue.validators


class Migration(migrations.Migration):
    dependencies = [
        ("venue", "0006_facts_throws_and_walks"),
    ]

    operations = [
        migrations.CreateModel(
            name="CarePlan",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("what", models.CharField(max_length=120, verbose_name="what to do")),
                (
                    "covers",
                    models.CharField(
                        choices=[
                            ("unit", "one unit"),
                            ("source", "all units of one source"),
                            ("all", "all units"),
                            ("accessory", "something that is no unit"),
                        ],
                        max_length=10,
                        verbose_name="for",
                    ),
                ),
                ("source", models.CharField(blank=True, max_length=40, verbose_name="source")),
                ("accessory", models.CharField(blank=True, max_length=80, verbose_name="what, if it is no unit")),
                (
                    "every_h",
                    models.DecimalField(
                        blank=True,
                        decimal_places=2,
                        max_digits=9,
                        null=True,
                        validators=[django.core.validators.MinValueValidator(Decimal("1"))],
                        verbose_name="every so many lamp hours",
                    ),
                ),
                (
                    "every_days",
                    models.PositiveIntegerField(
                        blank=True,
                        null=True,
                        validators=[
                            django.core.validators.MinValueValidator(1),
                            django.core.validators.MaxValueValidator(3660),
                        ],
                        verbose_name="every so many days",
                    ),
                ),
                (
                    "log_kind",
                    models.CharField(
                        choices=[
                            ("clean", "clean"),
                            ("align", "align"),
                            ("relamp", "relamp"),
                            ("repair", "repair"),
                            ("inspect", "inspect"),
                            ("electrical-test", "electrical test"),
                            ("light-reading", "light reading"),
                            ("other", "something else"),
                        ],
                        default="inspect",
                        max_length=16,
                        verbose_name="goes into the log as",
                    ),
                ),
                (
                    "house",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="care_plans", to="venue.house"
                    ),
                ),
                (
                    "unit",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="care_plans",
                        to="venue.unit",
                    ),
                ),
            ],
            options={
                "ordering": ("what", "pk"),
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("covers__in", ["unit", "source", "all", "accessory"])),
                        name="care_plan_covers_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            (
                                "log_kind__in",
                                [
                                    "clean",
                                    "align",
                                    "relamp",
                                    "repair",
                                    "inspect",
                                    "electrical-test",
                                    "light-reading",
                                    "other",
                                ],
                            )
                        ),
                        name="care_plan_log_kind_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("every_h__isnull", False), ("every_days__isnull", False), _connector="OR"),
                        name="care_plan_hours_or_days",
                        violation_error_message="Write after how many lamp hours or days it is due.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("accessory", ""), ("covers", "unit"), ("source", ""), ("unit__isnull", False)),
                            models.Q(
                                ("accessory", ""),
                                ("covers", "source"),
                                ("unit__isnull", True),
                                models.Q(("source", ""), _negated=True),
                            ),
                            models.Q(("accessory", ""), ("covers", "all"), ("source", ""), ("unit__isnull", True)),
                            models.Q(
                                ("covers", "accessory"),
                                ("every_h__isnull", True),
                                ("source", ""),
                                ("unit__isnull", True),
                                models.Q(("accessory", ""), _negated=True),
                            ),
                            _connector="OR",
                        ),
                        name="care_plan_names_what_it_covers",
                        violation_error_message="Choose the unit or the source, or write what it is. Hours are for units.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="care_plan_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="HoursAdded",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("entered_at", models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ("entered_by", models.CharField(blank=True, editable=False, max_length=120)),
                ("struck_at", models.DateTimeField(editable=False, null=True)),
                ("struck_by", models.CharField(blank=True, editable=False, max_length=120)),
                ("struck_reason", models.CharField(blank=True, editable=False, max_length=200)),
                ("at", models.DateTimeField(verbose_name="until")),
                ("hours", models.DecimalField(decimal_places=2, max_digits=9, verbose_name="hours")),
                ("strikes", models.PositiveIntegerField(blank=True, null=True, verbose_name="strikes")),
                ("why", models.CharField(blank=True, max_length=200, verbose_name="from what")),
                (
                    "unit",
                    models.ForeignKey(
                        db_index=False,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="hours_added",
                        to="venue.unit",
                    ),
                ),
            ],
            options={
                "ordering": ("at", "pk"),
                "indexes": [models.Index(fields=["unit", "at"], name="hours_added_by_unit")],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("hours__gt", 0)),
                        name="hours_added_more_than_none",
                        violation_error_message="Write more than zero hours.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("struck_at__isnull", True), ("struck_reason", "")),
                            models.Q(("struck_at__isnull", False), models.Q(("struck_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="hours_added_struck_with_reason",
                        violation_error_message="Say why it is struck out.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="LampKind",
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
                ("source", models.CharField(blank=True, max_length=40, verbose_name="source")),
                (
                    "rated_h",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(1.0),
                            django.core.validators.MaxValueValidator(100000.0),
                        ],
                        verbose_name="rated hours",
                    ),
                ),
                (
                    "warn_at",
                    models.FloatField(
                        default=0.8,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.01),
                            django.core.validators.MaxValueValidator(2.0),
                        ],
                        verbose_name="warn at, share of the rated hours",
                    ),
                ),
                (
                    "stop_at",
                    models.FloatField(
                        default=1.0,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.01),
                            django.core.validators.MaxValueValidator(2.0),
                        ],
                        verbose_name="stop at, share of the rated hours",
                    ),
                ),
                (
                    "warm_up_min",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.0),
                            django.core.validators.MaxValueValidator(1440.0),
                        ],
                        verbose_name="warm-up",
                    ),
                ),
                (
                    "run_down_min",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.0),
                            django.core.validators.MaxValueValidator(1440.0),
                        ],
                        verbose_name="fan runs on",
                    ),
                ),
                (
                    "restrike_min",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.0),
                            django.core.validators.MaxValueValidator(1440.0),
                        ],
                        verbose_name="wait before striking again",
                    ),
                ),
                (
                    "opening_min",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.0),
                            django.core.validators.MaxValueValidator(1440.0),
                        ],
                        verbose_name="wait before opening",
                    ),
                ),
                (
                    "least_burn_min",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.0),
                            django.core.validators.MaxValueValidator(1440.0),
                        ],
                        verbose_name="burn at least",
                    ),
                ),
                (
                    "longest_burn_min",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.0),
                            django.core.validators.MaxValueValidator(1440.0),
                        ],
                        verbose_name="longest burn of one trim",
                    ),
                ),
                (
                    "spares",
                    models.PositiveIntegerField(
                        default=0,
                        validators=[django.core.validators.MaxValueValidator(10000)],
                        verbose_name="spares on the shelf without a serial on file",
                    ),
                ),
                (
                    "on_order",
                    models.PositiveIntegerField(
                        default=0, validators=[django.core.validators.MaxValueValidator(10000)], verbose_name="on order"
                    ),
                ),
                (
                    "lead_days",
                    models.PositiveIntegerField(
                        blank=True,
                        null=True,
                        validators=[django.core.validators.MaxValueValidator(1000)],
                        verbose_name="days from order to delivery",
                    ),
                ),
                (
                    "keep_at_least",
                    models.PositiveIntegerField(
                        blank=True,
                        null=True,
                        validators=[django.core.validators.MaxValueValidator(10000)],
                        verbose_name="keep at least",
                    ),
                ),
                (
                    "house",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="lamp_kinds", to="venue.house"
                    ),
                ),
            ],
            options={
                "ordering": ("name_key", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        fields=("house", "name_key"),
                        name="lamp_kind_unique",
                        violation_error_code="already_exists",
                        violation_error_message="The house has a lamp kind of this name already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("name_key", ""), _negated=True),
                        name="lamp_kind_name_not_empty",
                        violation_error_message="Write a name.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("rated_h__isnull", True),
                                models.Q(("rated_h__gte", 1.0), ("rated_h__lte", 100000.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("warn_at__isnull", True),
                                models.Q(("warn_at__gte", 0.01), ("warn_at__lte", 2.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("stop_at__isnull", True),
                                models.Q(("stop_at__gte", 0.01), ("stop_at__lte", 2.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("warm_up_min__isnull", True),
                                models.Q(("warm_up_min__gte", 0.0), ("warm_up_min__lte", 1440.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("run_down_min__isnull", True),
                                models.Q(("run_down_min__gte", 0.0), ("run_down_min__lte", 1440.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("restrike_min__isnull", True),
                                models.Q(("restrike_min__gte", 0.0), ("restrike_min__lte", 1440.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("opening_min__isnull", True),
                                models.Q(("opening_min__gte", 0.0), ("opening_min__lte", 1440.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("least_burn_min__isnull", True),
                                models.Q(("least_burn_min__gte", 0.0), ("least_burn_min__lte", 1440.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("longest_burn_min__isnull", True),
                                models.Q(("longest_burn_min__gte", 0.0), ("longest_burn_min__lte", 1440.0)),
                                _connector="OR",
                            ),
                        ),
                        name="lamp_kind_numbers_in_range",
                        violation_error_message="A number is out of its range.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("warn_at__lte", models.F("stop_at"))),
                        name="lamp_kind_warns_before_stop",
                        violation_error_message="The warning comes no later than the stop. Write a smaller share.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="lamp_kind_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Lamp",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("serial", models.CharField(max_length=80, verbose_name="serial")),
                ("serial_key", venue.fields.BinaryCharField(blank=True, editable=False, max_length=160)),
                (
                    "came_with_h",
                    models.DecimalField(
                        decimal_places=2, default=Decimal("0"), max_digits=9, verbose_name="hours that it came with"
                    ),
                ),
                ("came_with_strikes", models.PositiveIntegerField(default=0, verbose_name="strikes that it came with")),
                (
                    "house",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="lamps", to="venue.house"
                    ),
                ),
                (
                    "kind",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="lamps", to="venue.lampkind"
                    ),
                ),
            ],
            options={
                "ordering": ("serial_key", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        fields=("house", "serial_key"),
                        name="lamp_serial_unique",
                        violation_error_code="already_exists",
                        violation_error_message="The house has a lamp of this serial already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("serial_key", ""), _negated=True),
                        name="lamp_serial_not_empty",
                        violation_error_message="Write a serial.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("came_with_h__gte", 0)),
                        name="lamp_came_with_hours",
                        violation_error_message="Hours are never below zero.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="lamp_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="LampDecision",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("at", models.DateTimeField(verbose_name="decided")),
                ("by", models.CharField(max_length=120, verbose_name="decided by")),
                ("makers_source", models.CharField(max_length=300, verbose_name="what the maker says, and where")),
                ("reason", models.CharField(max_length=300, verbose_name="why")),
                (
                    "until_h",
                    models.DecimalField(
                        decimal_places=2,
                        max_digits=9,
                        validators=[django.core.validators.MinValueValidator(Decimal("0"))],
                        verbose_name="until lamp hours",
                    ),
                ),
                (
                    "lamp",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="decisions", to="venue.lamp"
                    ),
                ),
            ],
            options={
                "ordering": ("at", "pk"),
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("by", ""), _negated=True),
                            models.Q(("makers_source", ""), _negated=True),
                            models.Q(("reason", ""), _negated=True),
                        ),
                        name="lamp_decision_has_name_and_source",
                        violation_error_message="Write who decides, why, and where the maker says so.",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="Meter",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                (
                    "counts",
                    models.CharField(
                        choices=[("lamp", "hours of the lamp"), ("power", "hours of the power")],
                        default="lamp",
                        max_length=5,
                        verbose_name="counts",
                    ),
                ),
                ("starts_at", models.DateTimeField(verbose_name="from")),
                ("ends_at", models.DateTimeField(blank=True, null=True, verbose_name="until")),
                (
                    "starts_h",
                    models.DecimalField(
                        decimal_places=2, default=Decimal("0"), max_digits=9, verbose_name="shows at the start"
                    ),
                ),
                ("note", models.CharField(blank=True, max_length=200, verbose_name="why it was put there")),
                (
                    "unit",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="meters", to="venue.unit"
                    ),
                ),
            ],
            options={
                "ordering": ("starts_at", "pk"),
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("counts__in", ["lamp", "power"])),
                        name="meter_counts_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("ends_at__isnull", True), ("ends_at__gte", models.F("starts_at")), _connector="OR"
                        ),
                        name="meter_ends_after_start",
                        violation_error_message="It ends before it starts. Write a later end.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("starts_h__gte", 0)),
                        name="meter_starts_at_zero_or_more",
                        violation_error_message="Hours are never below zero.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Reading",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("entered_at", models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ("entered_by", models.CharField(blank=True, editable=False, max_length=120)),
                ("struck_at", models.DateTimeField(editable=False, null=True)),
                ("struck_by", models.CharField(blank=True, editable=False, max_length=120)),
                ("struck_reason", models.CharField(blank=True, editable=False, max_length=200)),
                ("at", models.DateTimeField(verbose_name="read at")),
                ("hours", models.DecimalField(decimal_places=2, max_digits=9, verbose_name="meter shows")),
                ("strikes", models.PositiveIntegerField(blank=True, null=True, verbose_name="strikes so far")),
                (
                    "cause",
                    models.CharField(
                        choices=[
                            ("booth", "from the booth"),
                            ("form", "typed in"),
                            ("file", "from a file"),
                            ("fitting", "at a relamp"),
                            ("meter", "as the meter was replaced"),
                        ],
                        default="form",
                        max_length=8,
                    ),
                ),
                (
                    "meter",
                    models.ForeignKey(
                        db_index=False,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="readings",
                        to="venue.meter",
                    ),
                ),
            ],
            options={
                "ordering": ("at", "pk"),
                "indexes": [models.Index(fields=["meter", "-at"], name="reading_by_meter")],
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("struck_at__isnull", True)),
                        fields=("meter", "at"),
                        name="reading_once_an_instant",
                        violation_error_code="already_exists",
                        violation_error_message="The meter was read at this time already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("cause__in", ["booth", "form", "file", "fitting", "meter"])),
                        name="reading_cause_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("hours__gte", 0)),
                        name="reading_zero_or_more",
                        violation_error_message="Hours are never below zero.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("struck_at__isnull", True), ("struck_reason", "")),
                            models.Q(("struck_at__isnull", False), models.Q(("struck_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="reading_struck_with_reason",
                        violation_error_message="Say why it is struck out.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Fitting",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("from_at", models.DateTimeField(verbose_name="fitted")),
                ("until_at", models.DateTimeField(blank=True, null=True, verbose_name="taken out")),
                ("reason", models.CharField(blank=True, max_length=200, verbose_name="why it was fitted")),
                ("out_reason", models.CharField(blank=True, max_length=200, verbose_name="why it was taken out")),
                (
                    "fate",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("shelf", "back on the shelf"),
                            ("spent", "spent: put into its closed sleeve for disposal"),
                            ("broken", "broken or burst"),
                            ("returned", "sent back to its maker"),
                        ],
                        max_length=10,
                        verbose_name="what became of it",
                    ),
                ),
                (
                    "unit",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="fittings", to="venue.unit"
                    ),
                ),
                (
                    "lamp",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="fittings", to="venue.lamp"
                    ),
                ),
                (
                    "from_reading",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="venue.reading",
                    ),
                ),
                (
                    "until_reading",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to="venue.reading",
                    ),
                ),
            ],
            options={
                "ordering": ("from_at", "pk"),
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            ("until_at__isnull", True), ("until_at__gte", models.F("from_at")), _connector="OR"
                        ),
                        name="fitting_ends_after_start",
                        violation_error_message="It is taken out before it was fitted. Write a later time.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("fate__in", ["shelf", "spent", "broken", "returned", ""])),
                        name="fitting_fate_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("until_at__isnull", False),
                            models.Q(("fate", ""), ("out_reason", ""), ("until_reading__isnull", True)),
                            _connector="OR",
                        ),
                        name="fitting_out_all_or_none",
                        violation_error_message="Say when it was taken out.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="LogEntry",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("entered_at", models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ("entered_by", models.CharField(blank=True, editable=False, max_length=120)),
                ("struck_at", models.DateTimeField(editable=False, null=True)),
                ("struck_by", models.CharField(blank=True, editable=False, max_length=120)),
                ("struck_reason", models.CharField(blank=True, editable=False, max_length=200)),
                ("accessory", models.CharField(blank=True, max_length=80, verbose_name="what, if it is no unit")),
                ("at", models.DateTimeField(verbose_name="done")),
                (
                    "kind",
                    models.CharField(
                        choices=[
                            ("clean", "clean"),
                            ("align", "align"),
                            ("relamp", "relamp"),
                            ("repair", "repair"),
                            ("inspect", "inspect"),
                            ("electrical-test", "electrical test"),
                            ("light-reading", "light reading"),
                            ("other", "something else"),
                        ],
                        max_length=16,
                        verbose_name="what was done",
                    ),
                ),
                ("by", models.CharField(blank=True, max_length=120, verbose_name="by")),
                ("text", models.CharField(blank=True, max_length=2000, verbose_name="in words")),
                (
                    "meter_h",
                    models.DecimalField(
                        blank=True, decimal_places=2, max_digits=9, null=True, verbose_name="meter showed"
                    ),
                ),
                ("parts", models.CharField(blank=True, max_length=300, verbose_name="parts")),
                (
                    "before_lux",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.0),
                            django.core.validators.MaxValueValidator(10000000.0),
                        ],
                        verbose_name="light before",
                    ),
                ),
                (
                    "after_lux",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.0),
                            django.core.validators.MaxValueValidator(10000000.0),
                        ],
                        verbose_name="light after",
                    ),
                ),
                ("is_open", models.BooleanField(default=False, editable=False)),
                ("is_isolated", models.BooleanField(blank=True, null=True, verbose_name="the supply was isolated")),
                ("is_cooled", models.BooleanField(blank=True, null=True, verbose_name="the lamp house was cool")),
                (
                    "is_protected",
                    models.BooleanField(blank=True, null=True, verbose_name="face, hands and body were protected"),
                ),
                ("is_aligned", models.BooleanField(blank=True, null=True, verbose_name="the new lamp is aligned")),
                (
                    "fitting",
                    models.ForeignKey(
                        editable=False,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="log",
                        to="venue.fitting",
                    ),
                ),
                (
                    "house",
                    models.ForeignKey(
                        db_index=False,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="log",
                        to="venue.house",
                    ),
                ),
                (
                    "unit",
                    models.ForeignKey(
                        blank=True,
                        db_index=False,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="log",
                        to="venue.unit",
                    ),
                ),
            ],
            options={
                "ordering": ("at", "pk"),
                "indexes": [
                    models.Index(fields=["house", "at"], name="log_by_house"),
                    models.Index(fields=["unit", "at"], name="log_by_unit"),
                    models.Index(condition=models.Q(("is_open", True)), fields=["house"], name="log_open"),
                ],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            (
                                "kind__in",
                                [
                                    "clean",
                                    "align",
                                    "relamp",
                                    "repair",
                                    "inspect",
                                    "electrical-test",
                                    "light-reading",
                                    "other",
                                ],
                            )
                        ),
                        name="log_kind_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("accessory", ""), ("unit__isnull", False)),
                            models.Q(("unit__isnull", True), models.Q(("accessory", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="log_about_a_unit_or_an_accessory",
                        violation_error_message="Choose a unit, or write what it was if it was no unit.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("is_open", False), ("kind", "relamp"), _connector="OR"),
                        name="log_only_a_relamp_stays_open",
                        violation_error_message="Only a relamp waits for answers.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("before_lux__isnull", True),
                                models.Q(("before_lux__gte", 0.0), ("before_lux__lte", 10000000.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("after_lux__isnull", True),
                                models.Q(("after_lux__gte", 0.0), ("after_lux__lte", 10000000.0)),
                                _connector="OR",
                            ),
                        ),
                        name="log_light_in_range",
                        violation_error_message="A number is out of its range.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("struck_at__isnull", True), ("struck_reason", "")),
                            models.Q(("struck_at__isnull", False), models.Q(("struck_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="log_struck_with_reason",
                        violation_error_message="Say why it is struck out.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Attachment",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("name", models.CharField(max_length=120)),
                ("content_type", models.CharField(max_length=40)),
                ("size", models.PositiveIntegerField(validators=[django.core.validators.MaxValueValidator(5242880)])),
                ("content", models.BinaryField()),
                ("added_at", models.DateTimeField(default=django.utils.timezone.now)),
                ("added_by", models.CharField(blank=True, max_length=120)),
                (
                    "entry",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="attachments", to="venue.logentry"
                    ),
                ),
            ],
            options={
                "ordering": ("added_at", "pk"),
            },
        ),
        migrations.CreateModel(
            name="CareItem",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("last_done_at", models.DateTimeField(null=True)),
                (
                    "last_done_h",
                    models.DecimalField(
                        decimal_places=2, max_digits=9, null=True, verbose_name="unit hours when last done"
                    ),
                ),
                ("due_on", models.DateField(null=True)),
                (
                    "due_h",
                    models.DecimalField(decimal_places=2, max_digits=9, null=True, verbose_name="due at unit hours"),
                ),
                ("ended_at", models.DateTimeField(null=True)),
                (
                    "house",
                    models.ForeignKey(
                        db_index=False, on_delete=django.db.models.deletion.PROTECT, related_name="+", to="venue.house"
                    ),
                ),
                (
                    "unit",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="care_items",
                        to="venue.unit",
                    ),
                ),
                (
                    "plan",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="items", to="venue.careplan"
                    ),
                ),
                (
                    "entry",
                    models.ForeignKey(
                        editable=False,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="care_items",
                        to="venue.logentry",
                    ),
                ),
            ],
            options={
                "ordering": ("due_on", "pk"),
                "indexes": [
                    models.Index(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=["house", "due_on"],
                        name="care_item_by_due",
                    )
                ],
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("plan", "unit"),
                        name="care_item_once_a_unit",
                        violation_error_message="The plan has an item for this unit already.",
                    ),
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True), ("unit__isnull", True)),
                        fields=("plan",),
                        name="care_item_once_an_accessory",
                        violation_error_message="The plan has an item for this already.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Fault",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("part", models.CharField(blank=True, max_length=80, verbose_name="part")),
                (
                    "means",
                    models.CharField(
                        choices=[("usable", "usable, with a note"), ("limited", "limited"), ("out", "out of service")],
                        max_length=8,
                        verbose_name="for use it means",
                    ),
                ),
                (
                    "danger",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("interlock", "interlock bypassed"),
                            ("glass", "cracked heat or UV glass"),
                            ("ground", "no ground, or a frayed lead"),
                            ("cable", "safety cable missing"),
                            ("lamp", "lamp past its end of life"),
                        ],
                        max_length=10,
                        verbose_name="danger",
                    ),
                ),
                (
                    "limit_kind",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("frames", "frames out"),
                            ("blackout", "no full blackout"),
                            ("iris", "fixed iris"),
                            ("camera", "not on camera"),
                            ("shutters", "shutters taped"),
                            ("other", "something else"),
                        ],
                        max_length=10,
                        verbose_name="the limit",
                    ),
                ),
                ("frames_out", models.CharField(blank=True, max_length=60, verbose_name="frames that are out")),
                ("limit", models.CharField(blank=True, max_length=2000, verbose_name="the limit in words")),
                ("opened_at", models.DateTimeField(verbose_name="seen")),
                ("opened_by", models.CharField(blank=True, max_length=120, verbose_name="seen by")),
                ("closed_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="closed")),
                ("closed_by", models.CharField(blank=True, editable=False, max_length=120, verbose_name="closed by")),
                (
                    "unit",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="faults", to="venue.unit"
                    ),
                ),
                (
                    "closing",
                    models.ForeignKey(
                        blank=True,
                        editable=False,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="closes",
                        to="venue.logentry",
                    ),
                ),
            ],
            options={
                "ordering": ("opened_at", "pk"),
                "indexes": [
                    models.Index(
                        condition=models.Q(("closed_at__isnull", True)), fields=["unit"], name="fault_standing"
                    )
                ],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("means__in", ["usable", "limited", "out"])),
                        name="fault_means_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("danger__in", ["interlock", "glass", "ground", "cable", "lamp", ""])),
                        name="fault_danger_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("limit_kind__in", ["frames", "blackout", "iris", "camera", "shutters", "other", ""])
                        ),
                        name="fault_limit_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("danger", ""), ("means", "out"), _connector="OR"),
                        name="fault_danger_is_out",
                        violation_error_message="With this danger the unit is out of service.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("means", "limited"), _negated=True),
                            models.Q(("limit_kind", ""), _negated=True),
                            models.Q(("limit", ""), _negated=True),
                            _connector="OR",
                        ),
                        name="fault_limited_says_how",
                        violation_error_message="Say what the unit can't do.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("danger", ""),
                            ("closed_at__isnull", True),
                            models.Q(("closed_by", ""), _negated=True),
                            _connector="OR",
                        ),
                        name="fault_danger_closed_by_name",
                        violation_error_message="Write who closes it: a danger is closed by a named person.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("closed_at__isnull", True), ("closed_at__gte", models.F("opened_at")), _connector="OR"
                        ),
                        name="fault_closes_after_it_opens",
                        violation_error_message="It is closed before it was seen. Write a later time.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="LightReading",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("entered_at", models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ("entered_by", models.CharField(blank=True, editable=False, max_length=120)),
                ("struck_at", models.DateTimeField(editable=False, null=True)),
                ("struck_by", models.CharField(blank=True, editable=False, max_length=120)),
                ("struck_reason", models.CharField(blank=True, editable=False, max_length=200)),
                ("at", models.DateTimeField(verbose_name="measured")),
                (
                    "lux",
                    models.FloatField(
                        default=0.0,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.0),
                            django.core.validators.MaxValueValidator(10000000.0),
                        ],
                        verbose_name="light",
                    ),
                ),
                (
                    "distance_m",
                    models.FloatField(
                        default=1.0,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.1),
                            django.core.validators.MaxValueValidator(500.0),
                        ],
                        verbose_name="at a distance of",
                    ),
                ),
                ("distance_text", models.CharField(blank=True, max_length=40, verbose_name="distance as typed")),
                (
                    "setting",
                    models.CharField(
                        help_text="Iris open, flat field, no color: the same each time.",
                        max_length=80,
                        verbose_name="setting",
                    ),
                ),
                ("setting_key", venue.fields.BinaryCharField(blank=True, editable=False, max_length=160)),
                (
                    "unit",
                    models.ForeignKey(
                        db_index=False,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="light_readings",
                        to="venue.unit",
                    ),
                ),
                (
                    "entry",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="light_readings",
                        to="venue.logentry",
                    ),
                ),
            ],
            options={
                "ordering": ("at", "pk"),
                "indexes": [
                    models.Index(fields=["unit", "at"], name="light_reading_by_unit"),
                    models.Index(fields=["setting_key", "at"], name="light_reading_by_setting"),
                ],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("lux__isnull", True),
                                models.Q(("lux__gte", 0.0), ("lux__lte", 10000000.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("distance_m__isnull", True),
                                models.Q(("distance_m__gte", 0.1), ("distance_m__lte", 500.0)),
                                _connector="OR",
                            ),
                        ),
                        name="light_reading_in_range",
                        violation_error_message="A number is out of its range.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("struck_at__isnull", True), ("struck_reason", "")),
                            models.Q(("struck_at__isnull", False), models.Q(("struck_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="light_reading_struck_with_reason",
                        violation_error_message="Say why it is struck out.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="UnitTally",
            fields=[
                (
                    "unit",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT,
                        primary_key=True,
                        related_name="tally",
                        serialize=False,
                        to="venue.unit",
                    ),
                ),
                ("hours", models.DecimalField(decimal_places=2, max_digits=9, verbose_name="unit hours")),
                ("strikes", models.PositiveIntegerField(null=True)),
                ("meter_h", models.DecimalField(decimal_places=2, max_digits=9, null=True, verbose_name="meter shows")),
                ("counted_to", models.DateTimeField(null=True)),
                (
                    "house",
                    models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name="+", to="venue.house"),
                ),
            ],
        ),
        migrations.AddField(
            model_name="house",
            name="burn_before_min",
            field=models.PositiveSmallIntegerField(
                default=30,
                validators=[django.core.validators.MinValueValidator(0), django.core.validators.MaxValueValidator(600)],
                verbose_name="lamps burn from so many minutes before an event",
            ),
        ),
        migrations.AddField(
            model_name="house",
            name="use_window_days",
            field=models.PositiveSmallIntegerField(
                default=28,
                validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(366)],
                verbose_name="past days that tell the usual use",
            ),
        ),
        migrations.AddField(
            model_name="house",
            name="usual_event_min",
            field=models.PositiveSmallIntegerField(
                default=180,
                validators=[
                    django.core.validators.MinValueValidator(1),
                    django.core.validators.MaxValueValidator(1440),
                ],
                verbose_name="minutes of an event whose end is not on file",
            ),
        ),
        migrations.AddField(
            model_name="placement",
            name="elsewhere",
            field=models.CharField(
                blank=True,
                choices=[("shop", "in the shop"), ("store", "in the store"), ("lent", "lent out")],
                max_length=5,
                verbose_name="elsewhere",
            ),
        ),
        migrations.AddField(
            model_name="placement",
            name="elsewhere_words",
            field=models.CharField(blank=True, max_length=120, verbose_name="where, with whom"),
        ),
        migrations.AddField(
            model_name="unit",
            name="back_on",
            field=models.DateField(blank=True, null=True, verbose_name="goes back on"),
        ),
        migrations.AddField(
            model_name="unit",
            name="hired_from",
            field=models.CharField(
                blank=True, help_text="Blank: the house's own.", max_length=120, verbose_name="hired or borrowed from"
            ),
        ),
        migrations.AlterField(
            model_name="placement",
            name="place",
            field=models.ForeignKey(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.PROTECT,
                related_name="placements",
                to="venue.place",
            ),
        ),
        migrations.AddIndex(
            model_name="placement",
            index=models.Index(
                condition=models.Q(("place__isnull", True)), fields=["ends_at"], name="placement_elsewhere_by_end"
            ),
        ),
        migrations.AddIndex(
            model_name="unit",
            index=models.Index(
                condition=models.Q(("back_on__isnull", False), ("ended_at__isnull", True)),
                fields=["house", "back_on"],
                name="unit_going_back",
            ),
        ),
        migrations.AddConstraint(
            model_name="placement",
            constraint=models.CheckConstraint(
                condition=models.Q(("elsewhere__in", ["shop", "store", "lent", ""])),
                name="placement_elsewhere_known",
                violation_error_message="Choose one of the values offered.",
            ),
        ),
        migrations.AddConstraint(
            model_name="placement",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("elsewhere", ""), ("elsewhere_words", ""), ("place__isnull", False)),
                    models.Q(("place__isnull", True), models.Q(("elsewhere", ""), _negated=True)),
                    _connector="OR",
                ),
                name="placement_at_a_place_or_elsewhere",
                violation_error_message="Choose a place, or where else the unit is.",
            ),
        ),
        migrations.CreateModel(
            name="LampTally",
            fields=[
                (
                    "lamp",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT,
                        primary_key=True,
                        related_name="tally",
                        serialize=False,
                        to="venue.lamp",
                    ),
                ),
                ("hours", models.DecimalField(decimal_places=2, max_digits=9, verbose_name="lamp hours")),
                ("strikes", models.PositiveIntegerField(null=True)),
                ("left_h", models.DecimalField(decimal_places=2, max_digits=9, null=True, verbose_name="hours left")),
                ("counted_to", models.DateTimeField(null=True)),
                (
                    "house",
                    models.ForeignKey(
                        db_index=False, on_delete=django.db.models.deletion.PROTECT, related_name="+", to="venue.house"
                    ),
                ),
                (
                    "unit",
                    models.ForeignKey(
                        null=True, on_delete=django.db.models.deletion.PROTECT, related_name="+", to="venue.unit"
                    ),
                ),
            ],
            options={
                "indexes": [
                    models.Index(
                        condition=models.Q(("unit__isnull", False)),
                        fields=["house", "left_h"],
                        name="lamp_tally_by_left",
                    )
                ],
            },
        ),
    ]
