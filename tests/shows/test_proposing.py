"""Places and units for all spots of a show at once: by hand, against every assignment there is, and by properties."""

import math
from collections.abc import Iterator
from dataclasses import replace
from random import Random
from unittest.mock import patch

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shows.core.proposing import Candidate, Costs, Judged, Question, Wanted, alternatives, propose, reasons, search
from shows.core.proposing.weighing import PAIR, Weighed
from tests.shows.proposed import asked, brought, here, questions, show

FOUR = [here(label, order=order) for order, label in enumerate("1234")]


def chosen(question: Question) -> dict[str, str | None]:
    return dict(propose(question).chosen)


def told(question: Question) -> dict[str, tuple[object, ...]]:
    """The reasons, each as its code and whatever it says."""
    found = {}
    for each in reasons(question, propose(question)):
        facts = (each.code, each.instead_of, each.needs or None, each.other, each.hours)
        found[each.wanted] = tuple(fact for fact in facts if fact is not None)
    return found


# -- by hand -------------------------------------------------------------------------------------------


def test_each_number_goes_where_it_is_painted() -> None:
    question = asked(show("3", "1", "2"), FOUR)
    assert chosen(question) == {"1": "at 1", "2": "at 2", "3": "at 3"}
    assert propose(question).costs == Costs()
    assert propose(question).can_be_done
    assert told(question) == dict.fromkeys("123", ("own-label",))


def test_seven_instead_of_five_since_five_has_five_frames() -> None:
    question = asked(show("5"), [here("5"), here("7", order=1)], broken={"at 5": {"frames"}})
    found = propose(question)
    assert (found.chosen["5"], found.taped, found.tape_changes, found.broken) == ("at 7", ("5",), 1, ())
    assert told(question) == {"5": ("needs-broken", "at 5", ("frames",))}


def test_a_need_outweighs_any_number_of_tape_changes() -> None:
    """Spot 1 can stand at 4 only, 4 at 3 only, 3 at 2 only: everybody moves on."""
    broken = {
        f"{spot}/at {label}": {"light"}
        for spot, fits in (("1", "4"), ("2", "1"), ("3", "2"), ("4", "3"))
        for label in "1234"
        if label != fits
    }
    found = propose(asked(show("1", "2", "3", "4"), FOUR, broken=broken))
    assert found.broken == ()
    assert dict(found.chosen) == {"1": "at 4", "2": "at 1", "3": "at 2", "4": "at 3"}


def test_a_unit_is_carried_only_where_a_need_would_break_without_it() -> None:
    candidates = [here("1"), here("2"), brought("9", "3")]
    assert propose(asked(show("3"), candidates)).costs == Costs(tape_changes=1)
    assert told(asked(show("3"), candidates)) == {"3": ("moved", "9 to 3")}
    only = propose(asked(show("3"), candidates, broken={"at 1": {"light"}, "at 2": {"light"}}))
    assert (only.chosen["3"], only.carried, only.moved) == ("9 to 3", ("3",), 1)


def test_a_unit_goes_to_one_place_only() -> None:
    candidates = [brought("9", "1"), brought("9", "2"), brought("8", "2")]
    assert chosen(asked(show("1", "2"), candidates)) == {"1": "9 to 1", "2": "8 to 2"}
    short = propose(asked(show("1", "2"), candidates[:2]))
    assert (dict(short.chosen), short.in_the_way) == ({"1": "9 to 1", "2": None}, (("2", "place"),))


def test_a_pair_gets_one_kind_of_light_without_more_tape() -> None:
    spots = [Wanted("A", "A"), Wanted("B", "B", pair_of="A")]
    candidates = [here("1", "LED"), here("2", "arc", 1), here("3", "arc", 2)]
    costs = {("LED", "arc"): 2}
    question = asked(spots, candidates, pair_costs=costs)
    assert chosen(question) == {"A": "at 2", "B": "at 3"}
    assert propose(question).pairs == (("A", "B", 0),)
    assert told(question)["A"] == ("pair", "at 1", "B")
    painted = asked([Wanted("1", "1"), Wanted("2", "2", pair_of="1")], candidates, pair_costs=costs)
    assert (chosen(painted), propose(painted).pair_cost) == ({"1": "at 1", "2": "at 2"}, 2)


