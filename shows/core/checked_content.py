"""What somebody signs for: the marks of an arrival check as one text, whenever and wherever it is written."""

import hashlib
import json
from collections.abc import Mapping
from datetime import UTC
from typing import Any

from shows.core.checking import Mark, PlaceState

FORMAT = {"format": "throwbook-arrival-check", "version": 1}


def canonical(states: Mapping[str, PlaceState]) -> str:
    """The last mark of every item as JSON, by the reference of its place; places that nobody marked are left out."""
    marked = {ref: found for ref, state in states.items() if (found := _marks(state))}
    document = {**FORMAT, "places": marked}
    return json.dumps(document, ensure_ascii=False, sort_keys=True, separators=(",", ":"))


def _marks(state: PlaceState) -> dict[str, Any]:
    return {item.item: _plain(item.last) for item in state.items if item.last is not None}


def _plain(mark: Mark) -> dict[str, str]:
    at = mark.at.astimezone(UTC).isoformat()
    return {"result": mark.result, "by": mark.by, "at": at, "note": mark.note}


def digest(content: str) -> str:
    """SHA-256 of the text in UTF-8, in hexadecimal."""
    return hashlib.sha256(content.encode()).hexdigest()
