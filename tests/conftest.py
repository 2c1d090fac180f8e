"""What the whole suite shares."""

import pytest
from django.db import connection
from django.test import SimpleTestCase
from hypothesis import settings

from tests.racing import shared_database, template

__all__ = ["shared_database", "template"]

# Two workers on two cores make single examples slow now and then; that says nothing about the code.
settings.register_profile("suite", deadline=None)
settings.load_profile("suite")

DATABASE_FIXTURES = {"db", "transactional_db", "django_db_setup", "shared_database"}


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """What touches no database runs once, with the suite on SQLite; without the mark it could not touch one.

    So do errands at a desk, which differ from those on a phone by their layout alone, and the look at every page:
    no color and no layout comes from the database, and the table of access opens every address on both.
    """
    if connection.vendor == "sqlite":
        return
    wanted = [item for item in items if touches_database(item) and not is_about_looks(item)]
    kept = set(wanted)
    config.hook.pytest_deselected(items=[item for item in items if item not in kept])
    items[:] = wanted


def is_about_looks(item: pytest.Item) -> bool:
    """Whether a browser looks at every page, or does at desktop size what it does at a phone's too."""
    if item.path.name == "test_every_page.py":
        return True
    parameters = getattr(item, "callspec", None)
    return parameters is not None and parameters.params.get("size") == "desk"


def touches_database(item: pytest.Item) -> bool:
    """Whether the framework lets the test open the database."""
    is_case = issubclass(getattr(item, "cls", None) or object, SimpleTestCase)
    return is_case or item.get_closest_marker("django_db") is not None or bool(DATABASE_FIXTURES & fixtures_of(item))


def fixtures_of(item: pytest.Item) -> set[str]:
    return set(getattr(item, "fixturenames", ()))