def test_of_two_that_do_the_one_with_lamp_hours_to_spare_is_taken() -> None:
    candidates = [here("1"), here("2", order=1), here("3", order=2)]
    question = asked(show("A"), candidates, life={"at 1": 12.0, "at 2": None, "at 3": 49.9})
    assert propose(question).chosen["A"] == "at 3"
    assert propose(question).costs == Costs(tape_changes=1, short_h=0.1)
    assert told(question) == {"A": ("life", "at 1", 12.0)}


def test_a_lamp_that_nobody_knows_counts_as_empty_and_one_that_cannot_burn_out_as_full() -> None:
    question = asked(show("A"), [here("1")], life={"at 1": None})
    assert propose(question).costs.short_h == 50.0
    assert propose(asked(show("A"), [here("1")], life={"at 1": math.inf})).costs.short_h == 0.0
    assert propose(asked(show("A"), [here("1")], life={"at 1": -1e300})).costs.short_h == 1e6


def test_what_is_equal_goes_by_the_order_of_the_house() -> None:
    candidates = [here("z", order=1), here("y", order=2), here("x", order=3)]
    assert chosen(asked(show("B", "A"), candidates)) == {"A": "at z", "B": "at y"}
    assert told(asked(show("B", "A"), candidates)) == {"A": ("house-order",), "B": ("house-order",)}


def test_what_a_person_fixed_stands_even_where_it_breaks_a_need() -> None:
    spots = [Wanted("1", "1"), Wanted("2", "2", fixed="at 1")]
    question = asked(spots, FOUR, broken={"2/at 1": {"frames"}})
    found = propose(question)
    assert dict(found.chosen) == {"1": "at 2", "2": "at 1"}
    assert found.broken == (("2", "frames"),)
    assert told(question) == {"1": ("taken-by", "at 1", "2"), "2": ("fixed",)}


def test_what_two_people_fixed_on_one_place_or_unit_both_stands_and_is_told() -> None:
    twice = propose(asked([Wanted("1", "1", fixed="at 3"), Wanted("2", "2", fixed="at 3")], FOUR))
    assert (twice.chosen["1"], twice.chosen["2"], twice.broken) == ("at 3", "at 3", (("2", "same-place"),))
    carried = [brought("9", "1"), brought("9", "2")]
    spots = [Wanted("1", "1", fixed="9 to 1"), Wanted("2", "2", fixed="9 to 2")]
    assert propose(asked(spots, carried)).broken == (("2", "same-unit"),)


def test_too_few_places_leave_out_as_few_spots_as_can_be() -> None:
    found = propose(asked(show("1", "2", "3"), FOUR[:2], broken={"1/at 1": {"frames", "light"}}))
    assert dict(found.chosen) == {"1": None, "2": "at 2", "3": "at 1"}
    assert (found.can_be_done, found.in_the_way) == (False, (("1", "place"),))
    assert propose(asked(show("1"), [])).in_the_way == (("1", "place"),)
    assert dict(propose(asked([], FOUR)).chosen) == {}


def test_a_spot_gets_a_place_rather_than_none_however_many_needs_break() -> None:
    found = propose(asked(show("1"), FOUR[:1], broken={"at 1": {"frames", "light", "level"}}))
    assert found.in_the_way == (("1", "frames"), ("1", "level"), ("1", "light"))


def test_what_is_in_the_way_is_a_least_set() -> None:
    """Of two ways to give in the one that gives up one need, not two."""
    broken = {"at 1": {"frames", "light"}, "at 2": {"level"}, "at 3": {"frames", "level"}, "at 4": {"light", "frames"}}
    assert propose(asked(show("1"), FOUR, broken=broken)).in_the_way == (("1", "level"),)


def test_a_spot_that_may_be_left_is_left_rather_than_break_a_need_but_not_to_save_tape() -> None:
    spot = [Wanted("7", "7", may_be_left=True)]
    assert chosen(asked(spot, FOUR[:1])) == {"7": "at 1"}
    question = asked(spot, FOUR[:1], broken={"at 1": {"frames"}})
    assert (chosen(question), propose(question).can_be_done) == ({"7": None}, True)
    assert propose(question).costs == Costs(left=1)
    assert told(question) == {"7": ("left",)}


def test_why_a_spot_has_no_place() -> None:
    assert told(asked(show("1", "9"), FOUR[:1]))["9"] == ("no-place",)
    fixed = [Wanted("1", "1"), Wanted("9", "9", fixed="at 1")]
    assert told(asked(fixed, FOUR[:1]))["1"] == ("taken-by", "at 1", "9")


