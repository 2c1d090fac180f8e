from django.db import migrations

from venue.guards import AddGuard, Unchanging


class Migration(migrations.Migration):
    dependencies = [("shows", "0003_paperwork_and_choices")]

    operations = [AddGuard("paperwork", Unchanging("paperwork_content_unchanging", "content"))]
