from django.db import migrations, models

from venue.guards import AddGuard, NoOverlap


class Migration(migrations.Migration):
    dependencies = [
        ("crew", "0008_times_of_calls"),
    ]

    operations = [
        migrations.AlterField(
            model_name="call",
            name="ends_at",
            field=models.DateTimeField(editable=False),
        ),
        migrations.AlterField(
            model_name="call",
            name="ends_date",
            field=models.DateField(verbose_name="day of the expected end"),
        ),
        migrations.AlterField(
            model_name="call",
            name="ends_time",
            field=models.TimeField(verbose_name="expected end"),
        ),
        migrations.AlterField(
            model_name="callline",
            name="ends_at",
            field=models.DateTimeField(editable=False),
        ),
        migrations.AlterField(
            model_name="callline",
            name="starts_at",
            field=models.DateTimeField(editable=False),
        ),
        migrations.AddConstraint(
            model_name="call",
            constraint=models.CheckConstraint(
                condition=models.Q(("ends_at__gt", models.F("call_at"))),
                name="call_ends_after_call",
                violation_error_message="It ends before the call time. Write a later end.",
            ),
        ),
        migrations.AddConstraint(
            model_name="call",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("meal_at__isnull", True), ("meal_date__isnull", True), ("meal_time__isnull", True)),
                    models.Q(("meal_at__isnull", False), ("meal_date__isnull", False), ("meal_time__isnull", False)),
                    _connector="OR",
                ),
                name="call_meal_all_or_none",
                violation_error_message="Write the day and the time of the meal, or neither.",
            ),
        ),
        migrations.AddConstraint(
            model_name="call",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    ("meal_at__isnull", True),
                    models.Q(("meal_at__gte", models.F("call_at")), ("meal_at__lte", models.F("ends_at"))),
                    _connector="OR",
                ),
                name="call_meal_within_call",
                violation_error_message="The meal is outside the call. Write a time between the call and its end.",
            ),
        ),
        migrations.AddConstraint(
            model_name="callline",
            constraint=models.CheckConstraint(
                condition=models.Q(("role__in", ["operator", "head", "spare", "runner"])),
                name="call_line_role_known",
                violation_error_message="Choose one of the values offered.",
            ),
        ),
        migrations.AddConstraint(
            model_name="callline",
            constraint=models.CheckConstraint(
                condition=models.Q(
                    models.Q(("own_at__isnull", True), ("own_date__isnull", True), ("own_time__isnull", True)),
                    models.Q(("own_at__isnull", False), ("own_date__isnull", False), ("own_time__isnull", False)),
                    _connector="OR",
                ),
                name="call_line_own_all_or_none",
                violation_error_message="Write the day and the time of the own call, or neither.",
            ),
        ),
        migrations.AddConstraint(
            model_name="callline",
            constraint=models.CheckConstraint(
                condition=models.Q(("ends_at__gte", models.F("starts_at"))),
                name="call_line_ends_after_start",
                violation_error_message="It ends before the call time. Write an earlier call.",
            ),
        ),
        migrations.AddConstraint(
            model_name="callline",
            constraint=models.CheckConstraint(
                condition=models.Q(("ended_at__isnull", True), ("ends_at", models.F("starts_at")), _connector="OR"),
                name="call_line_ended_books_nobody",
                violation_error_message="A line that ended books nobody.",
            ),
        ),
        AddGuard("callline", NoOverlap("call_line_no_overlap_by_person", by="person")),
    ]