def test_a_candidate_that_nobody_judged_is_not_offered() -> None:
    question = Question(show("1"), FOUR, [Judged("1", "at 2")])
    assert chosen(question) == {"1": "at 2"}


def test_the_next_best_with_what_they_cost_and_who_moves() -> None:
    question = asked(show("1", "2"), FOUR, broken={"1/at 3": {"frames"}, "2/at 1": {"light"}})
    first, second, third = alternatives(question, "1")
    assert (first.candidate, first.proposal.costs, first.elsewhere) == ("at 4", Costs(tape_changes=1), ())
    assert (second.candidate, second.proposal.costs, second.elsewhere) == ("at 2", Costs(tape_changes=2), ("2",))
    assert (third.candidate, third.proposal.broken) == ("at 3", (("1", "frames"),))
    assert alternatives(question, "1", 1) == (first,)
    assert alternatives(question, "1", -1) == ()
    assert len(alternatives(question, "1", 99)) == 3


def test_the_next_best_leave_alone_what_others_were_fixed_on_and_free_the_spot_itself() -> None:
    spots = [Wanted("1", "1", fixed="at 3"), Wanted("2", "2", fixed="at 4")]
    assert [each.candidate for each in alternatives(asked(spots, FOUR), "1", 9)] == ["at 1", "at 2"]
    with pytest.raises(KeyError):
        alternatives(asked(spots, FOUR), "3")


@pytest.mark.parametrize(
    ("make", "said"),
    [
        (lambda: Question(show("1", "1"), FOUR, []), "A spot is given 2 times: 1"),
        (lambda: Question(show("1"), FOUR[:1] * 3, []), "A candidate is given 3 times: at 1"),
        (lambda: Question(show("1"), FOUR, [Judged("1", "at 1")] * 2), "A judgement is given 2 times: at 1 for 1"),
        (lambda: Question(show("1"), FOUR, [Judged("1", "at 9")]), "nobody asked about: 1, at 9"),
        (lambda: Question([Wanted("1", "1", fixed="at 1")], FOUR, []), "1 is fixed on at 1, which is not judged"),
        (lambda: asked(show("1"), FOUR, life={"at 1": math.nan}), "life of at 1 for 1"),
        (lambda: asked(show("1"), FOUR, pair_costs={("a", "b"): -1}), "pair a, b"),
        (lambda: asked(show("1"), FOUR, pair_costs={("a", "b"): 1, ("b", "a"): 2}), "pair a, b"),
        (lambda: asked(show("1"), FOUR, reserve_h=math.inf), "reserve"),
    ],
)
def test_a_question_that_cannot_be_meant_says_what_is_wrong(make: object, said: str) -> None:
    with pytest.raises(ValueError, match=said):
        make()  # type: ignore[operator]


# -- against every assignment there is -----------------------------------------------------------------

Score = tuple[int | float, ...]


class EveryWay:
    """The best of all assignments, tried one by one; one that is dearer already is not carried on."""

    def __init__(self, question: Question) -> None:
        self.question = question
        self.fixed = [question.offer_at[spot.fixed] for spot in question.spots if spot.fixed is not None]
        self.best: tuple[Score, tuple[int, ...], dict[str, str | None]] | None = None
        self._try(0, {}, (0,) * 7, ())

    def _try(self, at: int, held: dict[str, Candidate | None], score: Score, ranks: tuple[int, ...]) -> None:
        if self.best is not None and (score, ranks) > (self.best[0], self.best[1][:at]):
            return
        if at == len(self.question.spots):
            if self.best is None or (score, ranks) < self.best[:2]:
                self.best = score, ranks, {key: each.key if each else None for key, each in held.items()}
            return
        spot = self.question.spots[at]
        for rank, candidate in self._open(spot, held):
            more = self._costs(spot, candidate, held)
            summed = tuple(a + b for a, b in zip(score, more, strict=True))
            self._try(at + 1, held | {spot.key: candidate}, summed, (*ranks, rank))

    def _open(self, spot: Wanted, held: dict[str, Candidate | None]) -> Iterator[tuple[int, Candidate | None]]:
        taken = [*self.fixed, *(each for each in held.values() if each)]
        for rank, candidate in enumerate(self.question.offers):
            is_judged = (spot.key, candidate.key) in self.question.judgements
            if candidate.key == spot.fixed or (spot.fixed is None and is_judged and not clashes(candidate, taken)):
                yield rank, candidate
        if spot.fixed is None:
            yield len(self.question.offers), None

    def _costs(self, spot: Wanted, candidate: Candidate | None, held: dict[str, Candidate | None]) -> Score:
        if candidate is None:
            return (0, 0, 1, 0, 0, 0, 0) if spot.may_be_left else (1, 0, 0, 0, 0, 0, 0)
        judged = self.question.judgements[spot.key, candidate.key]
        earlier = [held[each.key] for each in self.question.spots if each.key in held and each.fixed is not None]
        is_twice = spot.fixed is not None and clashes(candidate, [each for each in earlier if each])
        pairs = 0
        for one, other in self.question.couples:
            its = held.get(one if other == spot.key else other)
            if spot.key in (one, other) and its is not None:
                pairs += self.question.pair_cost(its.light, candidate.light)
        tenths = round(10 * self.question.shortfall_h(judged))
        tape = spot.label_key != candidate.label_key
        return 0, len(judged.broken) + is_twice, 0, candidate.is_moved, tape, pairs, tenths


