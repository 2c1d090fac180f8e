from django.db import migrations

from venue.guards import AddGuard, AppendOnly, NoOverlap


class Migration(migrations.Migration):
    dependencies = [("venue", "0007_lamps_hours_faults_care")]

    operations = [
        AddGuard("meter", NoOverlap("meter_no_overlap_by_unit", by="unit")),
        AddGuard("fitting", NoOverlap("fitting_no_overlap_by_lamp", by="lamp", starts="from_at", ends="until_at")),
        AddGuard("fitting", NoOverlap("fitting_no_overlap_by_unit", by="unit", starts="from_at", ends="until_at")),
        AddGuard("lampdecision", AppendOnly("lamp_decision_append_only")),
    ]
