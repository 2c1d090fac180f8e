"""House files of every kind, all of them right, for properties."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

from hypothesis import strategies as st

from venue.house_file.checking.light import AREA, CIRCUIT, FILTER
from venue.house_file.checking.names import LABEL, POSITION, TAG, Naming

LAYOUTS = ("proscenium", "thrust", "round", "bowl")
ZONES = ("front", "side", "rear", "overhead", "bowl")
SIZES = ("head", "head and shoulders", "waist", "knees", "full body")
THROW_ENDS = ("lip", "curtain", "plaster", "center", "mark")
START = datetime(2026, 1, 1, tzinfo=UTC)

DAYS = st.dates(date(1900, 1, 1), date(2200, 12, 31))

Document = dict[str, Any]


def texts(longest: int) -> st.SearchStrategy[str]:
    """Text of any script that can be stored: no control characters, no halves, something to see."""
    letters = st.characters(exclude_categories=("Cs", "Cc"))
    return st.text(letters, min_size=1, max_size=longest).filter(lambda text: text.strip())


def names(naming: Naming, longest: int, most: int) -> st.SearchStrategy[list[str]]:
    """Different names, by their keys."""
    plain = st.from_regex(r"\A[A-Z]?[0-9]{1,3}[a-z]?\Z")
    name = st.one_of(plain, texts(longest)).filter(lambda text: naming.key(text) and naming.fits(text))
    return st.lists(name, max_size=most, unique_by=naming.key)


def numbers(low: float, high: float) -> st.SearchStrategy[float]:
    return st.one_of(st.floats(low, high, allow_nan=False), st.integers(int(low) + 1, int(high)))


def optional(**values: st.SearchStrategy[Any]) -> st.SearchStrategy[Document]:
    """Some of the keys."""
    return st.fixed_dictionaries({}, optional=values)


COORDINATES = numbers(-1000, 1000)
HEIGHTS = numbers(-3, 91)
BEARINGS = st.floats(0, 360, exclude_max=True)
LENGTHS = numbers(0, 500)

_LAYOUT = {
    "layout": st.sampled_from(LAYOUTS),
    "opening_m": LENGTHS,
    "depth_m": LENGTHS,
    "apron_m": LENGTHS,
    "prompt_side": st.sampled_from(("stage left", "stage right")),
    "target": st.tuples(COORDINATES, COORDINATES, HEIGHTS).map(list),
    "twelve_deg": BEARINGS,
    "house_left_landmark": texts(60),
    "house_right_landmark": texts(60),
    "stage_end_landmark": texts(60),
    "opening_text": texts(40),
    "depth_text": texts(40),
    "apron_text": texts(40),
    "target_x_text": texts(40),
    "target_y_text": texts(40),
    "target_z_text": texts(40),
}
_FACTS = {
    "access": texts(300),
    "access_min": st.integers(0, 1440),
    "passage_m": numbers(0, 50),
    "passage_text": texts(40),
    "load_limit_kg": numbers(0, 100_000),
    "power": texts(300),
    "power_switched_at": texts(300),
    "intercom": texts(300),
    "glass": st.sampled_from(("open", "sliding", "fixed")),
    "fall_protection": st.sampled_from(("none", "restraint", "harness")),
    "rescue_plan": texts(300),
    "show_exit": st.sampled_from(("yes", "no")),
    "show_exit_words": texts(300),
    "who_may_operate": st.sampled_from(("house", "local", "touring")),
    "glass_loss_pct": numbers(0, 60),
    "other_load_kg": numbers(0, 100_000),
    "seats_lost": st.integers(0, 10_000),
    "needs": texts(300),
    "farthest_upstage_m": numbers(0, 1000),
    "farthest_upstage_text": texts(40),
    "farthest_downstage_m": numbers(-1000, -1),
    "farthest_downstage_text": texts(40),
}
PANS = st.fixed_dictionaries({"pan_from_deg": numbers(-360, 360), "pan_to_deg": numbers(-360, 360)})
OUTLINES = st.tuples(numbers(-900, 900), numbers(-900, 900), st.floats(0.1, 50), st.floats(0.1, 50)).map(
    lambda box: [[box[0], box[1]], [box[0] + box[2], box[1]], [box[0], box[1] + box[3]]]
)
"""Triangles."""
_UNIT = {
    "source": texts(40),
    "watts": numbers(50, 10_000),
    "frames": st.integers(0, 12),
    "frame_1_end": st.sampled_from(("lens", "lamp")),
    "magazine": st.sampled_from(("front", "between")),
    "narrow_deg": numbers(0.3, 10),
    "wide_deg": numbers(10, 60),
    "narrow_cd": numbers(1000, 50_000_000),
    "wide_cd": numbers(1000, 50_000_000),
    "cct_k": numbers(1500, 20_000),
    "angle_percent": st.sampled_from((50, 10)),
    "sized_by": st.sampled_from(("zoom", "iris")),
    "far_field_m": numbers(0, 305),
    "far_field_text": texts(40),
    "weight_kg": numbers(1, 1000),
    "input_w": numbers(50, 10_000),
    "power_factor": st.floats(0.05, 1),
    "hired_from": texts(120),
    "back_on": DAYS.map(str),
}


@st.composite
def house_documents(draw: st.DrawFn) -> Document:
    """A whole house file."""
    position_names = draw(names(POSITION, 80, most=4))
    circuit_names = draw(names(CIRCUIT, 60, most=2))
    orders = iter(draw(st.permutations(range(1, 40))))
    positions = [draw(_positions(name, orders, circuit_names)) for name in position_names]
    units = [{"tag": tag, **draw(optional(**_UNIT))} for tag in draw(names(TAG, 40, most=4))]
    return {
        "format": "throwbook-house",
        "version": 1,
        "house": draw(_houses(position_names)),
        "setups": [draw(_setups(f"Set-up {n}", position_names)) for n in range(draw(st.integers(0, 2)))],
        "positions": positions,
        **draw(_stock(circuit_names)),
        "units": units,
        "placements": draw(_placements(units, positions)),
    }


@st.composite
def _stock(draw: st.DrawFn, circuit_names: list[str]) -> Document:
    """Circuits, filters and the house's own sizes."""
    circuit = optional(volts=numbers(12, 600), rating_a=numbers(0.5, 400), other_a=numbers(0, 400))
    color = optional(
        name=texts(80),
        transmission_pct=numbers(0, 100),
        shift_mired=numbers(-1000, 1000),
        is_near_neutral=st.booleans(),
        is_diffusion=st.booleans(),
    )
    sizes = draw(st.lists(st.sampled_from(SIZES), unique=True, max_size=3))
    return {
        "circuits": [{"name": name, **draw(circuit)} for name in circuit_names],
        "filters": [{"code": code, **draw(color)} for code in draw(names(FILTER, 40, most=2))],
        "sizes": [
            {"size": size, "diameter_m": draw(numbers(0.1, 20)), **draw(optional(diameter_text=texts(40)))}
            for size in sizes
        ],
    }


