"""Light readings: a unit against its own first one and against its mates, over the hours of its lamp."""

from decimal import Decimal
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from tests.factories import ACTOR, make_a_house, make_unit
from tests.venue.lamped import a_kind, a_lamp, a_unit, day, fit, read
from venue.actions import measure_light, put_meter, replace_meter
from venue.core.lengths import read_length
from venue.errors import Invalid
from venue.light_book import lamp_hours_at, light_of
from venue.light_picture import light_picture
from venue.models import Event, LightReading, LogEntry, Unit
from venue.wording_care import candela_text, finding_words, light_text

pytestmark = pytest.mark.django_db


def measure(
    unit: Unit, at: float, lux: float, setting: str = "iris open", distance: str = "40 m", **more: Any
) -> LightReading:
    length = read_length(distance, "metric")
    return measure_light(actor=ACTOR, unit=unit, at=day(at), lux=lux, distance=length, setting=setting, **more)


def test_a_reading_keeps_the_distance_as_typed_and_stands_in_the_log() -> None:
    unit = make_unit()
    reading = measure(unit, 0, 1614.59, distance="142' 6\"")
    assert (reading.distance_text, reading.distance_m) == ("142' 6\"", pytest.approx(43.434))
    assert reading.candela == pytest.approx(1614.59 * 43.434**2)
    entry = LogEntry.objects.get()
    assert (entry.kind, entry.after_lux, reading.entry) == ("light-reading", 1614.59, entry)
    assert Event.objects.get(verb="light.measured").data["setting"] == "iris open"


@pytest.mark.parametrize(("lux", "field"), [(-1.0, "lux"), (float("nan"), "lux"), (1e9, "lux")])
def test_light_that_no_meter_reads_is_refused_at_its_field(lux: float, field: str) -> None:
    with pytest.raises(Invalid) as refusal:
        measure(make_unit(), 0, lux)
    assert field in refusal.value.problems
    assert not LogEntry.objects.exists()


def test_below_seventy_percent_of_its_own_first_light_is_a_finding_at_that_setting_only() -> None:
    unit = make_unit()
    for at, lux in enumerate((1000, 900, 701)):
        measure(unit, at, lux)
    assert light_of(unit, day(9)).findings == ()
    measure(unit, 4, 699)
    measure(unit, 5, 300, setting="half iris")
    light = light_of(unit, day(9), "Iris  Open")
    assert [finding_words(each) for each in light.findings] == [
        "Gives 70 % of its own first light at this setting; below 70 % is a finding."
    ]
    assert light_of(unit, day(9)).findings == ()
    assert set(light.settings) == {"iris open", "half iris"}


def test_the_first_reading_counts_however_many_came_after_it() -> None:
    unit = make_unit()
    first = measure(unit, 0, 1000)
    rows = [LightReading(unit=unit, at=day(1 + n / 10), lux=650, distance_m=40, setting="iris open") for n in range(70)]
    LightReading.objects.bulk_create(rows)
    light = light_of(unit, day(30))
    assert (light.rows[0].reading, len(light.rows)) == (first, 61)
    assert [finding.code for finding in light.findings] == ["below-first"]


def test_more_than_a_quarter_under_its_mates_is_a_finding_and_other_kinds_are_no_mates() -> None:
    house = make_a_house()
    weak, *mates = (make_unit(house, source="short-arc", watts=2000) for _ in range(4))
    for mate in mates:
        measure(mate, 0, 1000)
    measure(make_unit(house, source="LED", watts=2000), 0, 9000)
    measure(make_unit(source="short-arc", watts=2000), 0, 9000)
    measure(weak, 1, 749)
    light = light_of(weak, day(2))
    assert (light.mates_cd, [each.code for each in light.findings]) == (1000 * 40**2, ["under-mates"])
    measure(weak, 1.5, 751)
    assert light_of(weak, day(2)).findings == ()


def test_readings_from_far_apart_do_not_compare() -> None:
    unit = make_unit()
    measure(unit, 0, 1000)
    measure(unit, 1, 5000, distance="10 m")
    assert [row.share for row in light_of(unit, day(2)).rows] == [1.0, None]


def test_lamp_hours_are_those_of_the_lamp_that_was_in_over_meters_and_relamps() -> None:
    unit = a_unit(starts=100)
    kind = a_kind(unit.house)
    fit(unit, 0, a_lamp(kind, "L-1", came_with_h=Decimal(50)), 100)
    read(unit, 10, 130)
    early = measure(unit, 10.5, 1000)
    replace_meter(actor=ACTOR, unit=unit, at=day(12), closing_h=Decimal(140), starts_h=Decimal(0))
    read(unit, 20, 25)
    across = measure(unit, 21, 900)
    fit(unit, 22, a_lamp(kind, "L-2"), 30)
    read(unit, 24, 38)
    fresh = measure(unit, 25, 990)
    found = lamp_hours_at(unit, [early, across, fresh])
    assert found == {early.pk: 80.0, across.pk: 115.0, fresh.pk: 8.0}


def test_without_a_lamp_on_file_there_are_no_hours_and_no_picture() -> None:
    unit = make_unit()
    put_meter(actor=ACTOR, unit=unit, at=day(0), starts_h=Decimal(0))
    measure(unit, 1, 1000)
    measure(unit, 2, 900)
    light = light_of(unit, day(3))
    assert [row.lamp_h for row in light.rows] == [None, None]
    assert light_picture(unit, light) == ""


def test_the_picture_names_every_reading_and_holds_no_style() -> None:
    unit = a_unit(starts=0, tag="FS-<1>")
    fit(unit, 0, a_lamp(a_kind(unit.house)), 0)
    for number in (1, 2, 3):
        read(unit, 10 * number, 40 * number)
        measure(unit, 10 * number, 1100 - 100 * number)
    picture = light_picture(unit, light_of(unit, day(40)))
    assert "FS-&lt;1&gt;" in picture and "style=" not in picture
    assert [picture.count(f"{hours} h: ") for hours in (40, 80, 120)] == [1, 1, 1]


def test_the_light_of_a_unit_takes_as_many_queries_with_two_readings_as_with_forty() -> None:
    unit = a_unit(starts=0)
    fit(unit, 0, a_lamp(a_kind(unit.house)), 0)
    counts = []
    for size in (2, 40):
        for number in range(LightReading.objects.count(), size):
            read(unit, 1 + number, 4 * (number + 1))
            measure(unit, 1.1 + number, 1000)
        with CaptureQueriesContext(connection) as queries:
            assert len(light_of(unit, day(60)).rows) == size
        counts.append(len(queries))
    assert counts[0] == counts[1] < 16


def test_light_is_told_in_the_units_of_the_house() -> None:
    assert [light_text(1614.59, system) for system in ("imperial", "metric")] == ["150 fc", "1615 lx"]
    assert [candela_text(cd) for cd in (3_375_000, 45_600, 812)] == ["3.38 Mcd", "45.6 kcd", "812 cd"]
