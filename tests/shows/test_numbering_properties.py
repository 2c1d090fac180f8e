"""Properties that hold for every house and every show."""

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st

from shows.core.numbering.comparison import compare
from shows.core.numbering.records import Comparison, House, Position, Slot, Spot, WayOut
from shows.core.numbering.statement import read_statement, reads_as_statement
from shows.core.numbering.statement_words import KIND_WORDS
from tests.shows.numbering_cases import by_hand, codes, count_to, row_house, spots

ROW_STATEMENTS = {
    "house left to house right": "house right to house left",
    "house right to house left": "house left to house right",
    "stage left to stage right": "stage right to stage left",
    "left to right from the house": "right to left from the house",
    "left to right as you face the audience": "right to left as you face the audience",
    "prompt side to opposite side": "opposite prompt to prompt side",
    "odd house left, even house right": "odd house right, even house left",
    "outward from center, house left first": "outward from center, house right first",
    "all in one row, house left to house right": "all in one row, house right to house left",
    "position by position, SR to SL": "position by position, SL to SR",
}

coordinates = st.integers(-40, 40).map(lambda tenths: tenths / 4)


@st.composite
def row_houses(draw: st.DrawFn) -> House:
    """One to three positions of up to six lenses anywhere across the house, labels unique."""
    positions = []
    label = 0
    for index in range(draw(st.integers(1, 3))):
        xs = draw(st.lists(coordinates, min_size=1, max_size=6, unique=True))
        slots = []
        for x in xs:
            label += 1
            slots.append(Slot(str(label), x=x, y=-30.0 + 5 * index, z=10.0))
        positions.append(Position(f"Row {index + 1}", tuple(slots), level=index))
    return House(tuple(positions))


@st.composite
def rings(draw: st.DrawFn) -> House:
    bearings = draw(st.lists(st.integers(0, 71).map(lambda five: five * 5.0), min_size=2, max_size=12, unique=True))
    return House((Position("Bowl", tuple(Slot(str(i), bearing=at) for i, at in enumerate(bearings, 1)), "bowl"),))


@st.composite
def assigned(draw: st.DrawFn) -> tuple[House, dict[str, str]]:
    """A row house and an assignment of show numbers 1 … n to some of its labels."""
    house = draw(row_houses())
    labels = [slot.label for slot in house.slots]
    chosen = draw(st.permutations(labels))[: draw(st.integers(1, len(labels)))]
    return house, dict(zip(count_to(len(chosen)), chosen, strict=True))


def placing(comparison: Comparison) -> list[tuple[str, int]]:
    return [(pair.number, pair.slot) for pair in comparison.pairs]


@given(row_houses(), st.integers(1, 12), st.sampled_from(sorted(ROW_STATEMENTS)))
def test_what_follows_from_a_statement_obeys_it(house: House, count: int, statement: str) -> None:
    comparison = compare(house, spots(*count_to(count)), statement)
    if comparison.pairs:
        assert codes(comparison)[1] == "same"
    for reading in comparison.readings:
        assert reading.against_statement is None or reading.against_statement.code == "same"


@given(row_houses(), st.integers(1, 12), st.sampled_from(sorted(ROW_STATEMENTS)))
def test_mirroring_the_house_and_the_viewpoint_together_changes_nothing(house: House, count: int, text: str) -> None:
    mirrored = replace(
        house,
        positions=tuple(
            replace(position, slots=tuple(replace(slot, x=-(slot.x or 0.0)) for slot in position.slots))
            for position in house.positions
        ),
    )
    here = compare(house, spots(*count_to(count)), text)
    there = compare(mirrored, spots(*count_to(count)), ROW_STATEMENTS[text])
    assert placing(here) == placing(there)
    assert (here.against_labels, here.against_statement) == (there.against_labels, there.against_statement)
    if "first" not in text:
        assert here.flags == there.flags


@given(rings(), st.integers(1, 12), st.booleans(), st.integers(0, 11))
def test_mirroring_a_ring_and_its_direction_changes_nothing(
    house: House, count: int, is_clockwise: bool, hour: int
) -> None:
    slots = tuple(replace(slot, bearing=(360.0 - (slot.bearing or 0.0)) % 360.0) for slot in house.slots)
    mirrored = House((Position("Bowl", slots, "bowl"),))
    ways = ("clockwise", "counterclockwise") if is_clockwise else ("counterclockwise", "clockwise")
    here = compare(house, spots(*count_to(count)), f"{ways[0]} from bearing {30 * hour}")
    there = compare(mirrored, spots(*count_to(count)), f"{ways[1]} from bearing {(360 - 30 * hour) % 360}")
    assert placing(here) == placing(there)
    assert codes(here) == codes(there)
    assert codes(here)[1] == "same"


def by_order(comparison: Comparison) -> list[str | None]:
    """The codes; odd and even numbers are told apart by the numbers themselves, which no order keeps."""
    return ["mixed" if code == "alternating" else code for code in codes(comparison)]


