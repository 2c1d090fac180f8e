"""Wall times at clock changes, against published instants."""

from datetime import UTC, datetime

import pytest

from venue.core.local_time import possible_instants, wall_time

NEW_YORK = "America/New_York"


@pytest.mark.parametrize("zone", ["US/Eastern", NEW_YORK])
def test_the_double_half_past_one_of_pep_495(zone: str) -> None:
    """PEP 495, "Local Time Disambiguation": 2014-11-02 01:30, fold 0 and 1, as POSIX timestamps."""
    found = possible_instants(datetime(2014, 11, 2, 1, 30), zone)
    assert [instant.timestamp() for instant in found] == [1414906200, 1414909800]


@pytest.mark.parametrize("timestamp", [1425799800, 1425796200])
def test_the_missing_half_past_two_of_pep_495(timestamp: int) -> None:
    """PEP 495: 2015-03-08 02:30 with fold 0 and 1 gives these timestamps; clocks show 02:30 at neither."""
    missing = datetime(2015, 3, 8, 2, 30)
    assert possible_instants(missing, "US/Eastern") == ()
    assert wall_time(datetime.fromtimestamp(timestamp, UTC), "US/Eastern") != missing


def test_the_first_of_two_is_meant_in_rfc_5545() -> None:
    """RFC 5545, 3.3.5: TZID=America/New_York:20071104T013000 is 2007-11-04T05:30:00Z, the first of two."""
    found = possible_instants(datetime(2007, 11, 4, 1, 30), NEW_YORK)
    assert found == (datetime(2007, 11, 4, 5, 30, tzinfo=UTC), datetime(2007, 11, 4, 6, 30, tzinfo=UTC))


@pytest.mark.parametrize(
    ("starts", "ends", "hours"),
    [
        (datetime(2026, 3, 7, 23), datetime(2026, 3, 8, 7), 7),
        (datetime(2026, 10, 31, 23), datetime(2026, 11, 1, 7), 9),
    ],
)
def test_a_night_over_a_clock_change_is_an_hour_shorter_or_longer(starts: datetime, ends: datetime, hours: int) -> None:
    """Derived from the United States' rule for daylight time; no published answer."""
    (begin,), (end,) = possible_instants(starts, NEW_YORK), possible_instants(ends, NEW_YORK)
    assert (end - begin).total_seconds() == hours * 3600
