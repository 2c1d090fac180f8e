"""What a pair costs by its classes of light, and what a person saw of a proposal."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from shows.core.proposing import Question, propose
from shows.core.proposing.fingerprint import fingerprint
from shows.core.proposing.light_classes import (
    MOST_STEPS,
    NOT_KNOWN,
    SOURCES_APART,
    LightClass,
    light_class,
    price,
    prices,
)
from tests.shows.proposed import questions
from venue.core.matching import HIGHEST_LEVEL_DIFFERENCE, level_difference

levels = st.floats(0.01, 1e6)


@settings(max_examples=50)
@given(levels, levels)
def test_two_levels_of_one_class_are_never_farther_apart_than_a_pair_may_be(one: float, other: float) -> None:
    if light_class("LED", one) == light_class("LED", other):
        assert level_difference([one, other]) <= HIGHEST_LEVEL_DIFFERENCE + 1e-9


def test_each_word_for_a_kind_of_source_gives_one_class_and_unknown_words_their_own() -> None:
    assert light_class("2 kW xenon", 900.0) == light_class("short arc", 900.0)
    assert light_class("Glow  Worm", 900.0) == light_class("glow worm", 900.0) != light_class("", 900.0)
    assert light_class("LED", None) == light_class("LED", 0.0) == LightClass("LED")


def test_two_kinds_of_source_cost_more_than_any_difference_in_level() -> None:
    dim, bright = light_class("LED", 1.0), light_class("LED", 1e6)
    assert price(dim, bright) == MOST_STEPS < price(dim, light_class("xenon", 1.0)) == SOURCES_APART


def test_by_hand_a_quarter_less_light_is_two_steps() -> None:
    """Steps from 1 lx, each 1 / 0.85: step 42 is from 921 to 1083 lx, step 40 from 666 to 783 lx."""
    assert price(light_class("LED", 1000.0), light_class("LED", 750.0)) == 2


def test_what_nobody_knows_of_a_light_costs_a_pair_something() -> None:
    assert price(LightClass(), LightClass()) == 2 * NOT_KNOWN
    assert prices([LightClass(), light_class("LED", 900.0)]) != {}
    assert prices([light_class("LED", 900.0)]) == {}


@settings(max_examples=20)
@given(questions(4, 5), st.randoms(use_true_random=False))
def test_the_fingerprint_is_of_what_was_asked_not_of_its_order(question: Question, random: object) -> None:
    def mixed(given: object) -> list:
        return random.sample(list(given), len(list(given)))  # type: ignore[attr-defined,call-overload]

    costs = dict(mixed(question.pair_costs.items()))
    again = Question(mixed(question.wanted), mixed(question.candidates), mixed(question.judged), costs)
    seen = fingerprint(question, propose(question))
    assert fingerprint(again, propose(again)) == seen
    longer = replace(question, reserve_h=question.reserve_h + 1)
    assert fingerprint(longer, propose(question)) != seen
