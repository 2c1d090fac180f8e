"""Whatever comes in as a house file is read or refused with its problems; nothing else ever happens."""

import copy
import json
import time
from functools import lru_cache, partial

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator, FormatChecker

from tests.venue.book_strategies import PNG, book_documents
from tests.venue.house_documents import a_house, as_bytes, booth, ordered, sample, slot, stay
from tests.venue.house_strategies import house_documents
from venue.house_file.problems import HouseFileRefused
from venue.house_file.reading import read_house_file
from venue.house_file.records import BOOK, HouseFile
from venue.house_file.screening import screen_of
from venue.house_file.shape import FORMAT_READERS, house_schema, reads, resolved
from venue.house_file.writing import house_text

JSON_VALUES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=20),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=10), inner, max_size=4),
    max_leaves=12,
)
GOOD = a_house(
    booth(
        slot("1", -2.0, order=1, circuit="LP-3/12"),
        slot("2", 2.0, order=2, operated_from={"position": "Rear booth", "label": "1"}),
        farthest_downstage_m=-4.0,
        farthest_upstage_m=9.0,
        pan_from_deg=-20.0,
        pan_to_deg=20.0,
        seats_lost=3,
        blocked=[
            {"name": "stack", "place": "1", "corners": [[1, 2], [3, 2], [3, 4]], "noted_on": "2026-01-02"},
            {"name": "beam", "pan_from_deg": 3.0, "pan_to_deg": 5.0},
        ],
    ),
    booth(ordered("A", 1, unit="FS-02", x_text="14'"), name="Rail", zone="side"),
    {"name": "Ring", "zone": "bowl", "slots": [{"label": "1", "bearing_deg": 12.5}]},
    house={"areas": [{"name": "pit", "kind": "pit", "corners": [[-5, -1.5], [5, -1.5], [5, -4], [-5, -4]]}]},
    setups=[
        {"name": "Thrust", "layout": "thrust", "target": [0, -4, 1.5], "zones": {"Rail": "rear"},
         "areas": [{"name": "aisle", "corners": [[0, -9], [1, -9], [1, -20]], "corners_text": "as typed"}]}
    ],
    circuits=[{"name": "LP-3/12", "volts": 208, "rating_a": 30, "other_a": 0.5}],
    filters=[{"code": "C-1", "transmission_pct": 61.5, "shift_mired": 100, "is_near_neutral": True}],
    sizes=[{"size": "waist", "diameter_m": 1.4, "diameter_text": "4' 7\""}],
    units=[{"tag": "FS-01", "angle_percent": 50, "sized_by": "iris", "weight_kg": 95}, {"tag": "FS-02"}],
    placements=[stay("FS-01", "1", "2025-09-01", "2026-01-01")],
    lamp_kinds=[{"name": "a", "rated_h": 2000}],
    lamps=[{"serial": "L-1", "kind": "a", "fitted": [{"unit": "FS-01", "from": "2026-01-10T10:00Z", "meter_h": 800}]}],
    meters=[{"unit": "FS-02", "from": "2026-01-01T00:00:00Z", "until": "2026-02-01T00:00:00Z"}],
    readings=[{"unit": "FS-01", "at": "2026-02-01T23:10:00Z", "meter_h": 846.5, "strikes": 3}],
    hours_added=[{"unit": "FS-02", "at": "2026-02-01T23:10:00Z", "hours": 3}],
    faults=[{"unit": "FS-01", "means": "limited", "limit": "frame 4 out", "opened": "2026-02-01T23:10:00Z"}],
    log=[
        {"unit": "FS-01", "at": "2026-01-10T10:00:00Z", "kind": "relamp", "answers": {"cooled": True},
         "fitting": {"lamp": "L-1", "from": "2026-01-10T10:00:00Z"}},
        {"unit": "FS-01", "at": "2026-01-11T10:00:00Z", "kind": "light-reading",
         "attachments": [{"name": "a.png", "content": PNG}]},
    ],
    care_plans=[
        {"what": "x", "covers": "all", "every_days": 9, "done": [{"unit": "FS-01", "at": "2026-01-10T10:00:00Z"}]}
    ],
    light_readings=[
        {"unit": "FS-01", "at": "2026-01-11T10:00:00Z", "lux": 9, "distance_m": 1, "setting": "x",
         "entry": {"at": "2026-01-11T10:00:00Z", "kind": "light-reading"}}
    ],
)  # fmt: skip


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


