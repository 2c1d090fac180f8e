import datetime
import uuid

import django.contrib.auth.models
import django.contrib.auth.validators
import django.core.validators
import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models

import venue.validators


class Migration(migrations.Migration):
    initial = True

    dependencies = [
        ("auth", "0012_alter_user_first_name_max_length"),
    ]

    operations = [
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
    ]
