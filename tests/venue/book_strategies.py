"""What a house wrote down of lamps, hours, faults and care, all of it right, for properties."""

import base64
from datetime import UTC, datetime, timedelta
from typing import Any

from hypothesis import strategies as st

from venue.core.names import name_key
from venue.house_file.checking.names import LAMP, LAMP_KIND, Naming

START = datetime(2025, 1, 1, 4, 30, tzinfo=UTC)
LOG_KINDS = ("clean", "align", "relamp", "repair", "inspect", "electrical-test", "light-reading", "other")
PNG = base64.b64encode(b"\x89PNG\r\n\x1a\n").decode()

Document = dict[str, Any]


TEXTS = ("as told", "Ложа “7”", "劇場 e\u0301", 'quoted " and \\', "two  spaces", "ﬁne ½", "\u202eturned", "'")


def words(longest: int) -> st.SearchStrategy[str]:
    """Texts of several scripts, with marks that a file has to quote; the house's own are of every kind."""
    return st.sampled_from([text for text in TEXTS if len(text) <= longest])


def _names(naming: Naming, least: int, most: int) -> st.SearchStrategy[list[str]]:
    name = st.sampled_from(["L-0117", "L-0118", "L-2", *(text for text in TEXTS if naming.key(text))])
    return st.lists(name, min_size=least, max_size=most, unique_by=naming.key)


def some(**values: st.SearchStrategy[Any]) -> st.SearchStrategy[Document]:
    """Some of the keys."""
    return st.fixed_dictionaries({}, optional=values)


def _hundredths(low: float, high: float) -> st.SearchStrategy[float]:
    return st.integers(round(low * 100), round(high * 100)).map(lambda number: number / 100)


def _after(hours: float) -> str:
    return (START + timedelta(hours=hours)).isoformat()


SHARES = st.sampled_from((0.5, 0.75, 0.8, 0.9, 1.0, 1.1))
STRUCK = st.fixed_dictionaries(
    {"struck": st.just(_after(9999)), "struck_reason": words(20)}, optional={"struck_by": words(10)}
)
ENTERED = st.one_of(st.just({}), st.fixed_dictionaries({"entered": st.just(_after(9998)), "entered_by": words(10)}))
ENDED = st.one_of(st.just({}), st.fixed_dictionaries({"ended": st.just(_after(20_000)), "ended_reason": words(20)}))
TIMES = st.integers(0, 500).map(_after)


@st.composite
def book_documents(draw: st.DrawFn) -> Document:
    """A small house with all that it wrote down."""
    tags = ["FS-01", "Süd “2”"]
    house = {"name": "Vellory Opera", "slug": "vellory", "time_zone": "America/Chicago"}
    positions = [{"name": "Rear booth", "slots": [{"label": "1", "order": 1}]}]
    units = [{"tag": tags[0], "source": "xenon"}, {"tag": tags[1], **draw(ENDED)}]
    stays = [
        {"unit": tags[0], "position": "Rear booth", "label": "1", "from": _after(0), "until": _after(9)},
        {"unit": tags[0], "elsewhere": "lent", "elsewhere_words": "the next house", "from": _after(9)},
    ]
    document = {"format": "throwbook-house", "version": 1, "house": house, "positions": positions, "units": units}
    return {**document, "placements": stays, **draw(books(tags))}


@st.composite
def books(draw: st.DrawFn, tags: list[str]) -> Document:
    """The sections of a house with units of these tags."""
    kinds = draw(_kinds())
    serials = draw(_names(LAMP, len(tags), 4))
    lamps = [{"serial": serial, "kind": draw(st.sampled_from(kinds))["name"]} for serial in serials]
    book: Document = {name: [] for name in ("meters", "readings", "hours_added", "faults", "log", "light_readings")}
    for lamp in lamps:
        lamp |= draw(some(came_with_h=_hundredths(0, 900), came_with_strikes=st.integers(0, 50)))
        lamp |= {"fitted": [], "decisions": draw(st.lists(_decisions(), max_size=2))}
    for index, tag in enumerate(tags):
        draw(_hours(tag, lamps[index :: len(tags)], book))
        draw(_care(tag, book))
    book["log"] += draw(st.lists(_entries({"accessory": "sight"}), max_size=1))
    return {"lamp_kinds": kinds, "lamps": lamps, **book, "care_plans": draw(_plans(tags))}


