"""Every page that a demo user can reach by links: no finding by axe, no sideways scrolling, no small target."""

from collections.abc import Iterator
from urllib.parse import unquote, urlsplit

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.db import connection
from django.urls import Resolver404, resolve
from playwright.sync_api import Page

from tests.browser.conftest import SIZES, THEMES, SignedIn

pytestmark = pytest.mark.django_db(transaction=True)

LAYOUT_RULES = ("target-size", "scrollable-region-focusable", "region")
LEAST_TARGET = 24  # CSS px, WCAG 2.2 SC 2.5.8; links inside a line of text are exempt there


def links_on(page: Page) -> list[str]:
    """Addresses of this site that a page links to, without files to download."""
    found = page.eval_on_selector_all("a[href]:not([download])", "links => links.map(link => link.href)")
    here = urlsplit(page.url).netloc
    paths = [urlsplit(link) for link in found]
    return [part.path for part in paths if part.netloc == here and not part.path.endswith((".pdf", ".csv", ".json"))]


def view_at(path: str) -> str:
    """The name of the view behind an address, empty where there is none."""
    try:
        return resolve(unquote(path)).view_name
    except Resolver404:
        return ""


def crawl(page: Page) -> Iterator[str]:
    """One address for each view that can be reached from the start page by following links; the page is there."""
    found: set[str] = set()
    waiting = ["/"]
    while waiting:
        path = waiting.pop(0)
        view = view_at(path)
        if not view or view in found:
            continue
        response = page.goto(path)
        assert response is not None
        assert response.ok, (path, response.status)
        found.add(view)
        if "text/html" in response.headers.get("content-type", ""):
            waiting += [link for link in links_on(page) if view_at(link) not in found]
            yield path


def is_too_wide(page: Page) -> bool:
    return bool(page.evaluate("document.documentElement.scrollWidth > document.documentElement.clientWidth"))


SMALL_TARGETS = """least =>
  [...document.querySelectorAll("button, input:not([type=hidden]), select, textarea, summary")]
  .filter(each => each.offsetParent && (each.offsetHeight < least || each.offsetWidth < least))
  .filter(each => !(each.labels && [...each.labels].some(label => label.offsetHeight >= least)))
  .map(each => each.outerHTML.slice(0, 120))"""


def require_sound(page: Page, where: tuple[str, ...], *rules: str) -> None:
    """No finding by the rules of axe (default: all), nothing wider than the screen, nothing too small to hit."""
    options = {"resultTypes": ["violations"], **({"runOnly": list(rules)} if rules else {})}
    findings = Axe().run(page, options=options).response["violations"]
    assert not findings, (where, [(each["id"], each["nodes"][0]["html"][:200]) for each in findings])
    assert not is_too_wide(page), where
    assert page.evaluate(SMALL_TARGETS, LEAST_TARGET) == [], where


def classes_on(page: Page) -> set[str]:
    """The classes that give the page's parts their look: a page of parts seen before brings no new color."""
    found = page.evaluate(
        "[...new Set([...document.querySelectorAll('main *')].flatMap(e => [e.tagName, ...e.classList]))]"
    )
    return set(found)


def require_sound_in_other_looks(page: Page, path: str) -> None:
    """A theme changes colors and nothing else, a desk the layout."""
    for theme in THEMES[1:]:
        page.context.add_cookies([{"name": "theme", "value": theme, "url": page.url}])
        page.goto(path)
        require_sound(page, (path, theme), "color-contrast")
    page.set_viewport_size(SIZES["desk"])
    require_sound(page, (path, "desk"), *LAYOUT_RULES)
    page.set_viewport_size(SIZES["phone"])
    page.context.add_cookies([{"name": "theme", "value": THEMES[0], "url": page.url}])


@pytest.mark.parametrize("name", ["head", "road", "dispatch", "reader"])
def test_every_page_of_a_user_is_sound(visit: SignedIn, name: str) -> None:
    """The head, who sees most, in all looks. No color and no layout comes from the database: one is looked at."""
    is_looked_at = connection.vendor == "sqlite"
    page = visit(name, "phone", "light" if name == "head" else "booth")
    seen, parts = 0, set[str]()
    for path in crawl(page):
        if is_looked_at:
            require_sound(page, (path,))
        new_parts = classes_on(page) - parts
        if is_looked_at and name == "head" and new_parts:
            require_sound_in_other_looks(page, path)
            parts |= new_parts
        seen += 1
    assert seen > 1


@pytest.mark.parametrize("theme", THEMES)
def test_the_sign_in_page_is_sound(visit: SignedIn, theme: str) -> None:
    page = visit(None, "phone", theme)
    assert not Axe().run(page).response["violations"]
    assert page.evaluate("document.documentElement.dataset.theme") == theme
