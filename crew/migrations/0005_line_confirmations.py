import uuid

import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("crew", "0004_sheet_basis"),
    ]

    operations = [
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
    ]
