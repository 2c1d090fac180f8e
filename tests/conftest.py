"""What the whole suite shares."""

import os
import re

import pytest
from django.db import connection
from django.template import Context, Template
from django.test import SimpleTestCase
from django.test.signals import template_rendered
from hypothesis import settings

from tests.racing import shared_database, template

__all__ = ["shared_database", "template"]

# Two workers on two cores make single examples slow now and then; that says nothing about the code.
settings.register_profile("suite", deadline=None)
settings.load_profile("suite")

COUNTS_QUERIES = re.compile(r"_quer(y|ies)\b|_quer(y|ies)_|_as_often_|_asks?_as_much_|_costs?_as_much_")
"""In the name of a test, which is a sentence."""
PAGES_TOO = os.environ.get("PAGES_TOO") == "yes"
"""Whether the tests of pages run on the other database too, as `make check` does."""
DATABASE_FIXTURES = {"db", "transactional_db", "django_db_setup", "shared_database"}


@pytest.fixture(scope="session", autouse=True)
def _only_whole_pages_are_noted(django_test_environment: None) -> None:
    """The test client notes what a page was drawn from, not each part of it: that took a seventh of a page's time."""
    Template._render = render_and_note_the_page  # type: ignore[attr-defined]


def render_and_note_the_page(self: Template, context: Context) -> str:
    """As the framework's own for tests, where it notes every template that is drawn."""
    if context.template is self:
        template_rendered.send(sender=self, template=self, context=context)
    return self.nodelist.render(context)


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """What touches no database runs once, with the suite on SQLite; without the mark it could not touch one.

    So do the look at every page and the errands in a browser, but for the longest one on a phone: no color and no
    layout comes from the database, the verbs have tests of their own, and the table of access opens every address.
    So does what is said of how often the database is asked: that is the same on both.
    """
    if connection.vendor == "sqlite":
        return
    wanted = [item for item in items if is_of_the_database(item)]
    kept = set(wanted)
    config.hook.pytest_deselected(items=[item for item in items if item not in kept])
    items[:] = wanted


def is_of_the_database(item: pytest.Item) -> bool:
    """Whether it may turn out otherwise on another database; of pages only if all are asked for."""
    if not touches_database(item) or is_about_looks(item) or COUNTS_QUERIES.search(item.name):
        return False
    return PAGES_TOO or not is_about_pages(item)


def is_about_pages(item: pytest.Item) -> bool:
    """Whether it opens pages and holds what they say: the table of access opens each of them on both databases."""
    is_named_so = item.path.stem.endswith(("_page", "_pages")) or item.get_closest_marker("pages") is not None
    return is_named_so or "client" in fixtures_of(item)


def is_about_looks(item: pytest.Item) -> bool:
    """Whether it is done in a browser and is not the one errand that leads through everything."""
    leads_through = item.name.startswith("test_the_whole_job") and item.name.endswith("[phone]")
    return item.path.parent.name == "browser" and not leads_through


def touches_database(item: pytest.Item) -> bool:
    """Whether the framework lets the test open the database."""
    is_case = issubclass(getattr(item, "cls", None) or object, SimpleTestCase)
    return is_case or item.get_closest_marker("django_db") is not None or bool(DATABASE_FIXTURES & fixtures_of(item))


def fixtures_of(item: pytest.Item) -> set[str]:
    return set(getattr(item, "fixturenames", ()))
