"""Every word that the drawings of a house carry: its sides with their landmarks, from where it is seen, lengths."""

from django.utils.translation import gettext as _

from venue.core.abilities import BeamAtTarget
from venue.core.beams import BeamAngle
from venue.core.bearings import wrapped
from venue.core.drawing.cut import CENTER_LINE, Cut
from venue.core.drawing.plane import View
from venue.core.drawing.records import FOOT_M, PlanWords, SectionWords, SideWords
from venue.core.lengths import UnitSystem, as_typed, written
from venue.core.sightlines import Sightline
from venue.models import Setup
from venue.models.setups import Layout
from venue.wording_light import angle_words, degrees_words, height_words

ALONG = 0.26
"""Of a way of length 1: what goes farther upstage, or across, than this is said to do so (15 degrees)."""
HALF_HOUR_DEG = 15.0
Edge = tuple[str, ...]


def system_of(setup: Setup) -> UnitSystem:
    """The units in which the set-up's house tells lengths."""
    return "imperial" if setup.house.unit_system == "imperial" else "metric"


def plan_words(setup: Setup, view: View, pool: str = "") -> PlanWords:
    """The words of a plan seen from the house or from the stage; `pool` says which pools are drawn."""
    landmark = setup.stage_end_landmark
    return PlanWords(
        sides=_sides(
            setup,
            left=_edge(_("HOUSE LEFT ·"), _("stage right"), setup.house_left_landmark),
            right=_edge(_("HOUSE RIGHT ·"), _("stage left"), setup.house_right_landmark),
            view=view_words(view),
            you=_("YOU, facing the stage") if view == "house" else _("YOU, on stage, facing the house"),
        ),
        stage=_("STAGE"),
        stage_end=_("stage end · %(landmark)s") % {"landmark": landmark} if landmark else _("stage end"),
        plaster_line=_("plaster line"),
        center_line=_("center line"),
        lip=_("lip"),
        target=_("target"),
        throw=_("throw to where it ends"),
        pool=pool or _("pool on the deck"),
        reached=_("reached"),
        clock=_("o'clock"),
    )


def view_words(view: View) -> str:
    """From where a plan is seen, and that it is turned where it is."""
    if view == "stage":
        return _("Seen from the stage: turned by 180°, not mirrored")
    return _("Seen from the house")


def section_words(
    setup: Setup, view: str, cut: Cut = CENTER_LINE, *, cone: str = "", height: str = "", near: str = "", far: str = ""
) -> SectionWords:
    """The words of a section along a cut. `cone` names the beam, `near` and `far` the ends of its pool."""
    left, right = _ends(setup, cut)
    return SectionWords(
        sides=_sides(setup, left=left, right=right, view=view, you=""),
        lip=_("lip"),
        plaster_line=_("plaster line"),
        target=_("target"),
        throw=_("throw to the target"),
        cone=cone or _("edge of the beam"),
        pool=_("pool on the deck"),
        person=_("a person, to scale"),
        glass=_("glass"),
        height=height,
        near=near,
        far=far,
    )


def _ends(setup: Setup, cut: Cut) -> tuple[Edge, Edge]:
    """What lies at both ends of a section: the house and the stage, both sides of the house where it goes across."""
    has_ends = setup.layout in (Layout.ROUND, Layout.BOWL)
    down = _edge(_("HOUSE END") if has_ends else _("HOUSE"))
    up = _edge(_("STAGE END") if has_ends else _("STAGE"), setup.stage_end_landmark)
    sides = _edge(_("HOUSE LEFT ·"), _("stage right")), _edge(_("HOUSE RIGHT ·"), _("stage left"))
    across = sides if cut.along_x > 0 else sides[::-1]
    if abs(cut.along_x) <= ALONG:
        return down, up
    return across if abs(cut.along_y) <= ALONG else (down[:1] + across[0], up[:1] + across[1])


def _edge(*lines: str) -> Edge:
    return tuple(line for line in lines if line)