@given(assigned(), st.lists(st.integers(1, 9), min_size=18, max_size=18))
def test_a_relabelling_that_keeps_the_order_changes_nothing(
    case: tuple[House, dict[str, str]], steps: list[int]
) -> None:
    house, assignment = case
    renamed = {str(i + 1): str(sum(steps[: i + 1])) for i in range(18)}
    relabelled = replace(
        house,
        positions=tuple(
            replace(position, slots=tuple(replace(slot, label=renamed[slot.label]) for slot in position.slots))
            for position in house.positions
        ),
    )
    before = by_hand(house, assignment)
    both = by_hand(relabelled, {renamed[number]: renamed[label] for number, label in assignment.items()})
    assert by_order(before) == by_order(both)
    labels_only = by_hand(relabelled, {number: renamed[label] for number, label in assignment.items()})
    assert before.against_labels is not None
    assert labels_only.against_labels is not None
    assert before.against_labels.tau == labels_only.against_labels.tau
    orderly = {"same", "same-order"}
    assert {codes(before)[0], codes(labels_only)[0]} <= orderly or codes(before)[0] == codes(labels_only)[0]


@given(st.integers(2, 9).flatmap(lambda count: st.permutations(count_to(count))))
def test_reversing_twice_is_the_same(labels: list[str]) -> None:
    house = row_house(count_to(len(labels)))
    once = by_hand(house, dict(zip(count_to(len(labels)), labels, strict=True)))
    twice = by_hand(house, dict(zip(count_to(len(labels)), [*reversed([*reversed(labels)])], strict=True)))
    turned = by_hand(house, dict(zip(count_to(len(labels)), reversed(labels), strict=True)))
    assert once == twice
    assert once.against_labels is not None
    assert turned.against_labels is not None
    assert once.against_labels.tau == -(turned.against_labels.tau or 0.0)


def taped(house: House, way: WayOut) -> House:
    """The house as it reads once the tapes are on: blanked slots no longer carry a label that counts."""
    texts = {int(str(slot)): f"blank {slot} of the house" if text is None else str(text) for slot, text in way.changes}
    slots = [replace(slot, label=texts.get(index, slot.label)) for index, slot in enumerate(house.slots)]
    rest = iter(slots)
    return replace(
        house, positions=tuple(replace(p, slots=tuple(next(rest) for _ in p.slots)) for p in house.positions)
    )


@given(assigned())
def test_each_choice_once_applied_gives_same(case: tuple[House, dict[str, str]]) -> None:
    house, assignment = case
    comparison = by_hand(house, assignment)
    if codes(comparison)[0] == "same":
        assert comparison.ways_out == ()
        return
    tape, move, renumber = comparison.ways_out
    assert codes(by_hand(taped(house, tape), {number: number for number in assignment}))[0] == "same"
    translated = {str(number): str(label) for number, label in renumber.changes}
    renumbered = {translated.get(number, number): label for number, label in assignment.items()}
    assert codes(by_hand(house, renumbered))[0] == "same"
    moved = {str(number): house.slots[int(str(slot))].label for number, slot in move.changes}
    assert {**{number: number for number in assignment}, **moved} == assignment


WORDS = """
left right house stage HL HR SL SR to from first then and , ; - 1 2 3 1-4 5-8 A A-D odd even outward center clockwise
counterclockwise 3 o'clock starting at booth truss front rear sides prompt opposite side other one row all in team of
not used no spots looking the audience bearing 90 label 4 is by level position inside
"""
words = st.sampled_from(WORDS.split())


@settings(max_examples=400)
@given(st.lists(words, max_size=14).map(" ".join), row_houses())
def test_any_words_are_read_or_quoted_and_never_break_the_comparison(text: str, house: House) -> None:
    read_statement(text, house)
    comparison = compare(house, [Spot("1"), Spot("2", side="left", nth="1"), Spot("A"), Spot(None, line=4)], text)
    assert all(0 <= pair.slot < len(house.slots) for pair in comparison.pairs)
    assert len({pair.slot for pair in comparison.pairs}) == len(comparison.pairs)


@settings(max_examples=300)
@given(st.text(max_size=80), st.text(max_size=30), st.text(max_size=30))
def test_arbitrary_text_anywhere_never_breaks_the_comparison(text: str, number: str, place: str) -> None:
    house = row_house(count_to(3), count_to(2))
    reads_as_statement(text)
    spot = Spot(number, position=place, side=place, nth=place, whose_left=place)
    compare(house, [spot, Spot(number, label=text), Spot("1")], text, {"1": place})


def test_every_kind_word_may_name_a_block() -> None:
    for word in KIND_WORDS:
        house = House((Position("Here", (Slot("1", x=0.0, y=-9.0),), kind=word),))
        comparison = compare(house, spots(1), f"{word} house left to house right")
        assert placing(comparison) == [("1", 0)], word
