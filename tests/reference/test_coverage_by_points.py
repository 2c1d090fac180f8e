"""The share that a lens reaches, against a fine grid of points judged one by one with numpy."""

import numpy as np
import pytest

from venue.core.coverage import Limits, PanRange, Zone, reached

STAGE = Zone("stage", ((-7, 0), (7, 0), (6, 11), (-6, 11)))
DESK = Zone("desk", ((-2, 3), (1, 2), (2, 6), (0, 4), (-2, 6)))  # with a notch
LENS = (4.5, -38.0)


def test_a_share_agrees_with_points_in_limits() -> None:
    limits = Limits(1.0, 9.5, PanRange(-16, 1.5), (DESK,), (PanRange(-9, -6),))
    (found,) = reached(LENS, limits, [STAGE])
    x, y = np.meshgrid(np.linspace(-7, 7, 1401), np.linspace(0, 11, 1101))
    on_stage = np.abs(x) <= 7 - y / 11
    pan = np.degrees(np.arctan2(x - LENS[0], y - LENS[1]))
    free = (y >= 1) & (y <= 9.5) & (pan >= -16) & (pan <= 1.5) & ~((pan > -9) & (pan < -6)) & ~in_desk(x, y)
    assert found.share == pytest.approx((free & on_stage).sum() / on_stage.sum(), abs=2e-3)


def in_desk(x: np.ndarray, y: np.ndarray) -> np.ndarray:
    """By the even-odd rule along a line to the right."""
    inside = np.zeros(x.shape, dtype=bool)
    for (x1, y1), (x2, y2) in zip(DESK.corners, (*DESK.corners[1:], DESK.corners[0]), strict=True):
        if y1 != y2:
            inside ^= ((y1 > y) != (y2 > y)) & (x < x1 + (y - y1) * (x2 - x1) / (y2 - y1))
    return inside
