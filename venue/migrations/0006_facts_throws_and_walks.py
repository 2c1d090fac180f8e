import uuid

import django.core.validators
import django.db.models.deletion
from django.db import migrations, models

import venue.validators


class Migration(migrations.Migration):
    dependencies = [
        ("venue", "0005_guards"),
    ]

    operations = [
        migrations.CreateModel(
            name="OrderWalk",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("label_seen", models.CharField(max_length=40, verbose_name="label seen")),
                ("walked_at", models.DateTimeField(verbose_name="walked")),
                ("walked_by", models.CharField(max_length=100, verbose_name="who stood there")),
                ("actor_name", models.CharField(max_length=120, verbose_name="who wrote it down")),
                (
                    "left_end",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="walks", to="venue.place"
                    ),
                ),
                (
                    "position",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="walks", to="venue.position"
                    ),
                ),
                (
                    "setup",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="walks", to="venue.setup"
                    ),
                ),
            ],
            options={
                "ordering": ("walked_at", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("setup", "position"),
                        name="order_walk_unique",
                        violation_error_code="already_exists",
                        violation_error_message="Somebody wrote down a walk of this position just now. Look at it first.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="order_walk_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.RemoveConstraint(
            model_name="place",
            name="place_numbers_in_range",
        ),
        migrations.RemoveConstraint(
            model_name="position",
            name="position_numbers_in_range",
        ),
        migrations.AddField(
            model_name="place",
            name="throw_end",
            field=models.CharField(
                blank=True,
                choices=[
                    ("lip", "the lip of the stage"),
                    ("curtain", "the curtain line"),
                    ("plaster", "the plaster line"),
                    ("center", "center stage"),
                    ("mark", "a mark of our own"),
                ],
                max_length=8,
                verbose_name="throw to",
            ),
        ),
        migrations.AddField(
            model_name="place",
            name="throw_end_text",
            field=models.CharField(blank=True, max_length=40, verbose_name="that point as typed"),
        ),
        migrations.AddField(
            model_name="place",
            name="throw_end_y_m",
            field=models.FloatField(
                blank=True,
                null=True,
                validators=[
                    venue.validators.validate_finite,
                    django.core.validators.MinValueValidator(-1000.0),
                    django.core.validators.MaxValueValidator(1000.0),
                ],
                verbose_name="that point, upstage of the plaster line",
            ),
        ),
        migrations.AddField(
            model_name="place",
            name="throw_m",
            field=models.FloatField(
                blank=True,
                null=True,
                validators=[
                    venue.validators.validate_finite,
                    django.core.validators.MinValueValidator(1.5),
                    django.core.validators.MaxValueValidator(305.0),
                ],
                verbose_name="throw",
            ),
        ),
        migrations.AddField(
            model_name="place",
            name="throw_mark",
            field=models.CharField(blank=True, max_length=60, verbose_name="the mark, in words"),
        ),
        migrations.AddField(
            model_name="place",
            name="throw_text",
            field=models.CharField(blank=True, max_length=40, verbose_name="throw as typed"),
        ),
        migrations.AddField(
            model_name="position",
            name="access",
            field=models.CharField(blank=True, max_length=300, verbose_name="how to get there"),
        ),
        migrations.AddField(
            model_name="position",
            name="access_min",
            field=models.PositiveSmallIntegerField(
                blank=True,
                null=True,
                validators=[django.core.validators.MaxValueValidator(1440)],
                verbose_name="minutes to get there",
            ),
        ),
        migrations.AddField(
            model_name="position",
            name="checked_by",
            field=models.CharField(blank=True, max_length=100, verbose_name="checked by"),
        ),
        migrations.AddField(
            model_name="position",
            name="checked_on",
            field=models.DateField(blank=True, null=True, verbose_name="checked on"),
        ),
        migrations.AddField(
            model_name="position",
            name="fall_protection",
            field=models.CharField(
                blank=True,
                choices=[
                    ("none", "none needed"),
                    ("restraint", "restraint: the edge can't be reached"),
                    ("harness", "full-body harness"),
                ],
                max_length=10,
                verbose_name="fall protection needed",
            ),
        ),
        migrations.AddField(
            model_name="position",
            name="glass",
            field=models.CharField(
                blank=True,
                choices=[("open", "open, no glass"), ("sliding", "sliding pane"), ("fixed", "fixed glass")],
                max_length=8,
                verbose_name="glass",
            ),
        ),
        migrations.AddField(
            model_name="position",
            name="intercom",
            field=models.CharField(blank=True, max_length=300, verbose_name="intercom"),
        ),
        migrations.AddField(
            model_name="position",
            name="load_limit_kg",
            field=models.FloatField(
                blank=True,
                null=True,
                validators=[
                    venue.validators.validate_finite,
                    django.core.validators.MinValueValidator(0.0),
                    django.core.validators.MaxValueValidator(100000.0),
                ],
                verbose_name="load limit",
            ),
        ),
        migrations.AddField(
            model_name="position",
            name="passage_m",
            field=models.FloatField(
                blank=True,
                null=True,
                validators=[
                    venue.validators.validate_finite,
                    django.core.validators.MinValueValidator(0.0),
                    django.core.validators.MaxValueValidator(50.0),
                ],
                verbose_name="narrowest passage on the way",
            ),
        ),
        migrations.AddField(
            model_name="position",
            name="passage_text",
            field=models.CharField(blank=True, max_length=40, verbose_name="passage as typed"),
        ),
        migrations.AddField(
            model_name="position",
            name="power",
            field=models.CharField(blank=True, max_length=300, verbose_name="power service"),
        ),
        migrations.AddField(
            model_name="position",
            name="power_switched_at",
            field=models.CharField(blank=True, max_length=300, verbose_name="where the power is switched off"),
        ),
        migrations.AddField(
            model_name="position",
            name="rescue_plan",
            field=models.TextField(blank=True, max_length=2000, verbose_name="rescue plan"),
        ),
        migrations.AddField(
            model_name="position",
            name="show_exit",
            field=models.CharField(
                blank=True,
                choices=[("yes", "yes"), ("no", "no")],
                max_length=3,
                verbose_name="a way out during the show",
            ),
        ),
        migrations.AddField(
            model_name="position",
            name="show_exit_words",
            field=models.CharField(blank=True, max_length=300, verbose_name="the way out, in words"),
        ),
        migrations.AddField(
            model_name="position",
            name="who_may_operate",
            field=models.CharField(
                blank=True,
                choices=[("house", "house staff only"), ("local", "local crew"), ("touring", "touring crew allowed")],
                max_length=8,
                verbose_name="who may operate here",
            ),
        ),
        migrations.AddField(
            model_name="setup",
            name="apron_text",
            field=models.CharField(blank=True, max_length=40, verbose_name="apron as typed"),
        ),
        migrations.AddField(
            model_name="setup",
            name="depth_text",
            field=models.CharField(blank=True, max_length=40, verbose_name="depth as typed"),
        ),
        migrations.AddField(
            model_name="setup",
            name="opening_text",
            field=models.CharField(blank=True, max_length=40, verbose_name="opening as typed"),
        ),
        migrations.AddField(
            model_name="setup",
            name="target_x_text",
            field=models.CharField(blank=True, max_length=40, verbose_name="target x as typed"),
        ),
        migrations.AddField(
            model_name="setup",
            name="target_y_text",
            field=models.CharField(blank=True, max_length=40, verbose_name="target y as typed"),
        ),
        migrations.AddField(
            model_name="setup",
            name="target_z_text",
            field=models.CharField(blank=True, max_length=40, verbose_name="target z as typed"),
        ),
        migrations.AddConstraint(
            model_name="place",
            constraint=models.CheckConstraint(
                condition=models.Q(("throw_end__in", ["lip", "curtain", "plaster", "center", "mark", ""])),
                name="place_throw_end_known",
                violation_error_message="Choose one of the values offered.",
            ),
        ),
        migrations.AddConstraint(
            model_name="place",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("throw_end", ""), ("throw_m__isnull", True)),
                    models.Q(("throw_m__isnull", False), models.Q(("throw_end", ""), _negated=True)),
                    _connector="OR",
                ),
                name="place_throw_with_its_end",
                violation_error_message="Say to which point the throw goes: a throw without it says nothing.",
            ),
        ),
        migrations.AddConstraint(
            model_name="place",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(
                        ("throw_m__isnull", True),
                        models.Q(("throw_m__gte", 1.5), ("throw_m__lte", 305.0)),
                        _connector="OR",
                    ),
                    models.Q(
                        ("throw_end_y_m__isnull", True),
                        models.Q(("throw_end_y_m__gte", -1000.0), ("throw_end_y_m__lte", 1000.0)),
                        _connector="OR",
                    ),
                    models.Q(
                        ("x_m__isnull", True), models.Q(("x_m__gte", -1000.0), ("x_m__lte", 1000.0)), _connector="OR"
                    ),
                    models.Q(
                        ("y_m__isnull", True), models.Q(("y_m__gte", -1000.0), ("y_m__lte", 1000.0)), _connector="OR"
                    ),
                    models.Q(
                        ("z_m__isnull", True), models.Q(("z_m__gte", -1000.0), ("z_m__lte", 1000.0)), _connector="OR"
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
        ),
        migrations.AddConstraint(
            model_name="position",
            constraint=models.CheckConstraint(
                condition=models.Q(("fall_protection__in", ["none", "restraint", "harness", ""])),
                name="position_fall_protection_known",
                violation_error_message="Choose one of the values offered.",
            ),
        ),
        migrations.AddConstraint(
            model_name="position",
            constraint=models.CheckConstraint(
                condition=models.Q(("glass__in", ["open", "sliding", "fixed", ""])),
                name="position_glass_known",
                violation_error_message="Choose one of the values offered.",
            ),
        ),
        migrations.AddConstraint(
            model_name="position",
            constraint=models.CheckConstraint(
                condition=models.Q(("show_exit__in", ["yes", "no", ""])),
                name="position_show_exit_known",
                violation_error_message="Choose one of the values offered.",
            ),
        ),
        migrations.AddConstraint(
            model_name="position",
            constraint=models.CheckConstraint(
                condition=models.Q(("who_may_operate__in", ["house", "local", "touring", ""])),
                name="position_who_may_operate_known",
                violation_error_message="Choose one of the values offered.",
            ),
        ),
        migrations.AddConstraint(
            model_name="position",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("checked_by", ""), ("checked_on__isnull", True)),
                    models.Q(("checked_on__isnull", False), models.Q(("checked_by", ""), _negated=True)),
                    _connector="OR",
                ),
                name="position_checked_on_and_by",
                violation_error_message="Write both when the position was checked and by whom, or neither.",
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
                ),
                name="position_numbers_in_range",
                violation_error_message="A number is out of its range.",
            ),
        ),
    ]
