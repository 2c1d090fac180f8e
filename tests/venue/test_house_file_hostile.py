"""Whatever comes in as a house file is read or refused with its problems; nothing else ever happens."""

import copy
import json
import time

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from tests.venue.house_documents import a_house, as_bytes, booth, ordered, sample, slot, stay
from tests.venue.house_strategies import house_documents
from venue.house_file.problems import HouseFileRefused
from venue.house_file.reading import read_house_file
from venue.house_file.records import HouseFile
from venue.house_file.writing import house_text

JSON_VALUES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=20),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=10), inner, max_size=4),
    max_leaves=12,
)
GOOD = a_house(
    booth(slot("1", -2.0, order=1), slot("2", 2.0, order=2, operated_from={"position": "Rear booth", "label": "1"})),
    booth(ordered("A", 1, unit="FS-02", x_text="14'"), name="Rail", zone="side"),
    {"name": "Ring", "zone": "bowl", "slots": [{"label": "1", "bearing_deg": 12.5}]},
    setups=[{"name": "Thrust", "layout": "thrust", "target": [0, -4, 1.5], "zones": {"Rail": "rear"}}],
    placements=[stay("FS-01", "1", "2025-09-01", "2026-01-01")],
    lamp_kinds=[{"name": "a", "rated_h": 2000}],
    lamps=[{"serial": "L-1", "kind": "a", "fitted": [{"unit": "FS-01", "from": "2026-01-10T10:00:00Z"}]}],
    readings=[{"unit": "FS-01", "at": "2026-02-01T23:10:00Z", "meter_h": 846.5}],
)


def read_or_refused(data: bytes) -> HouseFile | None:
    """The house; None where the file is refused with lines that can be printed."""
    try:
        return read_house_file(data)
    except HouseFileRefused as refused:
        assert refused.problems
        for problem in refused.problems:
            assert str(problem).isprintable()
            str(problem).encode()
        return None


@given(st.binary(max_size=400))
@example(b"\xff\xfe")
@example(b'"\\ud800"')
def test_any_bytes_are_read_or_refused(data):
    read_or_refused(data)


@given(JSON_VALUES)
def test_any_json_is_read_or_refused(value):
    read_or_refused(json.dumps(value).encode())


@given(st.dictionaries(st.sampled_from([*GOOD, "setups", "faults", "log"]), JSON_VALUES))
def test_any_json_in_the_known_sections_is_read_or_refused(sections):
    read_or_refused(as_bytes(GOOD | sections))


def paths_in(value, path=()):
    """The path of each value at any depth."""
    inside = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, each in inside:
        yield (*path, key)
        yield from paths_in(each, (*path, key))


PATHS = list(paths_in(GOOD))


def changed(path, change):
    """A good file in which the value at the path is another one."""
    document = copy.deepcopy(GOOD)
    parent = document
    for step in path[:-1]:
        parent = parent[step]
    change(parent, path[-1])
    return as_bytes(document)


@given(st.sampled_from(PATHS), JSON_VALUES)
def test_a_good_file_with_one_value_replaced_is_read_or_refused(path, value):
    read_or_refused(changed(path, lambda parent, key: parent.__setitem__(key, value)))


@pytest.mark.parametrize("path", PATHS, ids=str)
def test_a_good_file_with_one_value_taken_out_is_read_or_refused(path):
    read_or_refused(changed(path, lambda parent, key: parent.__delitem__(key)))


@given(st.integers(0, len(as_bytes(GOOD)) - 1), st.binary(max_size=3))
def test_a_good_file_with_bytes_replaced_is_read_or_refused(start, piece):
    data = as_bytes(GOOD)
    read_or_refused(data[:start] + piece + data[start + len(piece) :])


@given(st.integers(0, len(as_bytes(GOOD)) - 1))
def test_a_good_file_cut_short_is_refused(length):
    assert read_or_refused(as_bytes(GOOD)[:length]) is None


def test_the_good_file_is_good():
    assert read_or_refused(as_bytes(GOOD)) is not None


@given(house_documents())
def test_a_house_of_any_kind_is_read_and_says_the_same_when_it_is_written_and_read_again(document):
    file = read_house_file(as_bytes(document))
    again = read_house_file(house_text(file).encode())
    assert again == file
    assert house_text(again) == house_text(file)


@pytest.mark.parametrize("name", ["vellory.json", "tarn_bowl.json"])
def test_a_sample_house_says_the_same_when_it_is_written_and_read_again(name):
    file = read_house_file(sample(name))
    assert read_house_file(house_text(file).encode()) == file


@pytest.mark.parametrize(
    "data",
    [
        b'{"a":' * 900 + b"1" + b"}" * 900,
        b"[" + b"1," * 1_500_000 + b"1]",
        b'{"positions": [' + b"1," * 1_500_000 + b"1]}",
        b'{"positions": [{"name": "a", "slots": [' + b"{}," * 1_000_000 + b"{}]}]}",
        b'{"log": [' + b"[]," * 1_000_000 + b"[]]}",
        b"{" + b",".join(b'"%d":1' % number for number in range(200_000)) + b"}",
        b'{"a":1,"a":1,' + b",".join(b'"k%d":1' % (number % 9) for number in range(300_000)) + b"}",
        b'{"house": {"name": "' + b"x" * 4_000_000 + b'"}}',
        b'{"house": {"slug": "' + b"a" * 4_000_000 + b'!"}}',
        b'{"house": {"name": "' + b" " * 4_000_000 + b'"}}',
        b"9" * 4_000_000,
        b'{"a": "' + b"\\" * 4_000_001 + b'"}',
    ],
    ids=["deep", "long list", "many positions", "many slots", "many entries", "many keys", "many twins",
         "long name", "long slug", "long blank", "long number", "backslashes"],
)  # fmt: skip
def test_a_file_made_to_hold_the_reader_up_is_refused_before_anybody_notices(data):
    started = time.process_time()
    with pytest.raises(HouseFileRefused):
        read_house_file(data)
    assert time.process_time() - started < 10
