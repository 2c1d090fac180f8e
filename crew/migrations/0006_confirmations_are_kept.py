from django.db import migrations

from venue.guards import AddGuard, AppendOnly


class Migration(migrations.Migration):
    dependencies = [("crew", "0005_line_confirmations")]

    operations = [AddGuard("lineconfirmation", AppendOnly("line_confirmation_append_only"))]
