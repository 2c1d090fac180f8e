"""What the pure computations may lean on. The arrows between apps and layers are in pyproject.toml."""

import ast
import sys
from collections.abc import Iterator
from importlib.util import resolve_name
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]
APPS = ["venue", "shows", "crew"]  # each may use the cores of those before it
NUMERIC = {"numpy", "scipy"}
CLOCKS = {"now", "utcnow", "today", "localtime", "time_ns", "monotonic"}
CORE_MODULES = sorted(path for app in APPS for path in (ROOT / app / "core").rglob("*.py"))


def faults(source: str, package: str) -> list[str]:
    """What a core module in the package must not do: a line each."""
    tree = ast.parse(source)
    lower = [f"{name}.core" for name in APPS[: APPS.index(package.split(".")[0]) + 1]]
    found = [f"imports {name}" for name in imported(tree, package) if not may_import(name, lower)]
    return found + [f"reads the clock by {name}" for name in called(tree) if name in CLOCKS]


def imported(tree: ast.AST, package: str) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield resolve_name("." * node.level + (node.module or ""), package)


def called(tree: ast.AST) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
            yield node.func.attr


def may_import(name: str, lower_cores: list[str]) -> bool:
    top = name.split(".")[0]
    in_lower_core = any(name == core or name.startswith(f"{core}.") for core in lower_cores)
    return in_lower_core or top in sys.stdlib_module_names or top in NUMERIC


@pytest.mark.parametrize("path", CORE_MODULES, ids=lambda path: str(path.relative_to(ROOT)))
def test_a_core_module_uses_only_the_standard_library_numbers_and_lower_cores(path: Path) -> None:
    package = ".".join(path.relative_to(ROOT).parent.parts)
    assert faults(path.read_text(), package) == []


@pytest.mark.parametrize(
    ("source", "package", "fault"),
    [
        ("from django.db import models", "venue.core", "imports django.db"),
        ("import requests", "venue.core", "imports requests"),
        ("from shows.core.numbering import compare", "venue.core", "imports shows.core.numbering"),
        ("from venue.models import House", "shows.core", "imports venue.models"),
        ("from venue.corex import thing", "shows.core", "imports venue.corex"),
        ("from ..models import House", "venue.core", "imports venue.models"),
        ("import datetime\ndatetime.datetime.now()", "crew.core", "reads the clock by now"),
    ],
)
def test_a_forbidden_import_or_clock_is_found(source: str, package: str, fault: str) -> None:
    assert faults(source, package) == [fault]


@pytest.mark.parametrize(
    "source",
    [
        "import math",
        "from scipy import stats",
        "from venue.core.labels import sort_key",
        "from .records import Row",
    ],
)
def test_what_a_core_may_use_is_let_through(source: str) -> None:
    assert faults(source, "shows.core.paperwork") == []
