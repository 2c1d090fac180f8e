"""What people typed beside what it says: a length, a point or corners that change take their old text with them."""

from dataclasses import fields, replace
from functools import lru_cache
from typing import Any, TypeVar

from venue.house_file.keys import Given

AnyRecord = TypeVar("AnyRecord")

_MEASURES = {"corners_text": "corners", "throw_end_text": "throw_end_y_m"}
"""What a text is about where that is not its own name with _m."""


@lru_cache(maxsize=64)
def _texts_of(kind: Any) -> tuple[tuple[str, str], ...]:
    """The kind's texts as typed, each with the field that it is about."""
    names = {each.name for each in fields(kind)}
    texts = [name for name in sorted(names) if name.endswith("_text")]
    pairs = ((text, _MEASURES.get(text, f"{text.removesuffix('_text')}_m")) for text in texts)
    return tuple((text, measure) for text, measure in pairs if measure in names)


def without_stale_texts(laid: AnyRecord, stored: AnyRecord, given: Given) -> AnyRecord:
    """A record laid over the stored one, without stored texts about what the file changes; `given` are its fields."""
    kind: Any = type(laid)
    stale: dict[str, Any] = {
        text: ""
        for text, measure in _texts_of(kind)
        if text not in given and getattr(laid, measure) != getattr(stored, measure)
    }
    return replace(laid, **stale) if stale else laid  # type: ignore[type-var]