def clashes(candidate: Candidate, taken: list[Candidate]) -> bool:
    return any(
        each.place_key == candidate.place_key or each.unit_key == candidate.unit_key is not None for each in taken
    )


def equals_every_way(question: Question) -> None:
    found, every = propose(question), EveryWay(question).best
    assert every is not None
    score, _, best = every
    assert found.costs == Costs(*score[:-1], short_h=score[-1] / 10)  # type: ignore[arg-type]
    assert dict(found.chosen) == best
    assert found.is_best


@settings(max_examples=80)
@given(questions(5, 7))
def test_a_proposal_is_the_best_of_every_assignment(question: Question) -> None:
    equals_every_way(question)


@settings(max_examples=25)
@given(questions(7, 9))
def test_a_proposal_is_the_best_of_every_assignment_of_seven_spots_and_nine_candidates(question: Question) -> None:
    equals_every_way(question)


@settings(max_examples=40)
@given(questions(5, 7))
def test_thorough_branches_find_the_same(question: Question) -> None:
    with patch.object(search, "QUICK_ALONE", 1):
        equals_every_way(question)


def crowded(start: int) -> Question:
    """Six spots, each in a pair or several, on eight places of eight classes of light: hard to bring together."""
    random = Random(start)
    spots = [Wanted(f"w{index}", f"N{index}", pair_of=f"w{random.randrange(6)}") for index in range(6)]
    candidates = [here(str(index), light=str(index), order=index) for index in range(8)]
    costs = {(str(one), str(other)): random.choice((0, 1, 1, 2)) for one in range(8) for other in range(one, 8)}
    life = {f"at {index}": random.choice((500.0, 30.0, 44.0)) for index in range(8)}
    return asked(spots, candidates, life=life, pair_costs=costs)


@pytest.mark.parametrize("start", range(2))
def test_a_proposal_is_the_best_of_every_assignment_where_pairs_are_crowded(start: int) -> None:
    equals_every_way(crowded(start))
    with patch.object(search, "QUICK_ALONE", 1):
        equals_every_way(crowded(start))


@settings(max_examples=25)
@given(questions(4, 6), st.integers(0, 3))
def test_the_next_best_are_what_every_assignment_with_the_spot_there_finds(question: Question, at: int) -> None:
    spot = question.spots[at % len(question.spots)]
    found = alternatives(question, spot.key, 9)
    others = [question.offer_at[each.fixed] for each in question.wanted if each.fixed and each.key != spot.key]
    expected = {}
    for candidate in question.offered[spot.key]:
        if candidate.key != propose(question).chosen[spot.key] and not clashes(candidate, others):
            wanted = [replace(each, fixed=candidate.key) if each.key == spot.key else each for each in question.wanted]
            expected[candidate.key] = propose(replace(question, wanted=wanted))
    assert {each.candidate: dict(each.proposal.chosen) for each in found} == {
        key: dict(each.chosen) for key, each in expected.items()
    }
    costs = [each.proposal.costs for each in found]
    assert costs == sorted(costs) == sorted(each.costs for each in expected.values())
    first = alternatives(question, spot.key, 2)
    assert first == found[:2]


# -- properties ----------------------------------------------------------------------------------------


@settings(max_examples=50)
@given(questions(), st.randoms(use_true_random=False))
def test_the_order_of_what_comes_in_changes_nothing(question: Question, random: Random) -> None:
    def mixed(given: object) -> list:
        return random.sample(list(given), len(list(given)))  # type: ignore[call-overload]

    costs = dict(mixed(question.pair_costs.items()))
    again = Question(mixed(question.wanted), mixed(question.candidates), mixed(question.judged), costs)
    assert list(propose(again).chosen.items()) == list(propose(question).chosen.items())
    assert propose(again) == propose(question)


