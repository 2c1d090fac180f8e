import django.db.models.deletion
from django.db import migrations, models


class Migration(migrations.Migration):
    dependencies = [("shows", "0007_arrival_is_kept")]

    operations = [
        migrations.AddField(
            model_name="engagement",
            name="earlier",
            field=models.ForeignKey(
                blank=True,
                editable=False,
                null=True,
                on_delete=django.db.models.deletion.PROTECT,
                related_name="later",
                to="shows.engagement",
            ),
        ),
    ]
