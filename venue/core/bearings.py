"""Where a lens stands around the target, seen from above.

         0  stage end (+y, upstage)
         |
 270 ----+---- 90        clockwise; 90 is house right = stage left (+x)
house    |     house
left    180    right     180 is the end of the house that faces the stage
"""

import math

FULL_TURN = 360.0


def bearing_about(x_m: float, y_m: float, target_x_m: float = 0.0, target_y_m: float = 0.0) -> float:
    """The bearing of a lens about the target [degrees clockwise from +y, at least 0, below 360].

    Coordinates in meters, +x to stage left, +y upstage. Exactly above the target there is no direction: 0.
    """
    return wrapped(math.degrees(math.atan2(x_m - target_x_m, y_m - target_y_m)))


def wrapped(bearing_deg: float) -> float:
    """The same direction as a bearing of at least 0 and below 360 [degrees]; never -0.0."""
    turned = bearing_deg % FULL_TURN
    return 0.0 if turned >= FULL_TURN else turned + 0.0
