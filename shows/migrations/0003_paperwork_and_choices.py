import uuid

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("shows", "0002_show_spots"),
        ("venue", "0005_guards"),
    ]

    operations = [
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
        migrations.AddField(
            model_name="spotplace",
            name="source",
            field=models.CharField(
                choices=[
                    ("hand", "by hand"),
                    ("label", "house label in the paperwork"),
                    ("place", "place in the paperwork's words"),
                    ("statement", "how the show counts"),
                ],
                default="hand",
                max_length=9,
            ),
        ),
        migrations.AddConstraint(
            model_name="spotplace",
            constraint=models.CheckConstraint(
                condition=models.Q(("source__in", ["hand", "label", "place", "statement"])),
                name="spot_place_source_known",
                violation_error_message="Choose one of the values offered.",
            ),
        ),
    ]
