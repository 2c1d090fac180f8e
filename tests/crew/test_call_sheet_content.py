"""A call sheet's content: one text for one content, read back whole, and every difference named."""

import json
from dataclasses import fields, replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crew.core.call_sheet import NOT_HEADS, CallSheet, Change, SheetLine, canonical, changes, digest, read_sheet

SHEET = CallSheet(
    house="Quillmark Hall",
    show="Nine Paper Boats",
    event="Show",
    zone="America/New_York",
    starts="2026-03-03T20:00:00-05:00",
    call="2026-03-03T18:30:00-05:00",
    lines=(
        SheetLine("1", label="4", operator="Ada Quillfeather", frames=("pale pink", "", "amber")),
        SheetLine("2", label="3", operator="Мира Лисовская"),
        SheetLine("3", label="2"),
    ),
)
texts = st.text(max_size=20)
lines = st.builds(
    SheetLine,
    number=texts,
    seat=st.integers(1, 3),
    label=texts,
    operator=texts,
    frames=st.lists(texts, max_size=3).map(tuple),
    cautions=st.lists(texts, max_size=2).map(tuple),
    limits=st.lists(texts, max_size=2).map(tuple),
    stops=st.lists(texts, max_size=2).map(tuple),
)
sheets = st.builds(
    CallSheet,
    **dict.fromkeys(("house", "show", "event", "zone", "starts", "call", "notice", "notes"), texts),
    lines=st.lists(lines, max_size=4, unique_by=lambda line: line.key).map(tuple),
    at_spot_talk=st.lists(texts, max_size=3).map(tuple),
)


@given(sheets)
def test_a_sheet_is_read_back_as_it_was_written(sheet: CallSheet) -> None:
    assert read_sheet(canonical(sheet)) == sheet


@given(sheets, sheets)
def test_two_sheets_have_one_digest_exactly_if_nothing_differs(one: CallSheet, other: CallSheet) -> None:
    assert (digest(canonical(one)) == digest(canonical(other))) == (one == other)
    assert changes(one, one) == []


def test_the_canonical_text_is_sorted_without_spaces_and_says_its_format() -> None:
    text = canonical(SHEET)
    document = json.loads(text)
    assert (document["format"], document["version"]) == ("throwbook-call-sheet", 1)
    assert list(document) == sorted(document)
    assert "Мира Лисовская" in text
    assert '", "' not in text.replace("Ada, ", "")


def test_what_an_older_text_lacks_has_its_default_and_what_it_has_too_much_is_left_aside() -> None:
    document = json.loads(canonical(SHEET))
    del document["notes"], document["lines"][0]["tape"]
    document["moon"] = "full"
    assert read_sheet(json.dumps(document)) == SHEET


@pytest.mark.parametrize(
    ("changed", "found"),
    [
        ({"call": "2026-03-03T18:00:00-05:00"}, [Change("call", "", SHEET.call, "2026-03-03T18:00:00-05:00")]),
        ({"at_spot_talk": ("Dov Halloran", "")}, [Change("at_spot_talk", "", "", "Dov Halloran, —")]),
        ({"lines": SHEET.lines[:2]}, [Change("gone", "3", "", "")]),
        (
            {"lines": (*SHEET.lines, SheetLine("4", operator="Dov Halloran"))},
            [Change("added", "4", "", "Dov Halloran")],
        ),
        (
            {"lines": (replace(SHEET.lines[0], frames=("amber",)), *SHEET.lines[1:])},
            [Change("frames", "1", "pale pink, —, amber", "amber")],
        ),
        (
            {"lines": (SHEET.lines[0], replace(SHEET.lines[1], operator="", label="9"), SHEET.lines[2])},
            [Change("label", "2", "3", "9"), Change("operator", "2", "Мира Лисовская", "")],
        ),
    ],
)
def test_each_difference_is_named_once_with_its_line(changed: dict[str, object], found: list[Change]) -> None:
    assert changes(SHEET, replace(SHEET, **changed)) == found  # type: ignore[arg-type]


def test_every_field_of_a_line_and_of_the_sheet_counts_as_a_difference() -> None:
    for field in fields(SheetLine):
        if field.name not in {"number", "seat"}:
            value = ("changed",) if isinstance(getattr(SHEET.lines[0], field.name), tuple) else "changed"
            line = replace(SHEET.lines[0], **{field.name: value})
            assert [each.what for each in changes(SHEET, replace(SHEET, lines=(line, *SHEET.lines[1:])))] == [
                field.name
            ]
    for field in fields(CallSheet):
        if field.name not in NOT_HEADS:
            other = replace(SHEET, **{field.name: "changed"})  # type: ignore[arg-type]
            assert [each.what for each in changes(SHEET, other)] == [field.name]


@pytest.mark.parametrize(
    ("on_numbers", "at_talk", "wanted", "filled"),
    [
        ((), (), 0, 0),
        (("A", "B", ""), (), 3, 2),
        (("A", "B", ""), ("C",), 3, 3),
        (("A", "B", "C"), ("D",), 4, 4),
        (("A", "", ""), ("D", ""), 3, 2),
        (("A", "B", "C", "D", "E", "", "", ""), ("F",), 8, 6),
        ((), ("", ""), 2, 0),
    ],
)
def test_those_of_the_spot_talk_take_the_lights_that_nobody_is_on(
    on_numbers: tuple[str, ...], at_talk: tuple[str, ...], wanted: int, filled: int
) -> None:
    numbered = tuple(SheetLine(str(n), operator=name) for n, name in enumerate(on_numbers))
    sheet = replace(SHEET, lines=numbered, at_spot_talk=at_talk)
    assert (sheet.wanted, sheet.filled, sheet.to_fill) == (wanted, filled, wanted - filled)
