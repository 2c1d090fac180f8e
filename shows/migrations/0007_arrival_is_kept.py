from django.db import migrations

from venue.guards import AddGuard, AppendOnly


class Migration(migrations.Migration):
    dependencies = [("shows", "0006_asks_fit_and_arrival")]

    operations = [
        AddGuard("checkmark", AppendOnly("check_mark_append_only")),
        AddGuard("checksignature", AppendOnly("check_signature_append_only")),
    ]
