"""Attached files: what they are by their first bytes, and a name that is safe to keep and to send."""

import re

from venue.core.labels import plain_text

ENDINGS = {"image/jpeg": "jpg", "image/png": "png", "image/webp": "webp", "application/pdf": "pdf"}
"""The types that are taken, and how a file of the type ends."""
LONGEST_STEM = 80


def type_of(content: bytes) -> str | None:
    """The type that the first bytes tell: JPEG, PNG, WebP or PDF; None for anything else, whatever its name."""
    if content.startswith(b"\xff\xd8\xff"):
        return "image/jpeg"
    if content.startswith(b"\x89PNG\r\n\x1a\n"):
        return "image/png"
    if content[:4] == b"RIFF" and content[8:12] == b"WEBP":
        return "image/webp"
    return "application/pdf" if content.startswith(b"%PDF-") else None


def clean_name(name: str, content_type: str) -> str:
    """The name without a path, marks or other endings, with the ending of its type: "stand.php.jpg" → "stand.jpg"."""
    last = re.split(r"[\\/]", plain_text(name))[-1]
    stem = last.split(".")[0] if not last.startswith(".") else last.strip(".").split(".")[0]
    kept = re.sub(r"[^\w ()+-]+", "-", stem).strip(" -_")[:LONGEST_STEM].strip()
    return f"{kept or 'attached'}.{ENDINGS[content_type]}"
