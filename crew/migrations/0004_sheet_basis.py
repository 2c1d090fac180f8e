from django.db import migrations

import venue.fields


class Migration(migrations.Migration):
    dependencies = [("crew", "0003_sheets_are_kept")]

    operations = [
        migrations.AddField(
            model_name="issuedsheet",
            name="basis",
            field=venue.fields.BinaryCharField(blank=True, default="", max_length=64),
            preserve_default=False,
        ),
    ]
