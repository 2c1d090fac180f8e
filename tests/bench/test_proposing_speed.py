"""How long a proposal for sixteen spots and sixty candidates takes, as a ratio to a floor measured in the same run.

The floor sorts the same judgements by what they break and gives each spot the first that is free: no best, no pairs.
A proposal with four pairs stays within 100 ms.
"""

from random import Random

import pytest

from shows.core.proposing import Candidate, Judged, Question, Wanted, alternatives, propose, reasons
from tests.bench.measuring import milliseconds, report

pytestmark = pytest.mark.bench
SPOTS, PLACES, CLASSES = 16, 60, 8


def question(pairs: int = 4, classes: int = CLASSES, carried: int = 0) -> Question:
    """A third of the candidates break a need, half of the lamps run low; classes of light by source and level."""
    random = Random(1)
    spots = [
        Wanted(f"w{at}", str(at + 1), pair_of=f"w{at - 1}" if at % 2 and at < 2 * pairs else None)
        for at in range(SPOTS)
    ]
    places = [
        Candidate(f"c{at}", f"p{at}", f"u{at}", str(at + 1), light=str(random.randrange(classes)), order=at)
        for at in range(PLACES - carried)
    ]
    brought = [
        Candidate(f"m{at}", f"e{at % 5}", f"u{random.randrange(PLACES)}", is_moved=True, light="0", order=PLACES + at)
        for at in range(carried)
    ]
    judged = [
        Judged(
            spot.key,
            each.key,
            frozenset(need for need in ("frames", "light", "camera") if random.random() < 0.1),
            random.choice((500.0, random.uniform(-20.0, 60.0))),
        )
        for spot in spots
        for each in (*places, *brought)
    ]
    light = [(random.randrange(2), random.uniform(500.0, 3000.0)) for _ in range(classes)]
    pairs_of_light = [(one, other) for one in range(classes) for other in range(one, classes)]
    costs = {(str(one), str(other)): apart(light[one], light[other]) for one, other in pairs_of_light}
    return Question(spots, [*places, *brought], judged, costs)


def apart(one: tuple[int, float], other: tuple[int, float]) -> int:
    if one[0] != other[0]:
        return 2
    return int(min(one[1], other[1]) < 0.85 * max(one[1], other[1]))


def first_come(asked: Question) -> int:
    """The floor."""
    held: dict[str, str] = {}
    for each in sorted(asked.judged, key=lambda each: (len(each.broken), each.wanted, each.candidate)):
        if each.wanted not in held and each.candidate not in held.values():
            held[each.wanted] = each.candidate
    return len(held)


def anew(asked: Question) -> Question:
    """Nothing of it worked out yet."""
    return Question(asked.wanted, asked.candidates, asked.judged, asked.pair_costs)


@pytest.mark.parametrize(
    ("name", "asked"),
    [
        ("no pairs", question(pairs=0)),
        ("4 pairs", question()),
        ("4 pairs, 20 of the units carried", question(carried=20)),
        ("4 pairs, each place a light of its own", question(classes=PLACES)),
    ],
)
def test_sixteen_spots_and_sixty_candidates(name: str, asked: Question) -> None:
    report(f"16 spots, 60 candidates, {name}", lambda: propose(anew(asked)), lambda: first_come(asked), rounds=20)


def test_a_proposal_with_four_pairs_stays_within_a_tenth_of_a_second() -> None:
    asked = question()
    assert propose(asked).is_best
    assert milliseconds(lambda: propose(anew(asked)), rounds=10) < 100.0


def test_why_and_what_else_there_is() -> None:
    asked = question()
    found = propose(asked)
    report("16 reasons", lambda: reasons(asked, found), lambda: first_come(asked), rounds=20)
    report(
        "the next best three for one spot",
        lambda: alternatives(anew(asked), "w3"),
        lambda: first_come(asked),
        rounds=10,
    )
