"""House files for tests: an invented house as JSON, changed at will, and what its reading finds."""

import json
from pathlib import Path
from typing import Any

import pytest

from venue.house_file.problems import HouseFileRefused, Problem
from venue.house_file.reading import read_house_file
from venue.house_file.records import HouseFile

SAMPLES = Path(__file__).parent / "house_files"


def sample(name: str) -> bytes:
    """A file of the folder house_files."""
    return (SAMPLES / name).read_bytes()


def slot(label: str, x_m: float = 0.0, **more: Any) -> dict[str, Any]:
    """A slot at the back of a proscenium house."""
    return {"label": label, "x_m": x_m, "y_m": -38.0, "z_m": 14.0, **more}


def ordered(label: str, order: int, **more: Any) -> dict[str, Any]:
    """A slot of which only its order is known."""
    return {"label": label, "order": order, **more}


def booth(*slots: dict[str, Any], **more: Any) -> dict[str, Any]:
    """A position with the slots given."""
    return {"name": "Rear booth", "kind": "booth", "zone": "front", "level": 3, "slots": list(slots), **more}


def a_house(*positions: dict[str, Any], **sections: Any) -> dict[str, Any]:
    """A whole document: a booth of two slots and two units, unless positions and sections say otherwise."""
    house = {"name": "Vellory Opera", "slug": "vellory", "time_zone": "America/Chicago"}
    document: dict[str, Any] = {
        "format": "throwbook-house",
        "version": 1,
        "house": house | sections.pop("house", {}),
        "positions": list(positions) or [booth(slot("1", -2.0), slot("2", 2.0))],
        "units": [{"tag": "FS-01"}, {"tag": "FS-02"}],
    }
    return document | sections


def stay(unit: str, label: str, start: str, until: str | None = None, position: str = "Rear booth") -> dict[str, Any]:
    """A placement; times without seconds and offset are in UTC."""
    ends = {} if until is None else {"until": f"{until}T00:00Z"}
    return {"unit": unit, "position": position, "label": label, "from": f"{start}T00:00Z", **ends}


def as_bytes(document: Any) -> bytes:
    return json.dumps(document).encode()


def read(document: Any) -> HouseFile:
    """The house of a document without problems."""
    return read_house_file(as_bytes(document))


def problems_of(data: Any) -> tuple[Problem, ...]:
    """What is wrong with the document, or with bytes."""
    with pytest.raises(HouseFileRefused) as refused:
        read_house_file(data if isinstance(data, bytes) else as_bytes(data))
    return refused.value.problems


def found(data: Any) -> dict[str, str]:
    """The code of each problem by its path."""
    return {problem.where: problem.code for problem in problems_of(data)}


def sentence(data: Any, path: str) -> str:
    """What is said about the value at the path."""
    return next(problem.sentence for problem in problems_of(data) if problem.where == path)


def warned(document: Any) -> dict[str, str]:
    """The code of each warning by its path."""
    return {warning.where: warning.code for warning in read(document).warnings}