@st.composite
def _kinds(draw: st.DrawFn) -> list[Document]:
    found = []
    for name in draw(_names(LAMP_KIND, 1, 2)):
        warn_at, stop_at = sorted((draw(SHARES), draw(SHARES)))
        minutes = st.floats(0, 1440, allow_nan=False)
        more = some(
            source=words(20), rated_h=_hundredths(1, 5000), warm_up_min=minutes, opening_min=minutes,
            spares=st.integers(0, 9), on_order=st.integers(0, 9), lead_days=st.integers(0, 99),
            keep_at_least=st.integers(0, 9),
        )  # fmt: skip
        found.append({"name": name, "warn_at": warn_at, "stop_at": stop_at, **draw(more), **draw(ENDED)})
    return found


def _decisions() -> st.SearchStrategy[Document]:
    texts = {"by": words(20), "makers_source": words(20), "reason": words(20)}
    return st.fixed_dictionaries({"at": TIMES, **texts, "until_h": _hundredths(0, 5000)})


@st.composite
def _hours(draw: st.DrawFn, tag: str, lamps: list[Document], book: Document) -> None:
    """Meters one after another, their readings, and the lamps in the unit one after another."""
    if draw(st.booleans()):
        at = draw(st.integers(0, 20))
        entry = {"unit": tag, "at": _after(at), "hours": draw(_hundredths(0.01, 5)), **draw(some(why=words(20)))}
        book["hours_added"].append({**entry, **draw(st.one_of(st.just({}), STRUCK)), **draw(ENTERED)})
    at, marks = 0, []
    meters = draw(st.integers(0, 2))
    is_told = meters != 1 or draw(st.booleans())
    for _meter in range(meters):
        began, shown, strikes = at, draw(_hundredths(0, 900)), 0
        meter = {"unit": tag, "counts": draw(st.sampled_from(("lamp", "power"))), "from": _after(at)}
        if is_told:
            book["meters"].append({**meter, "starts_h": shown, **draw(some(note=words(20)))})
        for _reading in range(draw(st.integers(0, 3))):
            at += draw(st.integers(1, 48))
            shown, strikes = round(shown + draw(_hundredths(0, 0.9)), 2), strikes + draw(st.integers(0, 2))
            marks.append((at, shown))
            entry = {"unit": tag, "at": _after(at), "meter_h": shown, **draw(some(strikes=st.just(strikes)))}
            if draw(st.integers(0, 3)):
                book["readings"].append({**entry, **draw(ENTERED)})
        at += draw(st.integers(0 if at > began else 1, 3))
    if draw(st.booleans()) and marks and is_told:
        mistaken = {"unit": tag, "at": _after(marks[0][0]), "meter_h": draw(_hundredths(0, 99)), **draw(STRUCK)}
        book["readings"].append(mistaken)
    draw(_fittings(tag, lamps, marks))


@st.composite
def _fittings(draw: st.DrawFn, tag: str, lamps: list[Document], marks: list[tuple[int, float]]) -> None:
    """Each lamp is in from one reading until the next, the last one for good."""
    for index, lamp in enumerate(lamps[: len(marks)]):
        at, shown = marks[index]
        fitted: Document = {"unit": tag, "from": _after(at), **draw(some(meter_h=st.just(shown), reason=words(20)))}
        if index + 1 < len(marks) and (index + 1 < len(lamps) or draw(st.booleans())):
            out_at, out = marks[index + 1]
            fitted |= {"until": _after(out_at), **draw(some(meter_out_h=st.just(out), out_reason=words(20)))}
            fitted |= draw(some(fate=st.sampled_from(("shelf", "spent", "broken", "returned"))))
            lamp |= draw(ENDED)
        lamp["fitted"].append(fitted)
        if "until" not in fitted:
            return


