"""How long the derived values of a house of 24 places take, as a ratio to a floor measured in the same run.

The floor takes the 24 throws alone.
"""

import math

import pytest

from tests.bench.measuring import report
from venue.core.abilities import Optics, ability
from venue.core.throws import Point

pytestmark = pytest.mark.bench


def test_twenty_four_places() -> None:
    lenses = [Point(-11.5 + number, -38.0 + number % 5, 14.0) for number in range(24)]
    target, optics = Point(0.0, 0.0, 1.5), Optics(0.9, 7.0, 6.5e6, 9e5)
    report(
        "24 places: throw, angles, pick-ups, beams, pools",
        lambda: [ability(lens, target, optics) for lens in lenses],
        lambda: [math.dist((lens.x_m, lens.y_m, lens.z_m), (0.0, 0.0, 1.5)) for lens in lenses],
    )