# -- the quick screen ----------------------------------------------------------------------------------

FORMATS = {name: partial(reads, read) for name, read in FORMAT_READERS.items()}
BOOK_PARTS = ["lamp_kind", "lamp", "meter", "reading", "added", "fault", "log_entry", "care_plan", "light_reading"]


def library_finds(part, value):
    """Whether the library finds something wrong with a value of this part of the format."""
    return any(library().evolve(schema={"$ref": f"#/$defs/{part}"}).iter_errors(value))


@lru_cache(maxsize=1)
def library():
    checker = FormatChecker(formats=())
    for name, right in FORMATS.items():
        checker.checks(name)(lambda value, right=right: not isinstance(value, str) or right(value))
    checker.checks("time-zone")(lambda value: True)
    return Draft202012Validator(house_schema(), format_checker=checker)


@given(st.sampled_from(BOOK_PARTS), JSON_VALUES)
def test_the_screen_passes_nothing_that_the_library_refuses(part, value):
    if screen_of({"$ref": f"#/$defs/{part}"}, resolved, FORMATS)(value):
        assert not library_finds(part, value)


@pytest.mark.parametrize("path", [path for path in PATHS if len(path) > 2 and path[0] in BOOK], ids=str)
def test_the_screen_passes_no_entry_in_which_a_value_is_wrong(path):
    part = dict(zip(BOOK, BOOK_PARTS, strict=True))[path[0]]
    screen = screen_of({"$ref": f"#/$defs/{part}"}, resolved, FORMATS)
    for wrong in (None, True, -1, 1e9, "", " ", "\u0007", "x" * 3000, "2026-02-30T00:00:00Z", [], {}, ["x"], {"x": 1}):
        entry = json.loads(changed(path, lambda parent, key, wrong=wrong: parent.__setitem__(key, wrong)))[path[0]][
            path[1]
        ]
        assert not (screen(entry) and library_finds(part, entry)), wrong


@settings(max_examples=8)
@given(book_documents())
def test_the_screen_passes_what_is_right_so_that_the_library_has_little_to_do(document):
    for section, part in zip(BOOK, BOOK_PARTS, strict=True):
        screen = screen_of({"$ref": f"#/$defs/{part}"}, resolved, FORMATS)
        assert all(map(screen, document[section]))


@settings(max_examples=30)
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
        b'{"house": {"name": "a", "areas": [' + b'{"corners": [[1]]},' * 30_000 + b"{}]}}",
        b'{"positions": [{"name": "a", "blocked": [{"name": "a", "corners": [' + b"[1,2]," * 100_000 + b"[1,2]]}]}]}",
        b"{" + b",".join(b'"%d":1' % number for number in range(200_000)) + b"}",
        b'{"a":1,"a":1,' + b",".join(b'"k%d":1' % (number % 9) for number in range(300_000)) + b"}",
        b'{"house": {"name": "' + b"x" * 4_000_000 + b'"}}',
        b'{"house": {"slug": "' + b"a" * 4_000_000 + b'!"}}',
        b'{"house": {"name": "' + b" " * 4_000_000 + b'"}}',
        b"9" * 4_000_000,
        b'{"a": "' + b"\\" * 4_000_001 + b'"}',
    ],
    ids=["deep", "long list", "many positions", "many slots", "many entries", "many areas", "many corners",
         "many keys", "many twins", "long name", "long slug", "long blank", "long number", "backslashes"],
)  # fmt: skip
def test_a_file_made_to_hold_the_reader_up_is_refused_before_anybody_notices(data):
    started = time.process_time()
    with pytest.raises(HouseFileRefused):
        read_house_file(data)
    assert time.process_time() - started < 10
