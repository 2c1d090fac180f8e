from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [
        ("shows", "0004_paperwork_is_kept"),
    ]

    operations = [
        migrations.AddField(
            model_name="paperwork",
            name="numbers",
            field=models.JSONField(blank=True, default=dict),
        ),
    ]