@st.composite
def _care(draw: st.DrawFn, tag: str, book: Document) -> None:
    book["faults"] += draw(st.lists(_faults(tag), max_size=2))
    book["log"] += draw(st.lists(_entries({"unit": tag}), max_size=3))
    measured = {"unit": st.just(tag), "at": TIMES, "lux": st.floats(0, 1e7), "distance_m": st.floats(0.1, 500)}
    light = st.fixed_dictionaries({**measured, "setting": words(20)}, optional={"distance_text": words(10)})
    book["light_readings"] += draw(st.lists(light, max_size=2))


@st.composite
def _faults(draw: st.DrawFn, tag: str) -> Document:
    means: Document = draw(
        st.sampled_from(
            (
                {"means": "usable", "limit": "sight missing"},
                {"means": "limited", "limit": "frame 4 out"},
                {"means": "limited", "limit": "No full blackout"},
                {"means": "limited", "limit_kind": "frames", "frames_out": "2, 4", "limit": "the amber one"},
                {"means": "limited", "limit_kind": "iris", "limit": "head and shoulders"},
                {"means": "limited", "limit": "drifts to house left"},
                {"means": "out"},
                {"means": "out", "danger": "glass"},
            )
        )
    )
    fault = {"unit": tag, **means, "opened": draw(TIMES), **draw(some(part=words(20), opened_by=words(10)))}
    if draw(st.booleans()):
        fault |= {"closed": _after(900), "closed_by": draw(words(10))}
    return fault


@st.composite
def _entries(draw: st.DrawFn, about: Document) -> Document:
    kind = draw(st.sampled_from((*LOG_KINDS, "weighed")))
    entry: Document = {**about, "at": draw(TIMES), "kind": kind}
    lux = st.floats(0, 1e7, allow_nan=False)
    entry |= draw(
        some(by=words(20), text=words(40), parts=words(20), meter_h=_hundredths(0, 900), before_lux=lux, after_lux=lux)
    )
    entry |= draw(st.one_of(st.just({}), STRUCK))
    if kind == "relamp":
        answers = some(isolated=st.booleans(), cooled=st.booleans(), protected=st.booleans(), aligned=st.booleans())
        entry |= {"open": draw(st.booleans()), "answers": draw(answers)}
    if draw(st.booleans()):
        entry["attachments"] = [{"name": "focus.png", "content": PNG, "added": _after(50), "added_by": "Ike"}]
    return entry | draw(ENTERED)


@st.composite
def _plans(draw: st.DrawFn, tags: list[str]) -> list[Document]:
    covers = [
        {"covers": "all"},
        {"covers": "source", "source": "short-arc"},
        {"covers": "accessory", "accessory": "sight"},
    ]
    covers += [{"covers": "unit", "unit": tag} for tag in tags]
    found = []
    for index, about in enumerate(draw(st.lists(st.sampled_from(covers), max_size=2))):
        plan = {"what": f"care {index}", **about, "every_days": draw(st.integers(1, 400)), **draw(ENDED)}
        if about["covers"] == "accessory":
            plan["done"] = draw(st.lists(st.fixed_dictionaries({"at": TIMES}), max_size=1))
        elif about["covers"] == "all":
            plan["every_h"] = draw(_hundredths(1, 400))
            done = {name_key(tag): {"unit": tag, "at": draw(TIMES), "unit_h": draw(_hundredths(0, 9))} for tag in tags}
            plan["done"] = draw(st.lists(st.sampled_from(list(done.values())), unique_by=str)) if done else []
        found.append(plan)
    return found