@st.composite
def _areas(draw: st.DrawFn) -> list[Document]:
    more = optional(kind=st.sampled_from(("stage", "pit", "aisle", "house")), corners_text=texts(300))
    return [{"name": name, "corners": draw(OUTLINES), **draw(more)} for name in draw(names(AREA, 60, most=2))]


@st.composite
def _blocked(draw: st.DrawFn, labels: list[str]) -> list[Document]:
    """Several may have one name."""
    found = []
    for name in draw(st.lists(st.sampled_from(("stack", "beam", "Балка")), max_size=3)):
        more = optional(corners=OUTLINES, corners_text=texts(300), noted_on=DAYS.map(str))
        blockage = {"name": name, **draw(more), **draw(st.one_of(st.just({}), PANS))}
        found.append(blockage | (draw(optional(place=st.sampled_from(labels))) if labels else {}))
    return found


@st.composite
def _positions(draw: st.DrawFn, name: str, orders: Any, circuit_names: list[str]) -> Document:
    labels = draw(names(LABEL, 40, most=4))
    facts = draw(optional(kind=texts(40), zone=st.sampled_from(ZONES), level=numbers(-100, 100), **_FACTS))
    if draw(st.booleans()):
        facts |= {"checked_on": draw(DAYS).isoformat()}
        facts |= {"checked_by": draw(texts(100))}
    facts |= draw(st.one_of(st.just({}), PANS)) | {"blocked": draw(_blocked(labels))}
    fed = optional(circuit=st.sampled_from(circuit_names)) if circuit_names else st.just({})
    slots = [{"label": label, "order": next(orders), **draw(_lenses()), **draw(fed)} for label in labels]
    return {"name": name, **facts, "slots": slots}