@settings(max_examples=50)
@given(questions(may_fix=False), st.data())
def test_no_need_breaks_where_one_assignment_breaks_none(question: Question, data: st.DataObject) -> None:
    """Whole is made what one assignment needs, whatever else breaks."""
    planted, taken = {}, list[Candidate]()
    for spot in question.spots:
        free = [each for each in question.offered[spot.key] if not clashes(each, taken)]
        if free:
            planted[spot.key] = data.draw(st.sampled_from(free))
            taken.append(planted[spot.key])
    whole = {(spot, candidate.key) for spot, candidate in planted.items()}
    judged = [
        replace(each, broken=frozenset()) if (each.wanted, each.candidate) in whole else each
        for each in question.judged
        if each.wanted in planted
    ]
    wanted = [each for each in question.wanted if each.key in planted]
    assert propose(replace(question, wanted=wanted, judged=judged)).broken == ()


@settings(max_examples=50)
@given(questions())
def test_no_place_and_no_unit_is_taken_twice_and_what_was_fixed_stays(question: Question) -> None:
    held = propose(question).chosen
    assert all(held[spot.key] == spot.fixed for spot in question.wanted if spot.fixed is not None)
    free = [question.offer_at[held[each.key]] for each in question.wanted if not each.fixed and held[each.key]]  # type: ignore[index]
    fixed = [question.offer_at[each.fixed] for each in question.wanted if each.fixed]
    assert not any(clashes(each, [*fixed, *free[:at]]) for at, each in enumerate(free))


@settings(max_examples=50)
@given(questions(), st.data())
def test_one_candidate_more_never_makes_it_worse(question: Question, data: st.DataObject) -> None:
    fixed = {each.fixed for each in question.wanted}
    can_go = [each for each in question.candidates if each.key not in fixed]
    if not can_go:
        return
    gone = data.draw(st.sampled_from(can_go)).key
    fewer = replace(
        question,
        candidates=[each for each in question.candidates if each.key != gone],
        judged=[each for each in question.judged if each.candidate != gone],
    )
    assert propose(question).costs <= propose(fewer).costs


@settings(max_examples=50)
@given(questions())
def test_every_spot_has_a_reason_and_the_reason_is_true(question: Question) -> None:
    proposal = propose(question)
    found = reasons(question, proposal)
    assert [each.wanted for each in found] == [spot.key for spot in question.spots]
    for each in found:
        held = proposal.chosen[each.wanted]
        assert each.code != "given-up"
        assert each.instead_of is None or each.instead_of != held
        if each.code == "needs-broken":
            assert set(each.needs) == question.judgements[each.wanted, each.instead_of or ""].broken
        if each.code in ("taken-by", "pair"):
            assert proposal.chosen[each.other or ""] is not None
        if each.code == "taken-by":
            theirs = question.offer_at[proposal.chosen[each.other or ""] or ""]
            assert clashes(question.offer_at[each.instead_of or ""], [theirs])


@settings(max_examples=30)
@given(questions(6, 8))
def test_a_search_that_is_given_up_still_takes_nothing_twice_and_says_so(question: Question) -> None:
    found, best = propose(question, most_branches=0), propose(question)
    assert best.costs <= found.costs
    assert best == found or not found.is_best
    held = [question.offer_at[each] for key, each in found.chosen.items() if each and not question.spot_at[key].fixed]
    assert not any(clashes(each, held[:at]) for at, each in enumerate(held))


@settings(max_examples=30)
@given(questions(6, 8))
def test_no_sum_of_lower_levels_reaches_one_of_a_higher(question: Question) -> None:
    """The bound that makes one integer of all levels safe: the dearest choice of each row, everything below a level."""
    weighed = Weighed(question)
    units, places = weighed.units, len(question.offers) + 1
    lights = [each.light for each in question.offers]
    dearest = max((question.pair_cost(one, other) for one in lights for other in lights), default=0)
    below = sum((places - 1) * places**row for row in range(len(question.spots)))
    for level in reversed(range(len(units))):
        assert below < units[level]
        most = sum(max(choice.digits[level] for choice in choices) for choices in weighed.choices)
        below += units[level] * max(most, len(question.couples) * dearest if level == PAIR else 0)
