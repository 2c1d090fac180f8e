# All that stood before, in one piece: a new database is made by it, an older one has these already.

import uuid

import django.core.validators
import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

import crew.models.offers
import venue.fields
from venue.guards import AddGuard, AppendOnly, NoOverlap


class Migration(migrations.Migration):
    replaces = [
        ("crew", "0001_rosters"),
        ("crew", "0002_calls"),
        ("crew", "0003_sheets_are_kept"),
        ("crew", "0004_sheet_basis"),
        ("crew", "0005_line_confirmations"),
        ("crew", "0006_confirmations_are_kept"),
        ("crew", "0007_people_and_times"),
        ("crew", "0008_times_of_calls"),
        ("crew", "0009_times_are_told"),
        ("crew", "0010_day_rules_and_list"),
        ("crew", "0011_offers_and_messages"),
        ("crew", "0012_weather_and_calls_of_a_roster"),
    ]

    initial = True

    dependencies = [
        ("shows", "0001_squashed_0009_placed_by_proposal"),
        ("venue", "0001_squashed_0010_links_without_a_house"),
    ]

    operations = [
        migrations.CreateModel(
            name="Roster",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("name", models.CharField(max_length=120, verbose_name="name")),
                (
                    "is_strict",
                    models.BooleanField(
                        default=False,
                        help_text="Passing somebody over then takes a reason, which is kept.",
                        verbose_name="the order is strict",
                    ),
                ),
                (
                    "late_after_min",
                    models.PositiveSmallIntegerField(
                        default=30,
                        validators=[django.core.validators.MaxValueValidator(2880)],
                        verbose_name="late after, minutes",
                    ),
                ),
                (
                    "referral_order",
                    models.CharField(
                        choices=[("alphabet", "by the alphabet"), ("seniority", "by seniority"), ("skill", "by skill")],
                        default="alphabet",
                        max_length=9,
                        verbose_name="people are asked",
                    ),
                ),
                (
                    "rest_min",
                    models.PositiveSmallIntegerField(
                        default=480,
                        validators=[django.core.validators.MaxValueValidator(2880)],
                        verbose_name="turnaround, minutes of rest between two calls",
                    ),
                ),
            ],
            options={
                "ordering": ("name", "pk"),
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("referral_order__in", ["alphabet", "seniority", "skill"])),
                        name="roster_referral_order_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
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
                ],
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
                ("email", models.EmailField(blank=True, max_length=200, verbose_name="e-mail")),
                (
                    "experience",
                    models.CharField(
                        blank=True,
                        choices=[("none", "none yet"), ("some", "some shows"), ("lead", "has led")],
                        max_length=4,
                        verbose_name="on follow spots",
                    ),
                ),
                ("forgotten_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="forgotten")),
                ("notes", models.CharField(blank=True, max_length=1000, verbose_name="notes")),
                ("phone", models.CharField(blank=True, max_length=40, verbose_name="phone")),
                (
                    "seniority",
                    models.PositiveIntegerField(
                        blank=True,
                        null=True,
                        validators=[
                            django.core.validators.MinValueValidator(1),
                            django.core.validators.MaxValueValidator(100000),
                        ],
                        verbose_name="place on the list",
                    ),
                ),
                (
                    "skill",
                    models.PositiveSmallIntegerField(
                        blank=True,
                        help_text="From 1, the best, to 9.",
                        null=True,
                        validators=[
                            django.core.validators.MinValueValidator(1),
                            django.core.validators.MaxValueValidator(9),
                        ],
                        verbose_name="grade",
                    ),
                ),
                (
                    "units_known",
                    models.CharField(
                        blank=True,
                        help_text="Tags or kinds of units, with commas between.",
                        max_length=300,
                        verbose_name="units known",
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
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("experience__in", ["none", "some", "lead", ""])),
                        name="person_experience_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("seniority__isnull", True),
                                models.Q(("seniority__gte", 1), ("seniority__lte", 100000)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("skill__isnull", True), models.Q(("skill__gte", 1), ("skill__lte", 9)), _connector="OR"
                            ),
                        ),
                        name="person_numbers_in_range",
                        violation_error_message="A number is out of its range.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("forgotten_at__isnull", True),
                            models.Q(("email", ""), ("ended_at__isnull", False), ("notes", ""), ("phone", "")),
                            _connector="OR",
                        ),
                        name="person_forgotten_without_contact",
                        violation_error_message="Somebody who is forgotten has left the roster and keeps no contact.",
                    ),
                ],
                "indexes": [models.Index(fields=["roster", "name"], name="person_by_name")],
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
        migrations.CreateModel(
            name="Call",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("zone", models.CharField(editable=False, max_length=60)),
                ("call_at", models.DateTimeField(editable=False)),
                ("call_date", models.DateField(verbose_name="day of the call")),
                ("call_time", models.TimeField(verbose_name="call time")),
                ("place", models.CharField(blank=True, max_length=120, verbose_name="where to come")),
                ("talk_at", models.DateTimeField(blank=True, editable=False, null=True)),
                ("talk_date", models.DateField(blank=True, null=True, verbose_name="day of the spot talk")),
                ("talk_time", models.TimeField(blank=True, null=True, verbose_name="spot talk")),
                ("talk_place", models.CharField(blank=True, max_length=120, verbose_name="where the spot talk is")),
                ("notes", models.CharField(blank=True, max_length=1000, verbose_name="notes for everybody")),
                (
                    "engagement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="calls", to="shows.engagement"
                    ),
                ),
                (
                    "event",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="calls", to="shows.showevent"
                    ),
                ),
                (
                    "roster",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="calls", to="crew.roster"
                    ),
                ),
                ("ends_at", models.DateTimeField(editable=False)),
                ("ends_date", models.DateField(verbose_name="day of the expected end")),
                ("ends_time", models.TimeField(verbose_name="expected end")),
                ("meal_at", models.DateTimeField(blank=True, editable=False, null=True)),
                ("meal_date", models.DateField(blank=True, null=True, verbose_name="day of the meal")),
                ("meal_time", models.TimeField(blank=True, null=True, verbose_name="meal")),
                (
                    "weather",
                    models.CharField(
                        blank=True,
                        help_text="For work outdoors: what is expected, what to bring.",
                        max_length=200,
                        verbose_name="weather",
                    ),
                ),
            ],
            options={
                "ordering": ("call_at", "pk"),
                "indexes": [
                    models.Index(fields=["call_at"], name="call_by_time"),
                    models.Index(fields=["roster", "call_at"], name="call_by_roster"),
                ],
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("event", "roster"),
                        name="call_unique",
                        violation_error_code="already_exists",
                        violation_error_message="This roster has a call for the event already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("talk_at__isnull", True), ("talk_date__isnull", True), ("talk_time__isnull", True)
                            ),
                            models.Q(
                                ("talk_at__isnull", False), ("talk_date__isnull", False), ("talk_time__isnull", False)
                            ),
                            _connector="OR",
                        ),
                        name="call_talk_all_or_none",
                        violation_error_message="Write the day and the time of the spot talk, or neither.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("talk_at__isnull", True), ("talk_at__gte", models.F("call_at")), _connector="OR"
                        ),
                        name="call_talk_after_call",
                        violation_error_message="The spot talk is before the call. Write a later time for it.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="call_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("ends_at__gt", models.F("call_at"))),
                        name="call_ends_after_call",
                        violation_error_message="It ends before the call time. Write a later end.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("meal_at__isnull", True), ("meal_date__isnull", True), ("meal_time__isnull", True)
                            ),
                            models.Q(
                                ("meal_at__isnull", False), ("meal_date__isnull", False), ("meal_time__isnull", False)
                            ),
                            _connector="OR",
                        ),
                        name="call_meal_all_or_none",
                        violation_error_message="Write the day and the time of the meal, or neither.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("meal_at__isnull", True),
                            models.Q(("meal_at__gte", models.F("call_at")), ("meal_at__lte", models.F("ends_at"))),
                            _connector="OR",
                        ),
                        name="call_meal_within_call",
                        violation_error_message="The meal is outside the call. Write a time between the call and its end.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="CallLine",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("number", models.CharField(blank=True, max_length=40, verbose_name="show number")),
                ("number_key", venue.fields.BinaryCharField(blank=True, editable=False, max_length=80)),
                ("sort_key", venue.fields.BinaryCharField(blank=True, editable=False, max_length=320)),
                ("seat", models.PositiveSmallIntegerField(default=1)),
                (
                    "call",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="lines", to="crew.call"
                    ),
                ),
                (
                    "person",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="call_lines",
                        to="crew.person",
                    ),
                ),
                ("ends_at", models.DateTimeField(editable=False)),
                (
                    "follows",
                    models.OneToOneField(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="followed_by",
                        to="crew.callline",
                    ),
                ),
                ("own_at", models.DateTimeField(blank=True, editable=False, null=True)),
                ("own_date", models.DateField(blank=True, null=True, verbose_name="day of the own call")),
                ("own_time", models.TimeField(blank=True, null=True, verbose_name="own call time")),
                (
                    "role",
                    models.CharField(
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
                ("starts_at", models.DateTimeField(editable=False)),
            ],
            options={
                "ordering": ("call", "sort_key", "seat", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("call", "number_key", "seat"),
                        name="call_line_number_unique",
                        violation_error_code="already_exists",
                        violation_error_message="Somebody is on this number already.",
                    ),
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("call", "person"),
                        name="call_line_person_unique",
                        violation_error_code="already_exists",
                        violation_error_message="This person is on the call already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="call_line_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("role__in", ["operator", "head", "spare", "runner"])),
                        name="call_line_role_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("own_at__isnull", True), ("own_date__isnull", True), ("own_time__isnull", True)),
                            models.Q(
                                ("own_at__isnull", False), ("own_date__isnull", False), ("own_time__isnull", False)
                            ),
                            _connector="OR",
                        ),
                        name="call_line_own_all_or_none",
                        violation_error_message="Write the day and the time of the own call, or neither.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("ends_at__gte", models.F("starts_at"))),
                        name="call_line_ends_after_start",
                        violation_error_message="It ends before the call time. Write an earlier call.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("ended_at__isnull", True), ("ends_at", models.F("starts_at")), _connector="OR"
                        ),
                        name="call_line_ended_books_nobody",
                        violation_error_message="A line that ended books nobody.",
                    ),
                ],
                "indexes": [models.Index(fields=["person", "starts_at"], name="call_line_by_person")],
            },
        ),
        migrations.CreateModel(
            name="IssuedSheet",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("kind", models.CharField(choices=[("call-sheet", "call sheet")], default="call-sheet", max_length=20)),
                ("n", models.PositiveIntegerField()),
                ("content", models.TextField()),
                ("sha256", venue.fields.BinaryCharField(max_length=64)),
                ("issued_at", models.DateTimeField()),
                ("issued_by", models.CharField(max_length=120)),
                (
                    "call",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="sheets", to="crew.call"
                    ),
                ),
                (
                    "code",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT, related_name="+", to="venue.printedcode"
                    ),
                ),
                ("basis", venue.fields.BinaryCharField(blank=True, max_length=64)),
            ],
            options={
                "ordering": ("call", "kind", "-n"),
                "constraints": [
                    models.UniqueConstraint(
                        fields=("call", "kind", "n"),
                        name="issued_sheet_unique",
                        violation_error_code="already_exists",
                        violation_error_message="This revision was issued already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("kind__in", ["call-sheet"])),
                        name="issued_sheet_kind_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="LineConfirmation",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("at", models.DateTimeField()),
                ("by", models.CharField(max_length=120)),
                (
                    "line",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="confirmations", to="crew.callline"
                    ),
                ),
                (
                    "sheet",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="confirmations", to="crew.issuedsheet"
                    ),
                ),
            ],
            options={
                "ordering": ("at", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        fields=("line", "sheet"),
                        name="line_confirmation_unique",
                        violation_error_code="already_exists",
                        violation_error_message="This line is confirmed for the revision already.",
                    )
                ],
            },
        ),
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
        migrations.CreateModel(
            name="Attendance",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("in_at", models.DateTimeField(blank=True, null=True, verbose_name="in")),
                ("out_at", models.DateTimeField(blank=True, null=True, verbose_name="out")),
                (
                    "absence",
                    models.CharField(
                        blank=True,
                        choices=[("no-show", "did not come"), ("sent-home", "was sent home")],
                        max_length=9,
                        verbose_name="absence",
                    ),
                ),
                ("note", models.CharField(blank=True, max_length=200, verbose_name="note")),
                (
                    "line",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT, related_name="attendance", to="crew.callline"
                    ),
                ),
            ],
            options={
                "ordering": ("line",),
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("absence__in", ["no-show", "sent-home", ""])),
                        name="attendance_absence_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("out_at__isnull", True),
                            models.Q(("in_at__isnull", False), ("out_at__gt", models.F("in_at"))),
                            _connector="OR",
                        ),
                        name="attendance_in_before_out",
                        violation_error_message="The time out is not after the time in. Write a later one.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("absence", "no-show"), _negated=True),
                            models.Q(("in_at__isnull", True), ("out_at__isnull", True)),
                            _connector="OR",
                        ),
                        name="attendance_who_did_not_come_has_no_times",
                        violation_error_message="Somebody who signed in did come: take the times out first.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="HourRules",
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
                ("rules", models.JSONField(default=dict, verbose_name="rules")),
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
                    "roster",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="hour_rules", to="crew.roster"
                    ),
                ),
            ],
            options={
                "verbose_name_plural": "hour rules",
                "ordering": ("roster", "house", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True), ("house__isnull", True)),
                        fields=("roster",),
                        name="hour_rules_unique",
                        violation_error_code="already_exists",
                        violation_error_message="The roster has rules already: change those.",
                    ),
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True), ("house__isnull", False)),
                        fields=("roster", "house"),
                        name="hour_rules_unique_in_house",
                        violation_error_code="already_exists",
                        violation_error_message="The roster has rules for this house already: change those.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="hour_rules_end_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="MealBreak",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("starts_at", models.DateTimeField(verbose_name="meal from")),
                ("ends_at", models.DateTimeField(blank=True, null=True, verbose_name="meal until")),
                (
                    "attendance",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="meals", to="crew.attendance"
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
                        name="meal_break_ends_after_start",
                        violation_error_message="The meal ends before it starts. Write a later end.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("ended_at__isnull", True), ("ends_at", models.F("starts_at")), _connector="OR"
                        ),
                        name="meal_break_mistaken_is_empty",
                        violation_error_message="A meal that was entered by mistake has no length.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="meal_break_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="PassedOver",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("reason", models.CharField(max_length=200, verbose_name="why")),
                ("at", models.DateTimeField()),
                ("by", models.CharField(max_length=120)),
                (
                    "line",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="passed_over", to="crew.callline"
                    ),
                ),
                (
                    "person",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="passed_over", to="crew.person"
                    ),
                ),
            ],
            options={
                "verbose_name_plural": "passed over",
                "ordering": ("at", "pk"),
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("reason", ""), _negated=True),
                        name="passed_over_for_a_reason",
                        violation_error_message="Write why somebody earlier on the list is passed over.",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="Offer",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("asked_at", models.DateTimeField()),
                ("asked_by", models.CharField(max_length=120)),
                ("answer_by", models.DateTimeField(blank=True, null=True, verbose_name="answer by")),
                (
                    "answer",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("accepted", "accepted"),
                            ("declined", "declined"),
                            ("no-answer", "did not answer in time"),
                            ("filled", "somebody else was quicker"),
                            ("withdrawn", "withdrawn"),
                        ],
                        max_length=9,
                        verbose_name="answer",
                    ),
                ),
                ("answered_at", models.DateTimeField(blank=True, null=True)),
                ("answered_by", models.CharField(blank=True, max_length=120)),
                ("note", models.CharField(blank=True, max_length=200, verbose_name="note")),
                (
                    "line",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="offers", to="crew.callline"
                    ),
                ),
                (
                    "person",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="offers", to="crew.person"
                    ),
                ),
            ],
            options={
                "ordering": ("asked_at", "pk"),
                "indexes": [
                    models.Index(condition=models.Q(("answer", "")), fields=["answer_by"], name="offer_open_by_time")
                ],
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("answer", "")),
                        fields=("line", "person"),
                        name="offer_open_once",
                        violation_error_code="already_exists",
                        violation_error_message="This person is asked already and has not answered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("answer__in", ["accepted", "declined", "no-answer", "filled", "withdrawn", ""])
                        ),
                        name="offer_answer_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("answer", ""), ("answered_at__isnull", True)),
                            models.Q(models.Q(("answer", ""), _negated=True), ("answered_at__isnull", False)),
                            _connector="OR",
                        ),
                        name="offer_answered_at_a_time",
                        violation_error_message="An answer has a time.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Message",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                (
                    "kind",
                    models.CharField(
                        choices=[
                            ("offer", "asks for a call"),
                            ("booked", "is on a call"),
                            ("filled", "somebody else has it"),
                            ("released", "is not on the call any more"),
                            ("revision", "a new revision of the sheet"),
                            ("called-off", "the call is off"),
                        ],
                        max_length=10,
                    ),
                ),
                ("words", models.CharField(blank=True, max_length=300, verbose_name="in addition")),
                (
                    "message_id",
                    models.CharField(
                        default=crew.models.offers.new_message_id, editable=False, max_length=40, unique=True
                    ),
                ),
                (
                    "delivery",
                    models.CharField(
                        choices=[
                            ("waiting", "to be sent"),
                            ("sending", "being sent"),
                            ("sent", "sent"),
                            ("failed", "could not be sent"),
                            ("by-hand", "to be sent by hand"),
                            ("dropped", "not to be sent any more"),
                        ],
                        default="waiting",
                        max_length=7,
                    ),
                ),
                ("made_at", models.DateTimeField()),
                ("claimed_at", models.DateTimeField(blank=True, null=True)),
                ("sent_at", models.DateTimeField(blank=True, null=True)),
                ("tries", models.PositiveSmallIntegerField(default=0)),
                ("trouble", models.CharField(blank=True, max_length=200)),
                (
                    "call",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="messages", to="crew.call"
                    ),
                ),
                (
                    "line",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="messages",
                        to="crew.callline",
                    ),
                ),
                (
                    "person",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="messages", to="crew.person"
                    ),
                ),
                (
                    "offer",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="messages",
                        to="crew.offer",
                    ),
                ),
            ],
            options={
                "ordering": ("made_at", "pk"),
                "indexes": [
                    models.Index(
                        condition=models.Q(("delivery__in", ("waiting", "sending", "failed"))),
                        fields=["made_at"],
                        name="message_to_send",
                    )
                ],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(
                            ("kind__in", ["offer", "booked", "filled", "released", "revision", "called-off"])
                        ),
                        name="message_kind_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("delivery__in", ["waiting", "sending", "sent", "failed", "by-hand", "dropped"])
                        ),
                        name="message_delivery_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("delivery", "sent"), _negated=True), ("sent_at__isnull", False), _connector="OR"
                        ),
                        name="message_sent_at_a_time",
                        violation_error_message="What was sent has a time.",
                    ),
                ],
            },
        ),
        AddGuard("issuedsheet", AppendOnly("issued_sheet_append_only")),
        AddGuard("lineconfirmation", AppendOnly("line_confirmation_append_only")),
        AddGuard("callline", NoOverlap("call_line_no_overlap_by_person", by="person")),
        AddGuard("mealbreak", NoOverlap("meal_break_no_overlap", by="attendance")),
        AddGuard("passedover", AppendOnly("passed_over_append_only")),
    ]
