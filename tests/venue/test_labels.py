"""When two labels are the same, and in what order they come."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from venue.core.labels import is_name, label_key, sort_key, stored_sort_key


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("1", "1"),
        ("#01", "1"),
        ("Spot 1", "1"),
        ("follow-spot 12", "12"),
        ("No. 3", "3"),
        ("Spot No. 3", "3"),
        ("A\u00a8", "\u00c4"),
        ("Nr 3", "3"),
        ("number 007", "7"),
        ("t2", "T2"),
        ("T 02", "T2"),
        ("FS-01", "FS1"),
        ("Spot A", "A"),
        ("1.5", "1.5"),
        ("1-4", "1-4"),
        ("1 2", "1 2"),
        ("２", "2"),
        ("\u0663", "3"),
        ("\u200f4\u200e", "4"),
        ("Spot", "SPOT"),
        ("No", "NO"),
        ("Straße", "STRASSE"),
        ("", ""),
        ("000", "0"),
    ],
)
def test_spellings_of_a_label_share_a_key(text: str, key: str) -> None:
    assert label_key(text) == key


def test_labels_come_in_natural_order() -> None:
    in_order = ["1", "1.5", "2", "2A", "3", "10", "11", "A", "B", "T1", "T2", "T10"]
    mixed = [*in_order[1::2], *in_order[::2]]
    assert sorted(mixed, key=sort_key) == in_order
    assert sorted(mixed, key=stored_sort_key) == in_order


@given(st.text(max_size=30), st.text(max_size=30))
def test_the_stored_key_orders_as_the_key_does(first: str, second: str) -> None:
    assert (sort_key(first) < sort_key(second)) == (stored_sort_key(first) < stored_sort_key(second))


@given(st.text(max_size=30))
def test_a_key_is_its_own_key(text: str) -> None:
    assert label_key(label_key(text)) == label_key(text)


@pytest.mark.parametrize(
    ("text", "is_one"), [("Left", True), ("Vocal", True), ("A", False), ("HL", False), ("T12", False)]
)
def test_names_have_no_digits_and_more_than_two_letters(text: str, is_one: bool) -> None:
    assert is_name(text) == is_one
