# All that stood before, in one piece: a new database is made by it, an older one has these already.

import datetime
import uuid
from decimal import Decimal

import django.contrib.auth.models
import django.contrib.auth.validators
import django.core.serializers.json
import django.core.validators
import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models

import venue.fields
import venue.validators
from venue.guards import AddGuard, AppendOnly, NoOverlap, Unchanging
from venue.guards.extension import AddBtreeGist


class Migration(migrations.Migration):
    replaces = [
        ("venue", "0001_people_and_houses"),
        ("venue", "0002_positions_and_places"),
        ("venue", "0003_units_and_placements"),
        ("venue", "0004_history_links_codes"),
        ("venue", "0005_guards"),
        ("venue", "0006_facts_throws_and_walks"),
        ("venue", "0007_lamps_hours_faults_care"),
        ("venue", "0008_guards_of_lamps_and_meters"),
        ("venue", "0009_light_circuits_areas"),
        ("venue", "0010_links_without_a_house"),
    ]

    initial = True

    dependencies = [
        ("auth", "0012_alter_user_first_name_max_length"),
    ]

    operations = [
        AddBtreeGist(),
        migrations.CreateModel(
            name="User",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("password", models.CharField(max_length=128, verbose_name="password")),
                ("last_login", models.DateTimeField(blank=True, null=True, verbose_name="last login")),
                (
                    "is_superuser",
                    models.BooleanField(
                        default=False,
                        help_text="Designates that this user has all permissions without explicitly assigning them.",
                        verbose_name="superuser status",
                    ),
                ),
                (
                    "username",
                    models.CharField(
                        error_messages={"unique": "A user with that username already exists."},
                        help_text="Required. 150 characters or fewer. Letters, digits and @/./+/-/_ only.",
                        max_length=150,
                        unique=True,
                        validators=[django.contrib.auth.validators.UnicodeUsernameValidator()],
                        verbose_name="username",
                    ),
                ),
                ("first_name", models.CharField(blank=True, max_length=150, verbose_name="first name")),
                ("last_name", models.CharField(blank=True, max_length=150, verbose_name="last name")),
                ("email", models.EmailField(blank=True, max_length=254, verbose_name="email address")),
                (
                    "is_staff",
                    models.BooleanField(
                        default=False,
                        help_text="Designates whether the user can log into this admin site.",
                        verbose_name="staff status",
                    ),
                ),
                (
                    "is_active",
                    models.BooleanField(
                        default=True,
                        help_text="Designates whether this user should be treated as active. Unselect this instead of deleting accounts.",
                        verbose_name="active",
                    ),
                ),
                ("date_joined", models.DateTimeField(default=django.utils.timezone.now, verbose_name="date joined")),
                (
                    "printed_name",
                    models.CharField(
                        blank=True,
                        help_text="As sheets and the history print it.",
                        max_length=100,
                        verbose_name="name on paper",
                    ),
                ),
                (
                    "groups",
                    models.ManyToManyField(
                        blank=True,
                        help_text="The groups this user belongs to. A user will get all permissions granted to each of their groups.",
                        related_name="user_set",
                        related_query_name="user",
                        to="auth.group",
                        verbose_name="groups",
                    ),
                ),
                (
                    "user_permissions",
                    models.ManyToManyField(
                        blank=True,
                        help_text="Specific permissions for this user.",
                        related_name="user_set",
                        related_query_name="user",
                        to="auth.permission",
                        verbose_name="user permissions",
                    ),
                ),
            ],
            options={
                "verbose_name": "user",
                "verbose_name_plural": "users",
                "abstract": False,
            },
            managers=[
                ("objects", django.contrib.auth.models.UserManager()),
            ],
        ),
        migrations.CreateModel(
            name="House",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("name", models.CharField(max_length=120, verbose_name="name")),
                ("slug", models.SlugField(max_length=60, verbose_name="short name in addresses")),
                (
                    "time_zone",
                    models.CharField(
                        default="America/New_York",
                        max_length=60,
                        validators=[venue.validators.validate_time_zone],
                        verbose_name="time zone",
                    ),
                ),
                (
                    "unit_system",
                    models.CharField(
                        choices=[("imperial", "feet and foot-candles"), ("metric", "meters and lux")],
                        default="imperial",
                        max_length=10,
                        verbose_name="units",
                    ),
                ),
                (
                    "day_turns_at",
                    models.TimeField(
                        default=datetime.time(5, 0),
                        help_text="Until then, after midnight, “tonight” is still last night's show.",
                        verbose_name="the day turns at",
                    ),
                ),
                (
                    "burn_before_min",
                    models.PositiveSmallIntegerField(
                        default=30,
                        validators=[
                            django.core.validators.MinValueValidator(0),
                            django.core.validators.MaxValueValidator(600),
                        ],
                        verbose_name="lamps burn from so many minutes before an event",
                    ),
                ),
                (
                    "use_window_days",
                    models.PositiveSmallIntegerField(
                        default=28,
                        validators=[
                            django.core.validators.MinValueValidator(1),
                            django.core.validators.MaxValueValidator(366),
                        ],
                        verbose_name="past days that tell the usual use",
                    ),
                ),
                (
                    "usual_event_min",
                    models.PositiveSmallIntegerField(
                        default=180,
                        validators=[
                            django.core.validators.MinValueValidator(1),
                            django.core.validators.MaxValueValidator(1440),
                        ],
                        verbose_name="minutes of an event whose end is not on file",
                    ),
                ),
                (
                    "tech_note",
                    models.TextField(
                        blank=True,
                        help_text="Stands on the technical sheet. Name nobody here.",
                        max_length=2000,
                        verbose_name="what a tour should know",
                    ),
                ),
            ],
            options={
                "ordering": ("name", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        fields=("slug",),
                        name="house_slug_unique",
                        violation_error_code="already_exists",
                        violation_error_message="Another house has this short name. Choose another.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("unit_system__in", ["imperial", "metric"])),
                        name="house_unit_system_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="HouseMembership",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                (
                    "role",
                    models.CharField(
                        choices=[("head", "head"), ("reader", "reader")], max_length=8, verbose_name="role"
                    ),
                ),
                (
                    "house",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="memberships", to="venue.house"
                    ),
                ),
                (
                    "user",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="memberships",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ("house", "user"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("user", "house"),
                        name="membership_unique",
                        violation_error_code="already_exists",
                        violation_error_message="This person is with the house already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("role__in", ["head", "reader"])),
                        name="membership_role_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="membership_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Setup",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("name", models.CharField(max_length=80, verbose_name="name")),
                ("is_default", models.BooleanField(default=False, verbose_name="the usual one")),
                (
                    "layout",
                    models.CharField(
                        choices=[
                            ("proscenium", "proscenium"),
                            ("thrust", "thrust"),
                            ("round", "in the round"),
                            ("bowl", "arena bowl"),
                        ],
                        default="proscenium",
                        max_length=12,
                        verbose_name="layout",
                    ),
                ),
                (
                    "opening_m",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.0),
                            django.core.validators.MaxValueValidator(500.0),
                        ],
                        verbose_name="opening",
                    ),
                ),
                (
                    "depth_m",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.0),
                            django.core.validators.MaxValueValidator(500.0),
                        ],
                        verbose_name="depth",
                    ),
                ),
                (
                    "apron_m",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.0),
                            django.core.validators.MaxValueValidator(500.0),
                        ],
                        verbose_name="apron",
                    ),
                ),
                (
                    "prompt_side",
                    models.CharField(
                        choices=[("stage left", "stage left"), ("stage right", "stage right")],
                        default="stage left",
                        max_length=12,
                        verbose_name="prompt side",
                    ),
                ),
                (
                    "target_x_m",
                    models.FloatField(
                        default=0.0,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(-1000.0),
                            django.core.validators.MaxValueValidator(1000.0),
                        ],
                        verbose_name="target x",
                    ),
                ),
                (
                    "target_y_m",
                    models.FloatField(
                        default=0.0,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(-1000.0),
                            django.core.validators.MaxValueValidator(1000.0),
                        ],
                        verbose_name="target y",
                    ),
                ),
                (
                    "target_z_m",
                    models.FloatField(
                        default=1.5,
                        help_text="A performer's face is about 1.5 m above the deck.",
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(-1000.0),
                            django.core.validators.MaxValueValidator(1000.0),
                        ],
                        verbose_name="target z",
                    ),
                ),
                (
                    "twelve_deg",
                    models.FloatField(
                        default=0.0,
                        validators=[
                            venue.validators.validate_finite,
                            django.core.validators.MinValueValidator(0.0),
                            django.core.validators.MaxValueValidator(360.0),
                        ],
                        verbose_name="bearing of 12 o'clock",
                    ),
                ),
                (
                    "house_left_landmark",
                    models.CharField(blank=True, max_length=60, verbose_name="what is at house left"),
                ),
                (
                    "house_right_landmark",
                    models.CharField(blank=True, max_length=60, verbose_name="what is at house right"),
                ),
                (
                    "stage_end_landmark",
                    models.CharField(blank=True, max_length=60, verbose_name="what is at the stage end"),
                ),
                (
                    "house",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="setups", to="venue.house"
                    ),
                ),
                ("apron_text", models.CharField(blank=True, max_length=40, verbose_name="apron as typed")),
                ("depth_text", models.CharField(blank=True, max_length=40, verbose_name="depth as typed")),
                ("opening_text", models.CharField(blank=True, max_length=40, verbose_name="opening as typed")),
                ("target_x_text", models.CharField(blank=True, max_length=40, verbose_name="target x as typed")),
                ("target_y_text", models.CharField(blank=True, max_length=40, verbose_name="target y as typed")),
                ("target_z_text", models.CharField(blank=True, max_length=40, verbose_name="target z as typed")),
            ],
            options={
                "ordering": ("-is_default", "name", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("is_default", True)),
                        fields=("house",),
                        name="setup_one_default",
                        violation_error_code="already_exists",
                        violation_error_message="The house has a usual set-up already.",
                    ),
                    models.UniqueConstraint(
                        fields=("house", "name"),
                        name="setup_name_unique",
                        violation_error_code="already_exists",
                        violation_error_message="The house has a set-up of this name already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("layout__in", ["proscenium", "thrust", "round", "bowl"])),
                        name="setup_layout_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("prompt_side__in", ["stage left", "stage right"])),
                        name="setup_prompt_side_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("opening_m__isnull", True),
                                models.Q(("opening_m__gte", 0.0), ("opening_m__lte", 500.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("depth_m__isnull", True),
                                models.Q(("depth_m__gte", 0.0), ("depth_m__lte", 500.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("apron_m__isnull", True),
                                models.Q(("apron_m__gte", 0.0), ("apron_m__lte", 500.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("target_x_m__isnull", True),
                                models.Q(("target_x_m__gte", -1000.0), ("target_x_m__lte", 1000.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("target_y_m__isnull", True),
                                models.Q(("target_y_m__gte", -1000.0), ("target_y_m__lte", 1000.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("target_z_m__isnull", True),
                                models.Q(("target_z_m__gte", -1000.0), ("target_z_m__lte", 1000.0)),
                                _connector="OR",
                            ),
                            models.Q(
                                ("twelve_deg__isnull", True),
                                models.Q(("twelve_deg__gte", 0.0), ("twelve_deg__lte", 360.0)),
                                _connector="OR",
                            ),
                        ),
                        name="setup_numbers_in_range",
                        violation_error_message="A number is out of its range.",
                    ),
                ],
            },
        ),
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
                ("access", models.CharField(blank=True, max_length=300, verbose_name="how to get there")),
                (
                    "access_min",
                    models.PositiveSmallIntegerField(
                        blank=True,
                        null=True,
                        validators=[django.core.validators.MaxValueValidator(1440)],
                        verbose_name="minutes to get there",
                    ),
                ),
                ("checked_by", models.CharField(blank=True, max_length=100, verbose_name="checked by")),
                ("checked_on", models.DateField(blank=True, null=True, verbose_name="checked on")),
                (
                    "fall_protection",
                    models.CharField(
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
                (
                    "glass",
                    models.CharField(
                        blank=True,
                        choices=[("open", "open, no glass"), ("sliding", "sliding pane"), ("fixed", "fixed glass")],
                        max_length=8,
                        verbose_name="glass",
                    ),
                ),
                ("intercom", models.CharField(blank=True, max_length=300, verbose_name="intercom")),
                (
                    "load_limit_kg",
                    models.FloatField(
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
                (
                    "passage_m",
                    models.FloatField(
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
                ("passage_text", models.CharField(blank=True, max_length=40, verbose_name="passage as typed")),
                ("power", models.CharField(blank=True, max_length=300, verbose_name="power service")),
                (
                    "power_switched_at",
                    models.CharField(blank=True, max_length=300, verbose_name="where the power is switched off"),
                ),
                ("rescue_plan", models.TextField(blank=True, max_length=2000, verbose_name="rescue plan")),
                (
                    "show_exit",
                    models.CharField(
                        blank=True,
                        choices=[("yes", "yes"), ("no", "no")],
                        max_length=3,
                        verbose_name="a way out during the show",
                    ),
                ),
                ("show_exit_words", models.CharField(blank=True, max_length=300, verbose_name="the way out, in words")),
                (
                    "who_may_operate",
                    models.CharField(
                        blank=True,
                        choices=[
                            ("house", "house staff only"),
                            ("local", "local crew"),
                            ("touring", "touring crew allowed"),
                        ],
                        max_length=8,
                        verbose_name="who may operate here",
                    ),
                ),
                (
                    "farthest_downstage_m",
                    models.FloatField(
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
                (
                    "farthest_downstage_text",
                    models.CharField(blank=True, max_length=40, verbose_name="downstage as typed"),
                ),
                (
                    "farthest_upstage_m",
                    models.FloatField(
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
                ("farthest_upstage_text", models.CharField(blank=True, max_length=40, verbose_name="upstage as typed")),
                (
                    "glass_loss_pct",
                    models.FloatField(
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
                ("needs", models.CharField(blank=True, max_length=300, verbose_name="what else is needed there")),
                (
                    "other_load_kg",
                    models.FloatField(
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
                        verbose_name="pans from",
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
                        verbose_name="pans to",
                    ),
                ),
                (
                    "seats_lost",
                    models.PositiveSmallIntegerField(
                        blank=True,
                        null=True,
                        validators=[django.core.validators.MaxValueValidator(10000)],
                        verbose_name="seats lost to it",
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
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="position_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("fall_protection__in", ["none", "restraint", "harness", ""])),
                        name="position_fall_protection_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("glass__in", ["open", "sliding", "fixed", ""])),
                        name="position_glass_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("show_exit__in", ["yes", "no", ""])),
                        name="position_show_exit_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("who_may_operate__in", ["house", "local", "touring", ""])),
                        name="position_who_may_operate_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("checked_by", ""), ("checked_on__isnull", True)),
                            models.Q(("checked_on__isnull", False), models.Q(("checked_by", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="position_checked_on_and_by",
                        violation_error_message="Write both when the position was checked and by whom, or neither.",
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
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("pan_from_deg__isnull", True), ("pan_to_deg__isnull", True)),
                            models.Q(("pan_from_deg__isnull", False), ("pan_to_deg__isnull", False)),
                            _connector="OR",
                        ),
                        name="position_pans_together",
                        violation_error_message="Write both pans, from and to, or neither.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("farthest_upstage_m__isnull", True),
                            ("farthest_downstage_m__isnull", True),
                            ("farthest_downstage_m__lt", models.F("farthest_upstage_m")),
                            _connector="OR",
                        ),
                        name="position_sees_some_depth",
                        violation_error_message="The farthest point downstage lies downstage of the farthest upstage.",
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
                (
                    "throw_end",
                    models.CharField(
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
                ("throw_end_text", models.CharField(blank=True, max_length=40, verbose_name="that point as typed")),
                (
                    "throw_end_y_m",
                    models.FloatField(
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
                (
                    "throw_m",
                    models.FloatField(
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
                ("throw_mark", models.CharField(blank=True, max_length=60, verbose_name="the mark, in words")),
                ("throw_text", models.CharField(blank=True, max_length=40, verbose_name="throw as typed")),
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
                    models.CheckConstraint(
                        condition=models.Q(("throw_end__in", ["lip", "curtain", "plaster", "center", "mark", ""])),
                        name="place_throw_end_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("throw_end", ""), ("throw_m__isnull", True)),
                            models.Q(("throw_m__isnull", False), models.Q(("throw_end", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="place_throw_with_its_end",
                        violation_error_message="Say to which point the throw goes: a throw without it says nothing.",
                    ),
                    models.CheckConstraint(
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
                ("back_on", models.DateField(blank=True, null=True, verbose_name="goes back on")),
                (
                    "hired_from",
                    models.CharField(
                        blank=True,
                        help_text="Blank: the house's own.",
                        max_length=120,
                        verbose_name="hired or borrowed from",
                    ),
                ),
                (
                    "angle_percent",
                    models.PositiveSmallIntegerField(
                        blank=True,
                        choices=[(50, "50 % of the peak (beam angle)"), (10, "10 % of the peak (field angle)")],
                        null=True,
                        verbose_name="the angles end at",
                    ),
                ),
                (
                    "far_field_m",
                    models.FloatField(
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
                ("far_field_text", models.CharField(blank=True, max_length=40, verbose_name="that throw as typed")),
                (
                    "input_w",
                    models.FloatField(
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
                (
                    "power_factor",
                    models.FloatField(
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
                (
                    "sized_by",
                    models.CharField(
                        blank=True, choices=[("zoom", "zoom"), ("iris", "iris")], max_length=4, verbose_name="sized by"
                    ),
                ),
                (
                    "weight_kg",
                    models.FloatField(
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
                    models.CheckConstraint(
                        condition=models.Q(
                            ("angle_percent__isnull", True), ("angle_percent__in", [50, 10]), _connector="OR"
                        ),
                        name="unit_angle_percent_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("sized_by__in", ["zoom", "iris", ""])),
                        name="unit_sized_by_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                ],
                "indexes": [
                    models.Index(
                        condition=models.Q(("back_on__isnull", False), ("ended_at__isnull", True)),
                        fields=["house", "back_on"],
                        name="unit_going_back",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="Event",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("at", models.DateTimeField(default=django.utils.timezone.now)),
                (
                    "actor_kind",
                    models.CharField(
                        choices=[("user", "user"), ("link", "link"), ("command", "command")], max_length=8
                    ),
                ),
                ("actor_name", models.CharField(max_length=120)),
                ("verb", models.CharField(max_length=60)),
                ("subject_kind", models.CharField(max_length=40)),
                ("subject_ref", models.UUIDField()),
                ("data", models.JSONField(default=dict, encoder=django.core.serializers.json.DjangoJSONEncoder)),
                (
                    "actor_user",
                    models.ForeignKey(
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="+",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
                (
                    "house",
                    models.ForeignKey(
                        null=True, on_delete=django.db.models.deletion.PROTECT, related_name="history", to="venue.house"
                    ),
                ),
            ],
            options={
                "ordering": ("at", "pk"),
                "indexes": [
                    models.Index(fields=["house", "at"], name="event_by_house"),
                    models.Index(fields=["subject_kind", "subject_ref"], name="event_by_subject"),
                ],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("actor_kind__in", ["user", "link", "command"])),
                        name="event_actor_kind_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("actor_kind", "user"), ("actor_user__isnull", False)),
                            models.Q(models.Q(("actor_kind", "user"), _negated=True), ("actor_user__isnull", True)),
                            _connector="OR",
                        ),
                        name="event_user_named",
                        violation_error_message="A user's line names the user, any other names none.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="PrintedCode",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("code", venue.fields.BinaryCharField(editable=False, max_length=20, unique=True)),
                ("purpose", models.CharField(max_length=40)),
                ("subject_kind", models.CharField(max_length=40)),
                ("subject_ref", models.UUIDField()),
                ("made_at", models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                (
                    "house",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="printed_codes", to="venue.house"
                    ),
                ),
            ],
            options={
                "ordering": ("-made_at", "-pk"),
                "indexes": [models.Index(fields=["subject_kind", "subject_ref"], name="printed_code_by_subject")],
            },
        ),
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
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="placements",
                        to="venue.place",
                    ),
                ),
                (
                    "unit",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="placements", to="venue.unit"
                    ),
                ),
                (
                    "elsewhere",
                    models.CharField(
                        blank=True,
                        choices=[("shop", "in the shop"), ("store", "in the store"), ("lent", "lent out")],
                        max_length=5,
                        verbose_name="elsewhere",
                    ),
                ),
                ("elsewhere_words", models.CharField(blank=True, max_length=120, verbose_name="where, with whom")),
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
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("elsewhere__in", ["shop", "store", "lent", ""])),
                        name="placement_elsewhere_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("elsewhere", ""), ("elsewhere_words", ""), ("place__isnull", False)),
                            models.Q(("place__isnull", True), models.Q(("elsewhere", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="placement_at_a_place_or_elsewhere",
                        violation_error_message="Choose a place, or where else the unit is.",
                    ),
                ],
                "indexes": [
                    models.Index(
                        condition=models.Q(("place__isnull", True)),
                        fields=["ends_at"],
                        name="placement_elsewhere_by_end",
                    )
                ],
            },
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
        migrations.CreateModel(
            name="Link",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("purpose", models.CharField(max_length=40)),
                ("subject_kind", models.CharField(max_length=40)),
                ("subject_ref", models.UUIDField()),
                ("secret_hash", venue.fields.BinaryCharField(editable=False, max_length=64, unique=True)),
                ("made_at", models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ("expires_at", models.DateTimeField()),
                ("revoked_at", models.DateTimeField(editable=False, null=True)),
                ("last_used_at", models.DateTimeField(editable=False, null=True)),
                (
                    "house",
                    models.ForeignKey(
                        blank=True,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="links",
                        to="venue.house",
                    ),
                ),
            ],
            options={
                "ordering": ("-made_at", "-pk"),
                "indexes": [models.Index(fields=["subject_kind", "subject_ref"], name="link_by_subject")],
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("expires_at__gt", models.F("made_at"))),
                        name="link_expires_later",
                        violation_error_message="A link ends after it was made.",
                    )
                ],
            },
        ),
        AddGuard("house", Unchanging("house_slug_unchanging", "slug")),
        AddGuard("placement", NoOverlap("placement_no_overlap_by_unit", by="unit")),
        AddGuard("placement", NoOverlap("placement_no_overlap_by_place", by="place")),
        AddGuard("event", AppendOnly("event_append_only")),
        AddGuard("link", Unchanging("link_secret_unchanging", "secret_hash")),
        AddGuard("printedcode", Unchanging("printed_code_unchanging", "code")),
        AddGuard("meter", NoOverlap("meter_no_overlap_by_unit", by="unit")),
        AddGuard("fitting", NoOverlap("fitting_no_overlap_by_lamp", by="lamp", starts="from_at", ends="until_at")),
        AddGuard("fitting", NoOverlap("fitting_no_overlap_by_unit", by="unit", starts="from_at", ends="until_at")),
        AddGuard("lampdecision", AppendOnly("lamp_decision_append_only")),
    ]
