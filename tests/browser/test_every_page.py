"""Every page that a demo user can reach by links: no finding by axe, no sideways scrolling, no small target."""

from urllib.parse import unquote, urlsplit

import pytest
from axe_playwright_python.sync_playwright import Axe
from django.urls import Resolver404, resolve
from playwright.sync_api import Page

from tests.browser.conftest import THEMES, SignedIn

pytestmark = pytest.mark.django_db(transaction=True)

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


def crawl(page: Page) -> dict[str, str]:
    """One address for each view that can be reached from the start page by following links."""
    found: dict[str, str] = {}
    waiting = ["/"]
    while waiting:
        path = waiting.pop(0)
        view = view_at(path)
        if not view or view in found:
            continue
        response = page.goto(path)
        assert response is not None
        assert response.ok, (path, response.status)
        found[view] = path
        if "text/html" in response.headers.get("content-type", ""):
            waiting += [link for link in links_on(page) if view_at(link) not in found]
    return found


def is_too_wide(page: Page) -> bool:
    return bool(page.evaluate("document.documentElement.scrollWidth > document.documentElement.clientWidth"))


SMALL_TARGETS = """least =>
  [...document.querySelectorAll("button, input:not([type=hidden]), select, textarea, summary")]
  .filter(each => each.offsetParent && (each.offsetHeight < least || each.offsetWidth < least))
  .filter(each => !(each.labels && [...each.labels].some(label => label.offsetHeight >= least)))
  .map(each => each.outerHTML.slice(0, 120))"""


@pytest.mark.parametrize("name", ["head", "road", "dispatch", "reader"])
def test_every_page_of_a_user_is_sound_in_all_themes_and_sizes(visit: SignedIn, name: str) -> None:
    paths = crawl(visit(name, "phone")).values()
    assert len(paths) > 1
    for theme in THEMES if name == "head" else ("booth",):
        page = visit(name, "phone" if theme != "dark" else "desk", theme)
        for path in paths:
            page.goto(path)
            findings = Axe().run(page).response["violations"]
            assert not findings, (theme, path, [(each["id"], each["nodes"][0]["html"][:200]) for each in findings])
            assert not is_too_wide(page), (theme, path)
            assert page.evaluate(SMALL_TARGETS, LEAST_TARGET) == [], (theme, path)


@pytest.mark.parametrize("theme", THEMES)
def test_the_sign_in_page_is_sound(visit: SignedIn, theme: str) -> None:
    page = visit(None, "phone", theme)
    assert not Axe().run(page).response["violations"]
    assert page.evaluate("document.documentElement.dataset.theme") == theme
