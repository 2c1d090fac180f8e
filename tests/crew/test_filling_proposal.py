"""People for all lines at once: held against every assignment there is, and never against a need."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import UTC, date, datetime, timedelta
from itertools import combinations, permutations

from hypothesis import given, settings
from hypothesis import strategies as st

from crew.core.filling.bars import bars_of
from crew.core.filling.proposal import levels_of, propose
from crew.core.filling.ranking import Ranked, Roll, ranked
from crew.core.filling.records import Booking, Held, Need, Ran, Rules, Somebody, Wanted

START = datetime(2026, 3, 3, 23, tzinfo=UTC)
DAY = date(2026, 3, 3)
RULES = Rules(timedelta(hours=8), "UTC")
CLIMB, ARC = 1, 2
Offers = Mapping[str, tuple[Sequence[Need], Sequence[Ranked]]]


def line(number: str, *needs: Need) -> Wanted:
    return Wanted(START, START + timedelta(hours=1), (DAY, DAY), (DAY, DAY), needs, number=number)


@st.composite
def somebody(draw: st.DrawFn, key: int) -> Somebody:
    held = [Held(kind) for kind in (CLIMB, ARC) if draw(st.booleans())]
    seats = {(f"{n}", 1): START - timedelta(days=n) for n in range(4) if draw(st.booleans())}
    return Somebody(
        key,
        f"{key}",
        experience=draw(st.sampled_from(["", "none", "some", "lead"])),
        seniority=draw(st.none() | st.integers(1, 3)),
        held=tuple(held),
        bookings=(Booking(START, START + timedelta(hours=2)),) if draw(st.integers(0, 4)) == 0 else (),
        ran=Ran(len(seats), dict.fromkeys(seats, 1), seats),
        minutes=draw(st.integers(0, 2)) * 60,
    )


@st.composite
def calls(draw: st.DrawFn, lines: int = 3, people: int = 5) -> tuple[Offers, frozenset[int]]:
    """Up to so many lines with their needs, and everybody on the roster ranked for each."""
    everybody = [draw(somebody(key)) for key in range(draw(st.integers(0, people)))]
    roll = Roll(everybody, draw(st.sampled_from(["alphabet", "seniority"])))
    offers = {}
    for number in range(draw(st.integers(0, lines))):
        needs = [Need(kind, draw(st.booleans())) for kind in (CLIMB, ARC) if draw(st.booleans())]
        wanted = line(f"{number}", *needs)
        bars = [(each, bars_of(each, wanted, RULES)) for each in everybody]
        offers[f"{number}"] = (wanted.needs, ranked(bars, wanted, roll))
    return offers, frozenset(each.key for each in everybody if draw(st.integers(0, 3)) == 0)


def every_way(offers: Offers) -> Iterator[dict[str, Ranked]]:
    """Each choice of lines with each order of people who can come on them."""
    keys = sorted({who.somebody.key for _needs, people in offers.values() for who in people})
    by_key = {name: {who.somebody.key: who for who in people if who.can_come} for name, (_n, people) in offers.items()}
    for size in range(len(offers) + 1):
        for names in combinations(offers, size):
            for taken in permutations(keys, size):
                if all(key in by_key[name] for name, key in zip(names, taken, strict=True)):
                    yield {name: by_key[name][key] for name, key in zip(names, taken, strict=True)}


def cost(chosen: Mapping[str, Ranked], lines: int, on_call: frozenset[int]) -> tuple[int, ...]:
    """Lines left open, then each level in sum."""
    levels = [levels_of(who, on_call) for who in chosen.values()]
    return (lines - len(chosen), *(sum(each) for each in zip(*levels, strict=True)))


@given(calls())
@settings(max_examples=40)
def test_a_proposal_is_the_best_of_all_there_are(given_call: tuple[Offers, frozenset[int]]) -> None:
    offers, on_call = given_call
    found = propose(offers, on_call).chosen
    best = min(cost(way, len(offers), on_call) for way in every_way(offers))
    assert cost(found, len(offers), on_call) == best


@given(calls(lines=6, people=9))
@settings(max_examples=40)
def test_a_proposal_never_breaks_a_need_or_takes_somebody_twice(given_call: tuple[Offers, frozenset[int]]) -> None:
    offers, on_call = given_call
    found = propose(offers, on_call)
    for name, who in found.chosen.items():
        held = {each.kind for each in who.somebody.held}
        assert not {need.kind for need in offers[name][0] if need.is_required} - held
        assert not who.somebody.bookings
    assert len({who.somebody.key for who in found.chosen.values()}) == len(found.chosen)
    assert found.chosen.keys() | found.unfilled.keys() == offers.keys()
    assert not found.chosen.keys() & found.unfilled.keys()


def offers_of(people: list[Somebody], *lines: Wanted) -> Offers:
    roll = Roll(people, "alphabet")
    return {
        each.number: (each.needs, ranked([(who, bars_of(who, each, RULES)) for who in people], each, roll))
        for each in lines
    }


def test_an_open_line_says_which_certification_nobody_has() -> None:
    people = [Somebody(1, "Ada", held=(Held(ARC),)), Somebody(2, "Bo", held=(Held(ARC),))]
    found = propose(offers_of(people, line("1", Need(CLIMB, True), Need(ARC, True)), line("2")))
    assert found.unfilled["1"].nobody_has == (CLIMB,)
    assert found.unfilled["1"].kept_off == {"certification-missing": 2}
    assert found.chosen["2"].somebody.name == "Ada"


def test_the_only_climber_climbs_though_another_line_would_suit_them_better() -> None:
    seat = {("2", 1): START - timedelta(days=1)}
    climber = Somebody(1, "Ada", held=(Held(CLIMB),), ran=Ran(1, dict.fromkeys(seat, 1), seat))
    found = propose(offers_of([climber, Somebody(2, "Bo")], line("1", Need(CLIMB, True)), line("2")))
    assert {number: who.somebody.name for number, who in found.chosen.items()} == {"1": "Ada", "2": "Bo"}


def test_where_people_are_too_few_the_rest_says_that_they_go_elsewhere() -> None:
    found = propose(offers_of([Somebody(1, "Ada")], line("1"), line("2")))
    (why,) = found.unfilled.values()
    assert (len(found.chosen), why.taken, why.nobody_has) == (1, 1, ())


def test_nobody_and_nothing_make_an_empty_proposal() -> None:
    assert propose({}).chosen == {}
    assert list(propose(offers_of([], line("1"))).unfilled) == ["1"]
