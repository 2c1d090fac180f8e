import uuid

import django.core.validators
import django.db.models.deletion
from django.db import migrations, models

import venue.fields
import venue.validators


class Migration(migrations.Migration):
    dependencies = [
        ("shows", "0005_numbers_by_hand"),
        ("venue", "0009_light_circuits_areas"),
    ]

    operations = [
        migrations.CreateModel(
            name="AdvanceItem",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("what", models.CharField(max_length=200, verbose_name="what is open")),
                (
                    "owed_by",
                    models.CharField(
                        choices=[("house", "the house"), ("tour", "the tour")], max_length=5, verbose_name="by whom"
                    ),
                ),
                ("due_on", models.DateField(blank=True, null=True, verbose_name="by when")),
                ("answer", models.CharField(blank=True, max_length=500, verbose_name="the answer")),
                ("done_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="done")),
                ("done_by", models.CharField(blank=True, editable=False, max_length=100, verbose_name="done by")),
                (
                    "engagement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="advance_items", to="shows.engagement"
                    ),
                ),
            ],
            options={
                "ordering": ("due_on", "pk"),
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("owed_by__in", ["house", "tour"])),
                        name="advance_item_owed_by_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("what", ""), _negated=True),
                        name="advance_item_says_what",
                        violation_error_message="Write what is open.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("done_at__isnull", True), ("done_by", "")),
                            models.Q(("done_at__isnull", False), models.Q(("done_by", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="advance_item_done_by_somebody",
                        violation_error_message="Write who did it.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="advance_item_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="CheckMark",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                (
                    "item",
                    models.CharField(
                        choices=[
                            ("label", "house label, and which end of the row this is"),
                            ("strike", "strike"),
                            ("douser", "douser closes fully"),
                            ("frames", "frames in order, the right color in each"),
                            ("headset", "headset, both ways, on its channel"),
                            ("iris", "iris, its whole travel"),
                            ("zoom", "zoom and edge"),
                            ("focus", "focus"),
                            ("level", "level against the others on one mark"),
                            ("sight", "sight"),
                            ("coverage", "coverage: upstage corner, forestage, aisles"),
                            ("access", "access, harness, way out, rescue"),
                        ],
                        max_length=8,
                        verbose_name="item",
                    ),
                ),
                (
                    "result",
                    models.CharField(
                        choices=[("pass", "passes"), ("fail", "fails"), ("open", "not checked")],
                        max_length=4,
                        verbose_name="result",
                    ),
                ),
                ("note", models.CharField(blank=True, max_length=300, verbose_name="note")),
                ("by", models.CharField(max_length=100, verbose_name="checked by")),
                ("at", models.DateTimeField(verbose_name="checked")),
                (
                    "engagement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="check_marks", to="shows.engagement"
                    ),
                ),
                (
                    "fault",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="check_marks",
                        to="venue.fault",
                    ),
                ),
                (
                    "place",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="check_marks", to="venue.place"
                    ),
                ),
            ],
            options={
                "ordering": ("at", "pk"),
                "indexes": [models.Index(fields=["engagement", "place", "item"], name="check_mark_by_item")],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            (
                                "item__in",
                                [
                                    "label",
                                    "strike",
                                    "douser",
                                    "frames",
                                    "headset",
                                    "iris",
                                    "zoom",
                                    "focus",
                                    "level",
                                    "sight",
                                    "coverage",
                                    "access",
                                ],
                            )
                        ),
                        name="check_mark_item_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("result__in", ["pass", "fail", "open"])),
                        name="check_mark_result_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("by", ""), _negated=True),
                        name="check_mark_by_somebody",
                        violation_error_message="Write your name.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("result", "fail"), _negated=True),
                            models.Q(("note", ""), _negated=True),
                            _connector="OR",
                        ),
                        name="check_mark_failure_says_what",
                        violation_error_message="Write what fails.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="CheckSignature",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                (
                    "side",
                    models.CharField(
                        choices=[("house", "for the house"), ("road", "for the road crew")],
                        max_length=5,
                        verbose_name="signs",
                    ),
                ),
                ("name", models.CharField(max_length=100, verbose_name="name")),
                ("at", models.DateTimeField(verbose_name="signed")),
                ("sha256", venue.fields.BinaryCharField(max_length=64)),
                (
                    "engagement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="check_signatures",
                        to="shows.engagement",
                    ),
                ),
            ],
            options={
                "ordering": ("at", "pk"),
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("side__in", ["house", "road"])),
                        name="check_signature_side_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("name", ""), _negated=True),
                        name="check_signature_named",
                        violation_error_message="Write your name.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Decision",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("code", models.CharField(max_length=40)),
                ("about", models.CharField(blank=True, max_length=200)),
                ("facts", venue.fields.BinaryCharField(max_length=64)),
                ("way", models.CharField(max_length=40, verbose_name="what is done")),
                ("reason", models.CharField(max_length=500, verbose_name="why")),
                ("decided_by", models.CharField(max_length=100, verbose_name="decided by")),
                ("decided_at", models.DateTimeField(verbose_name="decided")),
                (
                    "engagement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="decisions", to="shows.engagement"
                    ),
                ),
                (
                    "spot",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="decisions",
                        to="shows.showspot",
                    ),
                ),
            ],
            options={
                "ordering": ("-decided_at", "-pk"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True), ("spot__isnull", False)),
                        fields=("spot", "code", "about"),
                        name="decision_unique_on_spot",
                        violation_error_code="already_exists",
                        violation_error_message="Somebody decided this at the same moment. Look again.",
                    ),
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True), ("spot__isnull", True)),
                        fields=("engagement", "code", "about"),
                        name="decision_unique_on_show",
                        violation_error_code="already_exists",
                        violation_error_message="Somebody decided this at the same moment. Look again.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("decided_by", ""), _negated=True),
                            models.Q(("reason", ""), _negated=True),
                            models.Q(("way", ""), _negated=True),
                        ),
                        name="decision_by_somebody_for_a_reason",
                        violation_error_message="Write what is done, why, and who decides.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="decision_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="ShowColor",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("code", models.CharField(max_length=40, verbose_name="code")),
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
                ("is_diffusion", models.BooleanField(default=False, verbose_name="diffusion")),
                (
                    "engagement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="colors", to="shows.engagement"
                    ),
                ),
            ],
            options={
                "ordering": ("engagement", "code_key", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("engagement", "code_key"),
                        name="show_color_code_unique",
                        violation_error_code="already_exists",
                        violation_error_message="The show has a color of this code already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("code_key", ""), _negated=True),
                        name="show_color_code_not_empty",
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
                        name="show_color_numbers_in_range",
                        violation_error_message="A number is out of its range.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="show_color_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.AddField(
            model_name="engagement",
            name="caller",
            field=models.CharField(blank=True, max_length=120, verbose_name="who calls the spots, and from where"),
        ),
        migrations.AddField(
            model_name="engagement",
            name="frame_1_end",
            field=models.CharField(
                blank=True,
                choices=[("lens", "lens end"), ("lamp", "lamp end")],
                help_text="As the show counts its frames. Each unit has its own end on file.",
                max_length=4,
                verbose_name="its frame 1 is at",
            ),
        ),
        migrations.AddField(
            model_name="engagement",
            name="on_camera",
            field=models.BooleanField(blank=True, null=True, verbose_name="on camera"),
        ),
        migrations.AddField(
            model_name="showspot",
            name="full_blackout",
            field=models.BooleanField(blank=True, null=True, verbose_name="needs a full blackout"),
        ),
        migrations.AddField(
            model_name="showspot",
            name="gel_by",
            field=models.CharField(
                blank=True,
                choices=[("show", "the show"), ("house", "the house")],
                max_length=5,
                verbose_name="who brings the color",
            ),
        ),
        migrations.AddField(
            model_name="showspot",
            name="home",
            field=models.CharField(blank=True, max_length=200, verbose_name="home pick-up"),
        ),
        migrations.AddField(
            model_name="showspot",
            name="matches",
            field=models.CharField(blank=True, max_length=40, verbose_name="has to match show number"),
        ),
        migrations.AddField(
            model_name="showspot",
            name="on_camera",
            field=models.BooleanField(blank=True, null=True, verbose_name="on camera"),
        ),
        migrations.AddField(
            model_name="showspot",
            name="sizes",
            field=models.JSONField(blank=True, default=list, verbose_name="sizes"),
        ),
        migrations.AddField(
            model_name="showspot",
            name="strip_out",
            field=models.BooleanField(blank=True, null=True, verbose_name="needs a strip cut out by the shutters"),
        ),
        migrations.AddConstraint(
            model_name="engagement",
            constraint=models.CheckConstraint(
                condition=models.Q(("frame_1_end__in", ["lens", "lamp", ""])),
                name="engagement_frame_1_end_known",
                violation_error_message="Choose one of the values offered.",
            ),
        ),
        migrations.AddConstraint(
            model_name="showspot",
            constraint=models.CheckConstraint(
                condition=models.Q(("gel_by__in", ["show", "house", ""])),
                name="show_spot_gel_by_known",
                violation_error_message="Choose one of the values offered.",
            ),
        ),
    ]
