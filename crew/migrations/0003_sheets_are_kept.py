from django.db import migrations

from venue.guards import AddGuard, AppendOnly


class Migration(migrations.Migration):
    dependencies = [("crew", "0002_calls")]

    operations = [AddGuard("issuedsheet", AppendOnly("issued_sheet_append_only"))]
