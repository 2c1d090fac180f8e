"""Several connections that see each other's rows, and several writers that start at the same instant."""

import shutil
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from pathlib import Path
from threading import Barrier
from typing import Any

import pytest
from django.db import connection, connections
from pytest_django import DjangoDbBlocker


@pytest.fixture(scope="session")
def template(
    tmp_path_factory: pytest.TempPathFactory, django_db_setup: None, django_db_blocker: DjangoDbBlocker
) -> Path:
    """On SQLite the test database as a file, from which others are copied; still empty, whenever it is asked for."""
    path = tmp_path_factory.mktemp("shared") / "template.sqlite3"
    if connection.vendor == "sqlite":
        with django_db_blocker.unblock(), connection.cursor() as cursor:
            cursor.execute("VACUUM INTO %s", [str(path)])
    return path


@pytest.fixture
def shared_database(tmp_path: Path, template: Path) -> Iterator[None]:
    """A database whose rows every connection sees: a file of its own on SQLite, else the test database.

    For tests marked `django_db(transaction=True)`, which empties the test database afterwards.
    """
    if connection.vendor != "sqlite":
        yield
        return
    with sqlite_file(tmp_path / "shared.sqlite3", template):
        yield


@contextmanager
def sqlite_file(path: Path, template: Path) -> Iterator[None]:
    """The default database is a copy of the SQLite file `template`, with the project's options, for every thread."""
    shutil.copy(template, path)
    with _default_database(path):
        yield


@contextmanager
def _default_database(path: Path) -> Iterator[None]:
    before, settings = connections["default"], connections.settings["default"]
    connections.settings["default"] = {**settings, "NAME": str(path)}
    del connections["default"]
    try:
        yield
    finally:
        connections["default"].close()
        connections.settings["default"] = settings
        connections["default"] = before


def race(writers: Sequence[Callable[[], Any]]) -> list[Any]:
    """What each writer returned or raised; each has a thread and a connection of its own."""
    start = Barrier(len(writers))
    with ThreadPoolExecutor(len(writers)) as pool:
        return list(pool.map(lambda writer: _run(writer, start), writers))


def _run(writer: Callable[[], Any], start: Barrier) -> Any:
    try:
        connection.ensure_connection()
        start.wait(timeout=30)
        return writer()
    except Exception as error:
        return error
    finally:
        connection.close()
