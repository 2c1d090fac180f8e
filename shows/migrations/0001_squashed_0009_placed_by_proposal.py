# All that stood before, in one piece: a new database is made by it, an older one has these already.

import uuid

import django.core.validators
import django.db.models.deletion
from django.conf import settings
from django.db import migrations, models

import venue.fields
import venue.validators
from venue.guards import AddGuard, AppendOnly, Unchanging


class Migration(migrations.Migration):
    replaces = [
        ("shows", "0001_engagements"),
        ("shows", "0002_show_spots"),
        ("shows", "0003_paperwork_and_choices"),
        ("shows", "0004_paperwork_is_kept"),
        ("shows", "0005_numbers_by_hand"),
        ("shows", "0006_asks_fit_and_arrival"),
        ("shows", "0007_arrival_is_kept"),
        ("shows", "0008_visits_copied_from_earlier_ones"),
        ("shows", "0009_placed_by_proposal"),
    ]

    initial = True

    dependencies = [
        ("venue", "0001_squashed_0010_links_without_a_house"),
    ]

    operations = [
        migrations.CreateModel(
            name="Engagement",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("name", models.CharField(max_length=120, verbose_name="show")),
                ("starts_on", models.DateField(verbose_name="first day")),
                ("ends_on", models.DateField(verbose_name="last day")),
                ("statement", models.CharField(blank=True, max_length=1000, verbose_name="how its numbers run")),
                (
                    "house",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="engagements", to="venue.house"
                    ),
                ),
                (
                    "setup",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="engagements", to="venue.setup"
                    ),
                ),
                (
                    "caller",
                    models.CharField(blank=True, max_length=120, verbose_name="who calls the spots, and from where"),
                ),
                (
                    "frame_1_end",
                    models.CharField(
                        blank=True,
                        choices=[("lens", "lens end"), ("lamp", "lamp end")],
                        help_text="As the show counts its frames. Each unit has its own end on file.",
                        max_length=4,
                        verbose_name="its frame 1 is at",
                    ),
                ),
                ("on_camera", models.BooleanField(blank=True, null=True, verbose_name="on camera")),
                (
                    "earlier",
                    models.ForeignKey(
                        blank=True,
                        editable=False,
                        null=True,
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="later",
                        to="shows.engagement",
                    ),
                ),
            ],
            options={
                "ordering": ("starts_on", "name", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("house", "name", "starts_on"),
                        name="engagement_unique",
                        violation_error_code="already_exists",
                        violation_error_message="The house has this show from that day already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("ends_on__gte", models.F("starts_on"))),
                        name="engagement_ends_after_start",
                        violation_error_message="The last day is before the first. Write a later one.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="engagement_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("frame_1_end__in", ["lens", "lamp", ""])),
                        name="engagement_frame_1_end_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="EngagementPlace",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "engagement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="own_places", to="shows.engagement"
                    ),
                ),
                (
                    "place",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT, related_name="+", to="venue.place"
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="EngagementPosition",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                (
                    "engagement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="own_positions", to="shows.engagement"
                    ),
                ),
                (
                    "position",
                    models.OneToOneField(
                        on_delete=django.db.models.deletion.PROTECT, related_name="+", to="venue.position"
                    ),
                ),
            ],
        ),
        migrations.CreateModel(
            name="RoadAccess",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("until", models.DateTimeField(verbose_name="until")),
                (
                    "engagement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="road_access", to="shows.engagement"
                    ),
                ),
                (
                    "user",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT,
                        related_name="road_access",
                        to=settings.AUTH_USER_MODEL,
                    ),
                ),
            ],
            options={
                "ordering": ("engagement", "user"),
                "constraints": [
                    models.UniqueConstraint(
                        fields=("user", "engagement"),
                        name="road_access_unique",
                        violation_error_code="already_exists",
                        violation_error_message="This person is with the show already.",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="ShowEvent",
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
                    "kind",
                    models.CharField(
                        choices=[
                            ("load-in", "load-in"),
                            ("focus", "focus"),
                            ("rehearsal", "rehearsal"),
                            ("show", "show"),
                            ("load-out", "load-out"),
                        ],
                        max_length=10,
                        verbose_name="what",
                    ),
                ),
                ("name", models.CharField(blank=True, max_length=120, verbose_name="name")),
                ("starts_at", models.DateTimeField(editable=False)),
                ("ends_at", models.DateTimeField(blank=True, editable=False, null=True)),
                ("zone", models.CharField(editable=False, max_length=60)),
                ("starts_date", models.DateField(verbose_name="day")),
                ("starts_time", models.TimeField(verbose_name="from")),
                ("ends_date", models.DateField(blank=True, null=True, verbose_name="last day")),
                ("ends_time", models.TimeField(blank=True, null=True, verbose_name="until")),
                (
                    "engagement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="events", to="shows.engagement"
                    ),
                ),
            ],
            options={
                "ordering": ("starts_at", "pk"),
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("kind__in", ["load-in", "focus", "rehearsal", "show", "load-out"])),
                        name="show_event_kind_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("ends_at__isnull", True), ("ends_at__gt", models.F("starts_at")), _connector="OR"
                        ),
                        name="show_event_ends_after_start",
                        violation_error_message="It ends before it starts. Write a later end.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(
                                ("ends_at__isnull", True), ("ends_date__isnull", True), ("ends_time__isnull", True)
                            ),
                            models.Q(
                                ("ends_at__isnull", False), ("ends_date__isnull", False), ("ends_time__isnull", False)
                            ),
                            _connector="OR",
                        ),
                        name="show_event_end_all_or_none",
                        violation_error_message="Write the day and the time of the end, or neither.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="show_event_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="ShowSpot",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("number", models.CharField(max_length=40, verbose_name="show number")),
                ("number_key", venue.fields.BinaryCharField(blank=True, editable=False, max_length=80)),
                ("sort_key", venue.fields.BinaryCharField(blank=True, editable=False, max_length=320)),
                ("house_label", models.CharField(blank=True, max_length=80, verbose_name="house label")),
                ("position_words", models.CharField(blank=True, max_length=80, verbose_name="position")),
                ("side", models.CharField(blank=True, max_length=80, verbose_name="side")),
                ("nth", models.CharField(blank=True, max_length=80, verbose_name="which from that side")),
                ("whose_left", models.CharField(blank=True, max_length=80, verbose_name="whose left")),
                ("frames", models.JSONField(blank=True, default=list, verbose_name="frames")),
                ("channel", models.CharField(blank=True, max_length=80, verbose_name="headset channel")),
                ("pick_up", models.CharField(blank=True, max_length=200, verbose_name="pick-up")),
                (
                    "least_lux",
                    models.FloatField(
                        blank=True,
                        null=True,
                        validators=[venue.validators.validate_finite, django.core.validators.MinValueValidator(0.0)],
                        verbose_name="least light",
                    ),
                ),
                ("notes", models.CharField(blank=True, max_length=1000, verbose_name="notes")),
                (
                    "engagement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="spots", to="shows.engagement"
                    ),
                ),
                ("full_blackout", models.BooleanField(blank=True, null=True, verbose_name="needs a full blackout")),
                (
                    "gel_by",
                    models.CharField(
                        blank=True,
                        choices=[("show", "the show"), ("house", "the house")],
                        max_length=5,
                        verbose_name="who brings the color",
                    ),
                ),
                ("home", models.CharField(blank=True, max_length=200, verbose_name="home pick-up")),
                ("matches", models.CharField(blank=True, max_length=40, verbose_name="has to match show number")),
                ("on_camera", models.BooleanField(blank=True, null=True, verbose_name="on camera")),
                ("sizes", models.JSONField(blank=True, default=list, verbose_name="sizes")),
                (
                    "strip_out",
                    models.BooleanField(blank=True, null=True, verbose_name="needs a strip cut out by the shutters"),
                ),
            ],
            options={
                "ordering": ("engagement", "sort_key", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("engagement", "number_key"),
                        name="show_spot_number_unique",
                        violation_error_code="already_exists",
                        violation_error_message="The show has this number already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("number_key", ""), _negated=True),
                        name="show_spot_number_not_empty",
                        violation_error_message="Write a show number.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("least_lux__isnull", True),
                            models.Q(("least_lux__gte", 0.0), ("least_lux__lte", 10000000.0)),
                            _connector="OR",
                        ),
                        name="show_spot_numbers_in_range",
                        violation_error_message="A number is out of its range.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="show_spot_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("gel_by__in", ["show", "house", ""])),
                        name="show_spot_gel_by_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="Choice",
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
                    "way",
                    models.CharField(
                        choices=[
                            ("tape", "tape the lamps"),
                            ("move", "move the operators"),
                            ("renumber", "renumber the paperwork"),
                        ],
                        max_length=8,
                        verbose_name="way",
                    ),
                ),
                ("chosen_by", models.CharField(max_length=100, verbose_name="chosen by")),
                ("chosen_at", models.DateTimeField(verbose_name="chosen")),
                (
                    "engagement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="choices", to="shows.engagement"
                    ),
                ),
            ],
            options={
                "ordering": ("-chosen_at", "-pk"),
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("way__in", ["tape", "move", "renumber"])),
                        name="choice_way_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("engagement",),
                        name="choice_unique",
                        violation_error_code="already_exists",
                        violation_error_message="Somebody chose at the same moment. Look again.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="choice_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                ],
            },
        ),
        migrations.CreateModel(
            name="PlaceUse",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("in_use", models.BooleanField(verbose_name="in use")),
                (
                    "engagement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="place_uses", to="shows.engagement"
                    ),
                ),
                (
                    "place",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="place_uses", to="venue.place"
                    ),
                ),
            ],
            options={
                "ordering": ("engagement", "place"),
                "constraints": [
                    models.UniqueConstraint(
                        fields=("engagement", "place"),
                        name="place_use_unique",
                        violation_error_code="already_exists",
                        violation_error_message="Somebody said so at the same moment. Look again.",
                    )
                ],
            },
        ),
        migrations.CreateModel(
            name="Paperwork",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("ref", models.UUIDField(default=uuid.uuid4, editable=False, unique=True)),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("content", models.BinaryField(max_length=5000000)),
                ("file_name", models.CharField(blank=True, max_length=200, verbose_name="file")),
                (
                    "media",
                    models.CharField(
                        choices=[("csv", "CSV file"), ("xlsx", "workbook"), ("text", "pasted text")],
                        max_length=4,
                        verbose_name="came as",
                    ),
                ),
                ("sha256", models.CharField(editable=False, max_length=64)),
                ("received_at", models.DateTimeField(verbose_name="received")),
                ("received_by", models.CharField(max_length=100, verbose_name="received by")),
                ("columns", models.JSONField(blank=True, default=dict)),
                ("statement_read", models.CharField(blank=True, max_length=1000)),
                ("statement", models.CharField(blank=True, max_length=1000, verbose_name="how its numbers run")),
                ("accepted_at", models.DateTimeField(blank=True, null=True, verbose_name="accepted")),
                ("accepted_by", models.CharField(blank=True, max_length=100, verbose_name="accepted by")),
                ("superseded_at", models.DateTimeField(blank=True, null=True, verbose_name="replaced")),
                (
                    "engagement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="paperwork", to="shows.engagement"
                    ),
                ),
                ("numbers", models.JSONField(blank=True, default=dict)),
            ],
            options={
                "ordering": ("-received_at", "-pk"),
                "constraints": [
                    models.CheckConstraint(
                        condition=models.Q(("media__in", ["csv", "xlsx", "text"])),
                        name="paperwork_media_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                    models.UniqueConstraint(
                        condition=models.Q(("accepted_at__isnull", False), ("superseded_at__isnull", True)),
                        fields=("engagement",),
                        name="paperwork_one_in_force",
                        violation_error_code="already_exists",
                        violation_error_message="Other paperwork was accepted at the same moment. Look at it first.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("accepted_at__isnull", True), ("accepted_by", "")),
                            models.Q(("accepted_at__isnull", False), models.Q(("accepted_by", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="paperwork_accepted_by_somebody",
                        violation_error_message="Say who accepts it.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            ("superseded_at__isnull", True), ("accepted_at__isnull", False), _connector="OR"
                        ),
                        name="paperwork_superseded_after_accepted",
                        violation_error_message="Only accepted paperwork is replaced.",
                    ),
                ],
            },
        ),
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
        migrations.CreateModel(
            name="SpotPlace",
            fields=[
                ("id", models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name="ID")),
                ("version", models.PositiveIntegerField(default=1, editable=False)),
                ("ended_at", models.DateTimeField(blank=True, editable=False, null=True, verbose_name="ended")),
                (
                    "ended_reason",
                    models.CharField(blank=True, editable=False, max_length=200, verbose_name="why it ended"),
                ),
                ("team_order", models.PositiveSmallIntegerField(default=1)),
                (
                    "engagement",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="spot_places", to="shows.engagement"
                    ),
                ),
                (
                    "place",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="spot_places", to="venue.place"
                    ),
                ),
                (
                    "spot",
                    models.ForeignKey(
                        on_delete=django.db.models.deletion.PROTECT, related_name="spot_places", to="shows.showspot"
                    ),
                ),
                (
                    "source",
                    models.CharField(
                        choices=[
                            ("hand", "by hand"),
                            ("proposal", "by a proposal that somebody took"),
                            ("label", "house label in the paperwork"),
                            ("place", "place in the paperwork's words"),
                            ("statement", "how the show counts"),
                        ],
                        default="hand",
                        max_length=9,
                    ),
                ),
            ],
            options={
                "ordering": ("spot", "team_order", "pk"),
                "constraints": [
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("engagement", "place"),
                        name="spot_place_unique",
                        violation_error_code="already_exists",
                        violation_error_message="Another show number is at this place already.",
                    ),
                    models.UniqueConstraint(
                        condition=models.Q(("ended_at__isnull", True)),
                        fields=("spot", "team_order"),
                        name="spot_place_team_order_unique",
                        violation_error_code="already_exists",
                        violation_error_message="The team has somebody in this order already.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("team_order__gte", 1)),
                        name="spot_place_team_order_from_1",
                        violation_error_message="A team is counted from 1.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(
                            models.Q(("ended_at__isnull", True), ("ended_reason", "")),
                            models.Q(("ended_at__isnull", False), models.Q(("ended_reason", ""), _negated=True)),
                            _connector="OR",
                        ),
                        name="spot_place_ends_with_reason",
                        violation_error_message="Say why it ends.",
                    ),
                    models.CheckConstraint(
                        condition=models.Q(("source__in", ["hand", "proposal", "label", "place", "statement"])),
                        name="spot_place_source_known",
                        violation_error_message="Choose one of the values offered.",
                    ),
                ],
            },
        ),
        AddGuard("paperwork", Unchanging("paperwork_content_unchanging", "content")),
        AddGuard("checkmark", AppendOnly("check_mark_append_only")),
        AddGuard("checksignature", AppendOnly("check_signature_append_only")),
    ]
