from django.db import migrations

from venue.guards import AddGuard, AppendOnly, NoOverlap, Unchanging
from venue.guards.extension import AddBtreeGist


class Migration(migrations.Migration):
    dependencies = [("venue", "0004_history_links_codes")]

    operations = [
        AddBtreeGist(),
        AddGuard("house", Unchanging("house_slug_unchanging", "slug")),
        AddGuard("placement", NoOverlap("placement_no_overlap_by_unit", by="unit")),
        AddGuard("placement", NoOverlap("placement_no_overlap_by_place", by="place")),
        AddGuard("event", AppendOnly("event_append_only")),
        AddGuard("link", Unchanging("link_secret_unchanging", "secret_hash")),
        AddGuard("printedcode", Unchanging("printed_code_unchanging", "code")),
    ]
