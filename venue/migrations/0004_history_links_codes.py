import uuid

import django.core.serializers.json
import django.db.models.deletion
import django.utils.timezone
from django.conf import settings
from django.db import migrations, models

import venue.fields


class Migration(migrations.Migration):
    dependencies = [
        ("venue", "0003_units_and_placements"),
    ]

    operations = [
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
                        null=True, on_delete=django.db.models.deletion.PROTECT, related_name="links", to="venue.house"
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
    ]
