"""From what came to text: size, binary files, and the encodings that spreadsheets write."""

import re

from shows.core.paperwork.records import MAX_BYTES, unreadable

_SIGNATURES = (
    (b"PK\x03\x04", "workbook"),
    (b"\xd0\xcf\x11\xe0", "workbook"),
    (b"%PDF-", "pdf"),
    (b"\x89PNG", "image"),
    (b"\xff\xd8\xff", "image"),
    (b"GIF8", "image"),
)
_CONTROLS = re.compile(r"[\x00-\x08\x0e-\x1b]")
_CONTROL_SHARE = 0.02  # text has next to no control characters …
_FEW = 4  # … but a stray one or two in a short text
_ZERO_SHARE = 0.15  # spaces, digits and separators alone give UTF-16 that many zero bytes
_RARE = 20  # times rarer are zeros in the other half: few characters end in a zero byte


def decode_text(data: bytes | str) -> str:
    """The text of `data`: UTF-8, UTF-16 or else Windows-1252; without byte order mark and lone surrogates.

    A byte that is no character becomes U+FFFD. Raises PaperworkUnreadable: too-big, binary, empty.
    """
    text = _joined_surrogates(data) if isinstance(data, str) else _decoded(data)
    text = text.removeprefix("\ufeff")
    if "\x00" in text or len(_CONTROLS.findall(text)) >= max(_FEW, _CONTROL_SHARE * len(text)):
        raise unreadable("binary", data={"kind": "unknown"})
    if not text.strip(" \t\r\n,;\ufeff"):
        raise unreadable("empty")
    return text


def _joined_surrogates(text: str) -> str:
    _check_size(len(text))
    return text.encode("utf-16", "surrogatepass").decode("utf-16", "replace")


def _decoded(data: bytes) -> str:
    _check_size(len(data))
    for signature, kind in _SIGNATURES:
        if data.startswith(signature):
            raise unreadable("binary", data={"kind": kind})
    if data.startswith(b"\xef\xbb\xbf"):
        return data.decode("utf-8", "replace")
    encoding = _utf_16_of(data)
    if encoding:
        return data.decode(encoding, "replace")
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        return data.decode("cp1252", "replace")


def _check_size(size: int) -> None:
    if size > MAX_BYTES:
        raise unreadable("too-big", data={"limit": MAX_BYTES, "size": size})


def _utf_16_of(data: bytes) -> str | None:
    """The UTF-16 that the data plainly are: by their mark, or by zeros in every other byte only."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return "utf-16"
    low, high = data[0::2].count(0), data[1::2].count(0)
    enough = max(_FEW, _ZERO_SHARE * len(data) / 2)
    if high >= enough and low * _RARE < high:
        return "utf-16-le"
    if low >= enough and high * _RARE < low:
        return "utf-16-be"
    return None
