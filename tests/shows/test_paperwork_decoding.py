"""Encodings, byte order marks, marks of direction, and bytes that are no character."""

import pytest

from tests.shows.paperwork import codes, only_spot, read, refusal

TEXT = "Spot;Position;Notes\r\n1;Loge – é;“x”\r\n"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"])
def test_every_usual_encoding_is_read(encoding: str) -> None:
    spot = only_spot(TEXT.encode(encoding))
    assert (spot.number, spot.position, spot.notes) == ("1", "Loge – é", "“x”")


@pytest.mark.parametrize("mark", ["\ufeff", ""])
@pytest.mark.parametrize("encoding", ["utf-16-le", "utf-16-be"])
def test_utf_16_in_another_alphabet_is_read_with_and_without_a_mark(encoding: str, mark: str) -> None:
    spot = only_spot(f"{mark}Spot;Position;Номер\r\n1;Ложа;2\r\n".encode(encoding))
    assert spot.position == "Ложа"


def test_text_may_begin_with_a_byte_order_mark() -> None:
    assert only_spot("\ufeffSpot,Position\n1,booth").number == "1"


def test_a_byte_that_is_no_character_is_named_at_its_line() -> None:
    paperwork = read(b"Spot,Position\n1,caf\xe9\n2,b\x81c\n")
    assert [spot.position for spot in paperwork.spots] == ["café", "b\ufffdc"]
    assert codes(paperwork) == [(3, "unreadable-characters")]


def test_a_lone_surrogate_is_named_and_never_passed_on() -> None:
    paperwork = read("Spot,Position\n1,a\ud800b\n")
    assert paperwork.spots[0].position == "a\ufffdb"
    assert codes(paperwork) == [(2, "unreadable-characters")]
    paperwork.spots[0].text.encode()


def test_direction_marks_and_hard_spaces_leave_plain_text() -> None:
    spot = only_spot("\u200fSpot\u200f,\u202bPosition\u202c\n\u200e1\u200e,bo\u200both\u00a0rear\n")
    assert (spot.number, spot.position) == ("1", "booth rear")


@pytest.mark.parametrize(
    ("data", "kind"),
    [
        (b"PK\x03\x04rest", "workbook"),
        (b"\xd0\xcf\x11\xe0rest", "workbook"),
        (b"%PDF-1.7 rest", "pdf"),
        (b"\x89PNG\r\n\x1a\n\x00\x00", "image"),
        (b"\xff\xd8\xff\xe0", "image"),
        (b"Spot,Position\n1,\x00\n", "unknown"),
        (bytes(range(256)), "unknown"),
        (b"\x01\x02\x03\x04spot", "unknown"),
        ("Spot\x00,Position\n1,booth", "unknown"),
        ("Spot,Position\n1,\x00".encode("utf-16"), "unknown"),
    ],
)
def test_binary_files_are_refused_by_kind(data: bytes | str, kind: str) -> None:
    problem = refusal(data)
    assert (problem.code, problem.data) == ("binary", {"kind": kind})


@pytest.mark.parametrize("data", [b"", "", b"\xef\xbb\xbf", b"\xff\xfe", "\ufeff", " \r\n\n", ",,,\n;;\t\n"])
def test_nothing_but_blanks_is_empty(data: bytes | str) -> None:
    assert refusal(data).code == "empty"