def _sides(setup: Setup, *, left: Edge, right: Edge, view: str, you: str) -> SideWords:
    is_imperial = system_of(setup) == "imperial"
    return SideWords(
        left=left,
        right=right,
        view=view,
        you=you,
        show_number=_("show number"),
        house_label=_("house label"),
        spare=_("spare"),
        scale=_("{} ft") if is_imperial else _("{} m"),
        no_scale=_("not to scale: places by bearing alone"),
        unit_m=FOOT_M if is_imperial else 1.0,
    )


def plan_title(view: View) -> str:
    """What a plan is, read aloud before its marks."""
    if view == "stage":
        return _("Plan of the house seen from the stage: stage, places and throws")
    return _("Plan of the house seen from the house: stage, places and throws")


def section_title() -> str:
    """What the section of the whole house is."""
    return _("Section along the center line, lenses with their heights")


def throw_title(place: str) -> str:
    """What one place's section is."""
    return _("Section along the throw of %(place)s") % {"place": place}


def opening_words(setup: Setup) -> str:
    """The opening's length as it is written on the plan; "" where it is not on file."""
    if not setup.opening_m:
        return ""
    length = as_typed(setup.opening_m, setup.opening_text, system_of(setup))
    return _("opening %(length)s") % {"length": length}


def lens_height(z_m: float, system: UnitSystem) -> str:
    """How high a lens is above the deck, as short as a tag needs it."""
    text = written(z_m, system)
    return _("%(height)s below") % {"height": text} if z_m < 0 else text


def lens_height_words(z_m: float, system: UnitSystem) -> str:
    """The same in words, where there is room: "46' above the deck"."""
    return height_words(z_m, system)


def line_words(line: Sightline, system: UnitSystem) -> tuple[str, str]:
    """The length of a throw and its angle."""
    return written(line.throw_m, system), angle_text(line)


def angle_text(line: Sightline) -> str:
    """To which side of the horizontal a light shines, and how far: "17.6° below horizontal"."""
    way = _("%(angle)s above horizontal") if line.angle_deg < 0 else _("%(angle)s below horizontal")
    return way % {"angle": degrees_words(abs(line.angle_deg))}


def cone_words(angle: BeamAngle) -> str:
    """The edge of a beam with its full angle and where that ends, as short as a key needs it."""
    level = _("50 or 10 %%?") % {} if angle.percent is None else _("%(level)d %%") % {"level": angle.percent}
    return _("edge of the beam: %(angle)s° (%(level)s)") % {"angle": f"{angle.full_deg:.10g}", "level": level}


def pool_end_words(*, is_near: bool, length_m: float, system: UnitSystem) -> str:
    """How far from under the lens, along the throw, a pool begins or ends."""
    text = written(length_m, system)
    if length_m < 0:
        return _("pool from %(length)s behind") % {"length": text}
    return _("pool from %(length)s") % {"length": text} if is_near else _("to %(length)s") % {"length": text}


def pool_names() -> dict[str, str]:
    """What the pools of either end of the range are called below a plan."""
    return {"narrow": _("pool on the deck, narrowest"), "wide": _("pool on the deck, widest")}


def pool_text(beam: BeamAtTarget | None, system: UnitSystem) -> str:
    """How large a pool is on the deck, and the angle of its beam; "" where no angle is recorded."""
    if beam is None or beam.angle is None:
        return ""
    values = {"angle": angle_words(beam.angle)}
    if beam.deck is None:
        return _("none: the beam passes the horizon (%(angle)s)") % values
    size = {"length": written(beam.deck.length_m, system), "width": written(beam.deck.width_m, system)}
    return _("%(length)s by %(width)s (%(angle)s)") % (values | size)


def clock_text(bearing_deg: float, twelve_deg: float) -> str:
    """The hour to the half on a dial whose 12 is at `twelve_deg`: "1", "1:30", "12"."""
    halves = int(wrapped(bearing_deg - twelve_deg) / HALF_HOUR_DEG + 0.5) % 24
    hour = halves // 2 or 12
    return f"{hour}:30" if halves % 2 else str(hour)


def bearing_text(bearing_deg: float, twelve_deg: float) -> str:
    """A bearing with the clock, as short as a tag needs it: "45° · 1:30"."""
    values = {"degrees": f"{round(bearing_deg) % 360}°", "clock": clock_text(bearing_deg, twelve_deg)}
    return _("%(degrees)s · %(clock)s") % values
