"""Files that come with a log entry: told by their first bytes, named safely."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.venue.cared import JPEG, PDF, PNG, WEBP
from venue.core.attached import ENDINGS, clean_name, type_of


@pytest.mark.parametrize(
    ("content", "found"),
    [
        (JPEG, "image/jpeg"),
        (PNG, "image/png"),
        (WEBP, "image/webp"),
        (PDF, "application/pdf"),
        (b"", None),
        (b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>", None),
        (b"<!doctype html><script>alert(1)</script>", None),
        (b"GIF89a" + b"\0" * 20, None),
        (b"MZ\x90\0", None),
        (b"PK\x03\x04", None),
        (b" %PDF-1.4", None),
        (b"RIFF\x24\0\0\0WAVEfmt ", None),
        (b"\x89PNG", None),
        (b"\xff\xd8", None),
    ],
)
def test_the_first_bytes_tell_the_type(content: bytes, found: str | None) -> None:
    assert type_of(content) == found


@pytest.mark.parametrize(
    ("name", "content_type", "kept"),
    [
        ("mirror.jpg", "image/jpeg", "mirror.jpg"),
        ("mirror.JPEG", "image/jpeg", "mirror.jpg"),
        ("stand.php.jpg", "image/jpeg", "stand.jpg"),
        ("page.html", "image/png", "page.png"),
        ("report.pdf.exe", "application/pdf", "report.pdf"),
        ("C:\\booth\\lamp 2.png", "image/png", "lamp 2.png"),
        ("../../etc/passwd", "image/png", "passwd.png"),
        (".htaccess", "image/png", "htaccess.png"),
        ("…", "image/webp", "attached.webp"),
        ("", "image/png", "attached.png"),
        ('a"b\r\nX-Bad: 1.png', "image/png", "a-b X-Bad- 1.png"),
        ("Spot\u202egpj.exe", "image/jpeg", "Spotgpj.jpg"),
        ("miroir à facettes.webp", "image/webp", "miroir à facettes.webp"),
        ("x" * 300 + ".png", "image/png", "x" * 80 + ".png"),
    ],
)
def test_a_name_keeps_its_words_and_takes_the_ending_of_its_type(name: str, content_type: str, kept: str) -> None:
    assert clean_name(name, content_type) == kept


@given(st.text(max_size=200), st.sampled_from(sorted(ENDINGS)))
def test_no_name_keeps_a_path_a_mark_or_another_ending(name: str, content_type: str) -> None:
    kept = clean_name(name, content_type)
    assert kept.count(".") == 1 and kept.endswith(f".{ENDINGS[content_type]}")
    assert not set(kept) & set("/\\\"'<>&;:\r\n\0\u202e") and 5 <= len(kept) <= 90
