import uuid

import django.db.models.deletion
from django.db import migrations, models

import crew.models.offers


class Migration(migrations.Migration):
    dependencies = [
        ("crew", "0010_day_rules_and_list"),
    ]

    operations = [
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
    ]
