"""Where something stands in a file, and what stands there, as text on one line."""

import json
import re
from typing import Any

Path = tuple[str | int, ...]
"""The keys and indexes that lead from the document to a value."""

_PLAIN_KEY = re.compile(r"[A-Za-z_][A-Za-z0-9_]{0,59}")


def json_path(path: Path) -> str:
    """The path as text: $.positions[0].slots[2].x_m"""
    return "$" + "".join(map(_step, path))


def _step(key: str | int) -> str:
    if isinstance(key, int):
        return f"[{key}]"
    return f".{key}" if _PLAIN_KEY.fullmatch(key) else f"[{quoted(key)}]"


def quoted(value: Any, longest: int = 60) -> str:
    """A value of the file on one line, as JSON: cut short, and marks that would not show written out."""
    text = json.dumps(value, ensure_ascii=False)
    if len(text) > longest:
        text = text[: longest - 1] + "…"
    return "".join(char if char.isprintable() else f"\\u{ord(char):04x}" for char in text)
