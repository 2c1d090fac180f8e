import uuid

import django.core.validators
import django.db.models.deletion
from django.db import migrations, models

import venue.fields


class Migration(migrations.Migration):
    dependencies = [
        ("crew", "0006_confirmations_are_kept"),
        ("shows", "0007_arrival_is_kept"),
        ("venue", "0009_light_circuits_areas"),
    ]

    operations = [
        migrations.CreateModel(
            name="CallTemplate",
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
                    "event_kind",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("load-in", "load-in"),
                            ("focus", "focus"),
                            ("rehearsal", "rehearsal"),
                            ("show", "show"),
                            ("load-out", "load-out"),
                        ],
                        max_length=10,
                        verbose_name="for",
                    ),
                ),
                (
                    "call_before_min",
                    models.PositiveSmallIntegerField(
                        default=90,
                        validators=[django.core.validators.MaxValueValidator(1440)],
                        verbose_name="call, minutes before",
                    ),
                ),
                (
                    "talk_before_min",
                    models.PositiveSmallIntegerField(
                        blank=True,
                        null=True,
                        validators=[django.core.validators.MaxValueValidator(1440)],
                        verbose_name="spot talk, minutes before",
                    ),
                ),
                (
                    "ends_after_min",
                    models.PositiveSmallIntegerField(
                        default=30,
                        validators=[django.core.validators.MaxValueValidator(1440)],
                        verbose_name="released, minutes after its end",
                    ),
                ),
                (
                    "meal_after_min",
                    models.PositiveSmallIntegerField(
                        blank=True,
                        null=True,
                        validators=[django.core.validators.MaxValueValidator(1440)],
                        verbose_name="meal, minutes after the call",
                    ),
                ),
                ("place", models.CharField(blank=True, max_length=120, verbose_name="where to come")),
                ("talk_place", models.CharField(blank=True, max_length=120, verbose_name="where the spot talk is")),
                ("notes", models.CharField(blank=True, max_length=1000, verbose_name="notes for everybody")),
                (
                    "head_spots",
                    models.PositiveSmallIntegerField(
                        default=0, validators=[django.core.validators.MaxValueValidator(60)], verbose_name="head spots"
                    ),
                ),
                (
                    "spares",
                    models.PositiveSmallIntegerField(
                        default=0, validators=[django.core.validators.MaxValueValidator(60)], verbose_name="spares"
                    ),
                ),
                (
                    "runners",
                    models.PositiveSmallIntegerField(
                        default=0, validators=[django.core.validators.MaxValueValidator(60)], verbose_name="runners"
                    ),
                ),
                (
                    "roster",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="call_templates", to="crew.roster"
                    ),
                ),
            ],
            options={
                "ordering": ("name", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("roster", "name_key"),
                        name="call_template_unique",
                        violation_error_code="already_exists",
                        violation_error_message="The roster has a template of this name already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("name_key", ""), _negated=True),
                        name="call_template_name_not_empty",
                        violation_error_message="Write a name.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("event_kind__in", ["load-in", "focus", "rehearsal", "show", "load-out", ""])
                        ),
                        name="call_template_event_kind_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("call_before_min__isnull", True),
                                models.Q(("call_before_min__gte", 0), ("call_before_min__lte", 1440)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("talk_before_min__isnull", True),
                                models.Q(("talk_before_min__gte", 0), ("talk_before_min__lte", 1440)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("ends_after_min__isnull", True),
                                models.Q(("ends_after_min__gte", 0), ("ends_after_min__lte", 1440)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("meal_after_min__isnull", True),
                                models.Q(("meal_after_min__gte", 0), ("meal_after_min__lte", 1440)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("head_spots__isnull", True),
                                models.Q(("head_spots__gte", 0), ("head_spots__lte", 60)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("spares__isnull", True),
                                models.Q(("spares__gte", 0), ("spares__lte", 60)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("runners__isnull", True),
                                models.Q(("runners__gte", 0), ("runners__lte", 60)),
                                _connector="OR",
                            ),
                        ),
                        name="call_template_numbers_in_range",
                        violation_error_message="A number is out of its range.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("talk_before_min__isnull", True),
                            ("talk_before_min__lte", models.F("call_before_min")),
                            _connector="OR",
                        ),
                        name="call_template_talk_after_call",
                        violation_error_message="The spot talk is before the call. Write fewer minutes for it.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="call_template_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="CertificationKind",
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
                    "needed_for",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("climb", "positions with fall protection: climb and harness"),
                            ("lift", "positions on a lift or platform"),
                            ("arc-lamp", "units with an arc lamp"),
                            ("house", "every call in a house: its orientation"),
                        ],
                        max_length=8,
                        verbose_name="asked for by",
                    ),
                ),
                (
                    "is_required",
                    models.BooleanField(
                        default=False,
                        help_text="Otherwise dispatch is told who lacks it, and decides.",
                        verbose_name="nobody works there without it",
                    ),
                ),
                (
                    "roster",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="certification_kinds",
                        to="crew.roster",
                    ),
                ),
            ],
            options={
                "ordering": ("name", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("roster", "name_key"),
                        name="certification_kind_unique",
                        violation_error_code="already_exists",
                        violation_error_message="The roster has a certification of this name already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("name_key", ""), _negated=True),
                        name="certification_kind_name_not_empty",
                        violation_error_message="Write a name.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("needed_for__in", ["climb", "lift", "arc-lamp", "house", ""])),
                        name="certification_kind_needed_for_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="certification_kind_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Certification",
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
                    "expires_on",
                    models.DateField(
                        blank=True, help_text="Its last day; none: for good.", null=True, verbose_name="valid through"
                    ),
                ),
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
                    "person",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="certifications", to="crew.person"
                    ),
                ),
                (
                    "kind",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="certifications",
                        to="crew.certificationkind",
                    ),
                ),
            ],
            options={
                "ordering": ("person", "kind", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True), ("house__isnull", True)),
                        fields=("person", "kind"),
                        name="certification_unique",
                        violation_error_code="already_exists",
                        violation_error_message="This certification is on file already: change its last day.",
                    ),
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True), ("house__isnull", False)),
                        fields=("person", "kind", "house"),
                        name="certification_unique_in_house",
                        violation_error_code="already_exists",
                        violation_error_message="This certification is on file for the house already: change its last day.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="certification_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="DaysOff",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("first_day", models.DateField(verbose_name="first day off")),
                ("last_day", models.DateField(verbose_name="last day off")),
                ("words", models.CharField(blank=True, max_length=120, verbose_name="note")),
                (
                    "person",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="days_off", to="crew.person"
                    ),
                ),
            ],
            options={
                "ordering": ("first_day", "pk"),
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("last_day__gte", models.F("first_day"))),
                        name="days_off_end_after_start",
                        violation_error_message="The last day is before the first. Write a later one.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="days_off_end_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.AddField(
            model_name="call",
            name="ends_at",
            field=models.DateTimeField(editable=False, null=True),
        ),
        migrations.AddField(
            model_name="call",
            name="ends_date",
            field=models.DateField(null=True, verbose_name="day of the expected end"),
        ),
        migrations.AddField(
            model_name="call",
            name="ends_time",
            field=models.TimeField(null=True, verbose_name="expected end"),
        ),
        migrations.AddField(
            model_name="call",
            name="meal_at",
            field=models.DateTimeField(blank=True, editable=False, null=True),
        ),
        migrations.AddField(
            model_name="call",
            name="meal_date",
            field=models.DateField(blank=True, null=True, verbose_name="day of the meal"),
        ),
        migrations.AddField(
            model_name="call",
            name="meal_time",
            field=models.TimeField(blank=True, null=True, verbose_name="meal"),
        ),
        migrations.AddField(
            model_name="callline",
            name="ends_at",
            field=models.DateTimeField(editable=False, null=True),
        ),
        migrations.AddField(
            model_name="callline",
            name="follows",
            field=models.OneToOneField(
                blank=True,
                null=True,
                on_delete=django.db.models.deletion.PROTECT,
                related_name="followed_by",
                to="crew.callline",
            ),
        ),
        migrations.AddField(
            model_name="callline",
            name="own_at",
            field=models.DateTimeField(blank=True, editable=False, null=True),
        ),
        migrations.AddField(
            model_name="callline",
            name="own_date",
            field=models.DateField(blank=True, null=True, verbose_name="day of the own call"),
        ),
        migrations.AddField(
            model_name="callline",
            name="own_time",
            field=models.TimeField(blank=True, null=True, verbose_name="own call time"),
        ),
        migrations.AddField(
            model_name="callline",
            name="role",
            field=models.CharField(
                choices=[
                    ("operator", "spot operator"),
                    ("head", "head spot"),
                    ("spare", "spare"),
                    ("runner", "runner"),
                ],
                default="operator",
                max_length=8,
                verbose_name="as",
            ),
        ),
        migrations.AddField(
            model_name="callline",
            name="starts_at",
            field=models.DateTimeField(editable=False, null=True),
        ),
        migrations.AddField(
            model_name="person",
            name="email",
            field=models.EmailField(blank=True, max_length=200, verbose_name="e-mail"),
        ),
        migrations.AddField(
            model_name="person",
            name="experience",
            field=models.CharField(
                blank=True,
                choices=[("none", "none yet"), ("some", "some shows"), ("lead", "has led")],
                max_length=4,
                verbose_name="on follow spots",
            ),
        ),
        migrations.AddField(
            model_name="person",
            name="forgotten_at",
            field=models.DateTimeField(blank=True, editable=False, null=True, verbose_name="forgotten"),
        ),
        migrations.AddField(
            model_name="person",
            name="notes",
            field=models.CharField(blank=True, max_length=1000, verbose_name="notes"),
        ),
        migrations.AddField(
            model_name="person",
            name="phone",
            field=models.CharField(blank=True, max_length=40, verbose_name="phone"),
        ),
        migrations.AddField(
            model_name="person",
            name="seniority",
            field=models.PositiveIntegerField(
                blank=True,
                null=True,
                validators=[
                    django.core.validators.MinValueValidator(1),
                    django.core.validators.MaxValueValidator(100000),
                ],
                verbose_name="place on the list",
            ),
        ),
        migrations.AddField(
            model_name="person",
            name="skill",
            field=models.PositiveSmallIntegerField(
                blank=True,
                help_text="From 1, the best, to 9.",
                null=True,
                validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(9)],
                verbose_name="grade",
            ),
        ),
        migrations.AddField(
            model_name="person",
            name="units_known",
            field=models.CharField(
                blank=True,
                help_text="Tags or kinds of units, with commas between.",
                max_length=300,
                verbose_name="units known",
            ),
        ),
        migrations.AddField(
            model_name="roster",
            name="is_strict",
            field=models.BooleanField(
                default=False,
                help_text="Passing somebody over then takes a reason, which is kept.",
                verbose_name="the order is strict",
            ),
        ),
        migrations.AddField(
            model_name="roster",
            name="late_after_min",
            field=models.PositiveSmallIntegerField(
                default=30,
                validators=[django.core.validators.MaxValueValidator(2880)],
                verbose_name="late after, minutes",
            ),
        ),
        migrations.AddField(
            model_name="roster",
            name="referral_order",
            field=models.CharField(
                choices=[("alphabet", "by the alphabet"), ("seniority", "by seniority"), ("skill", "by skill")],
                default="alphabet",
                max_length=9,
                verbose_name="people are asked",
            ),
        ),
        migrations.AddField(
            model_name="roster",
            name="rest_min",
            field=models.PositiveSmallIntegerField(
                default=480,
                validators=[django.core.validators.MaxValueValidator(2880)],
                verbose_name="turnaround, minutes of rest between two calls",
            ),
        ),
        migrations.AddIndex(
            model_name="callline",
            index=models.Index(fields=["person", "starts_at"], name="call_line_by_person"),
        ),
        migrations.AddIndex(
            model_name="person",
            index=models.Index(fields=["roster", "name"], name="person_by_name"),
        ),
        migrations.AddConstraint(
            model_name="person",
            constraint=models.CheckConstraint(
                condition=models.Q(("experience__in", ["none", "some", "lead", ""])),
                name="person_experience_known",
                violation_error_message="Choose one of the values offered.",
            ),
        ),
        migrations.AddConstraint(
            model_name="person",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(
                        ("seniority__isnull", True),
                        models.Q(("seniority__gte", 1), ("seniority__lte", 100000)),
                        _connector="OR",
                    ),
                    models.Q(("skill__isnull", True), models.Q(("skill__gte", 1), ("skill__lte", 9)), _connector="OR"),
                ),
                name="person_numbers_in_range",
                violation_error_message="A number is out of its range.",
            ),
        ),
        migrations.AddConstraint(
            model_name="person",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("forgotten_at__isnull", True),
                    models.Q(("email", ""), ("ended_at__isnull", False), ("notes", ""), ("phone", "")),
                    _connector="OR",
                ),
                name="person_forgotten_without_contact",
                violation_error_message="Somebody who is forgotten has left the roster and keeps no contact.",
            ),
        ),
        migrations.AddConstraint(
            model_name="roster",
            constraint=models.CheckConstraint(
                condition=models.Q(("referral_order__in", ["alphabet", "seniority", "skill"])),
                name="roster_referral_order_known",
                violation_error_message="Choose one of the values offered.",
            ),
        ),
        migrations.AddConstraint(
            model_name="roster",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(
                        ("rest_min__isnull", True),
                        models.Q(("rest_min__gte", 0), ("rest_min__lte", 2880)),
                        _connector="OR",
                    ),
                    models.Q(
                        ("late_after_min__isnull", True),
                        models.Q(("late_after_min__gte", 0), ("late_after_min__lte", 2880)),
                        _connector="OR",
                    ),
                ),
                name="roster_minutes_in_range",
                violation_error_message="A number is out of its range.",
            ),
        ),
    ]