@st.composite
def _lenses(draw: st.DrawFn) -> Document:
    lens = {"x_m": COORDINATES, "y_m": COORDINATES, "z_m": HEIGHTS}
    where = draw(st.fixed_dictionaries(lens)) if draw(st.booleans()) else {}
    if draw(st.booleans()):
        where |= {"throw_m": draw(numbers(1.5, 305)), "throw_end": draw(st.sampled_from(THROW_ENDS))}
        where |= draw(
            optional(throw_text=texts(40), throw_mark=texts(60), throw_end_y_m=COORDINATES, throw_end_text=texts(40))
        )
    return {**where, **draw(optional(bearing_deg=BEARINGS, x_text=texts(40), y_text=texts(40), z_text=texts(40)))}


def _zones(position_names: list[str]) -> st.SearchStrategy[dict[str, str]]:
    if not position_names:
        return st.just({})
    return st.dictionaries(st.sampled_from(position_names), st.sampled_from(ZONES), max_size=3)


@st.composite
def _setups(draw: st.DrawFn, name: str, position_names: list[str]) -> Document:
    return {"name": name, **draw(optional(**_LAYOUT)), "zones": draw(_zones(position_names)), "areas": draw(_areas())}


@st.composite
def _houses(draw: st.DrawFn, position_names: list[str]) -> Document:
    facts = optional(
        slug=st.from_regex(r"\A[a-z0-9_-]{1,60}\Z"),
        time_zone=st.sampled_from(("UTC", "America/Chicago", "Europe/Lisbon", "Asia/Kathmandu")),
        units=st.sampled_from(("imperial", "metric")),
        day_turns_at=st.times().map(str),
        burn_before_min=st.integers(0, 600),
        usual_event_min=st.integers(1, 1440),
        use_window_days=st.integers(1, 366),
        setup_name=texts(80),
        tech_note=texts(300),
        **_LAYOUT,
    )
    return {"name": draw(texts(120)), **draw(facts), "zones": draw(_zones(position_names)), "areas": draw(_areas())}


@st.composite
def _placements(draw: st.DrawFn, units: list[Document], positions: list[Document]) -> list[Document]:
    """Each unit goes from place to place, now and then elsewhere; a place is used by one unit only."""
    places = [(position["name"], slot["label"]) for position in positions for slot in position["slots"]]
    found = []
    for index, unit in enumerate(units):
        own = places[index :: len(units)]
        starts_at = START + draw(st.timedeltas(timedelta(), timedelta(days=900)))
        for position, label in own:
            until = starts_at + draw(st.timedeltas(timedelta(microseconds=1), timedelta(days=400)))
            stay = {"unit": unit["tag"], "position": position, "label": label, "from": starts_at.isoformat()}
            is_last = own[-1] == (position, label)
            found.append(stay if is_last else stay | {"until": until.isoformat()})
            starts_at = until
            if not is_last and draw(st.booleans()):
                until = starts_at + draw(st.timedeltas(timedelta(microseconds=1), timedelta(days=400)))
                away = {
                    "elsewhere": draw(st.sampled_from(("shop", "store", "lent"))),
                    **draw(optional(elsewhere_words=texts(120))),
                }
                found.append({"unit": unit["tag"], **away, "from": starts_at.isoformat(), "until": until.isoformat()})
                starts_at = until
    return draw(st.permutations(found))
