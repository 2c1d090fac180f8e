"""Questions about places and units, by hand and drawn."""

from hypothesis import strategies as st

from shows.core.proposing.records import Candidate, Judged, Question, Wanted

NEEDS = ("frames", "light", "level")
SOURCES = ("short-arc", "LED", "discharge")


def here(label: str, light: str = "", order: int = 0) -> Candidate:
    """The unit that stands at the place with this label."""
    return Candidate(f"at {label}", f"place {label}", f"unit {label}", label, light=light, order=order)


def brought(unit: str, label: str, light: str = "") -> Candidate:
    """The unit of one place carried to the empty place with this label."""
    return Candidate(f"{unit} to {label}", f"place {label}", f"unit {unit}", label, is_moved=True, light=light)


def show(*numbers: str) -> list[Wanted]:
    return [Wanted(number, number) for number in numbers]


def asked(wanted: list[Wanted], candidates: list[Candidate], **facts: object) -> Question:
    """Every candidate is offered to every spot; `broken` and `life` are by "spot/candidate" or by candidate."""
    broken, life = facts.pop("broken", {}), facts.pop("life", {})
    assert isinstance(broken, dict)
    assert isinstance(life, dict)
    judged = [
        Judged(
            spot.key,
            each.key,
            frozenset(broken.get(f"{spot.key}/{each.key}", broken.get(each.key, ()))),
            life.get(f"{spot.key}/{each.key}", life.get(each.key, 500.0)),
        )
        for spot in wanted
        for each in candidates
    ]
    return Question(wanted, candidates, judged, **facts)  # type: ignore[arg-type]


@st.composite
def questions(draw: st.DrawFn, spots: int = 5, offers: int = 7, may_fix: bool = True) -> Question:
    """Up to so many spots and candidates; units may stand at several places, places hold one of several units."""
    count = draw(st.integers(1, spots))
    candidates = [_candidate(draw, index) for index in range(draw(st.integers(0, offers)))]
    keys = [each.key for each in candidates]
    wanted = [_wanted(draw, index, count, keys if may_fix else []) for index in range(count)]
    judged = [
        each
        for spot in wanted
        for key in keys
        if (each := _judged(draw, spot, key)) is not None
    ]  # fmt: skip
    return Question(wanted, candidates, judged, pair_costs(draw))


def _candidate(draw: st.DrawFn, index: int) -> Candidate:
    is_moved = draw(st.booleans()) and draw(st.booleans())
    return Candidate(
        key=f"c{index}",
        place_key=f"p{draw(st.integers(0, 4)) if is_moved else 10 + index}",
        unit_key=None if draw(st.integers(0, 9)) == 0 else f"u{draw(st.integers(0, 5)) if is_moved else index}",
        label_key=str(draw(st.integers(0, 6))),
        is_moved=is_moved,
        light=draw(st.sampled_from(("", *SOURCES))),
        order=draw(st.integers(0, 3)),
    )


def _wanted(draw: st.DrawFn, index: int, count: int, keys: list[str]) -> Wanted:
    return Wanted(
        key=f"w{index}",
        label_key=str(draw(st.integers(0, 6))),
        fixed=draw(st.sampled_from(keys)) if keys and draw(st.integers(0, 5)) == 0 else None,
        pair_of=f"w{draw(st.integers(0, count))}" if draw(st.booleans()) else None,
        may_be_left=draw(st.integers(0, 5)) == 0,
    )


def _judged(draw: st.DrawFn, spot: Wanted, key: str) -> Judged | None:
    if spot.fixed != key and draw(st.integers(0, 9)) == 0:
        return None
    broken = draw(st.sampled_from([(), (), (), ("frames",), ("light", "level")]))
    return Judged(spot.key, key, frozenset(broken), draw(st.sampled_from([500.0, 500.0, 49.5, 20.0, -3.0, None])))


def pair_costs(draw: st.DrawFn) -> dict[tuple[str, str], int]:
    costs = st.sampled_from((0, 1, 2))
    return {(one, other): draw(costs) for one in SOURCES for other in SOURCES if one <= other}
