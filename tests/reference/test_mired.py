"""Color temperature against published tables."""

import pytest

from venue.core.color import behind, mired, nearest_correction, shift_mired
from venue.core.filters import Filter

# Color meter manual, appendix: shifts of photographic filters in mired. Read. Transmissions are not printed there;
# 1 stands for "not looked at".
SHIFTS = (
    "81 +9, 81A +18, 81B +27, 81C +35, 81D +42, 81EF +52, 85 +112, 85B +131, 85C +81, "
    "82 -10, 82A -21, 82B -32, 82C -45, 80A -131, 80B -112, 80C -81, 80D -56"
)
FILTERS = [Filter(name, 1.0, float(shift)) for name, shift in map(str.split, SHIFTS.split(", "))]


@pytest.mark.parametrize(("kelvin", "printed"), [(2000, 500), (3200, 312), (5600, 179), (6500, 154)])
def test_reciprocals_of_color_temperatures(kelvin: float, printed: int) -> None:
    """Practical Cinematography, fig. 14.1: 10^6 / K, rounded. Read."""
    assert round(mired(kelvin)) == printed


@pytest.mark.parametrize(
    ("from_k", "names"), [(2490, ["82C", "82C"]), (3000, ["82A"]), (3600, ["81C"]), (3850, ["81EF"])]
)
def test_filters_to_obtain_3200_kelvin(from_k: float, names: list[str]) -> None:
    """The same manual, "to obtain 3200 K", within 15 K. Second hand. The nearest of the list is the printed one."""
    found = nearest_correction(shift_mired(from_k, 3200), FILTERS, tolerance_mired=1.5)
    assert [each.name for each in found.filters] == names
    assert behind(from_k, found.shift_mired) == pytest.approx(3200, abs=15)
