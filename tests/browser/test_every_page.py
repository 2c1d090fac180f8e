"""Every page that a demo user can reach by links: no finding by axe, no sideways scrolling, no small target."""

from collections.abc import Iterator
from urllib.parse import unquote, urlsplit

import pytest
from axe_playwright_python.base import AXE_SCRIPT
from django.templatetags.static import static
from django.urls import Resolver404, resolve
from playwright.sync_api import Page

from tests.browser.conftest import SIZES, THEMES, SignedIn

pytestmark = pytest.mark.django_db(transaction=True)

LAYOUT_RULES = ("target-size", "scrollable-region-focusable", "region")
FILES = (".pdf", ".csv", ".json", ".ics")
LEAST_TARGET = 24  # CSS px, WCAG 2.2 SC 2.5.8; links inside a line of text are exempt there


def links_on(page: Page) -> list[str]:
    """Addresses of this site that a page links to, without files to download."""
    found = page.eval_on_selector_all("a[href]:not([download])", "links => links.map(link => link.href)")
    here = urlsplit(page.url).netloc
    paths = [urlsplit(link) for link in found]
    return [part.path for part in paths if part.netloc == here and not part.path.endswith(FILES)]


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


def require_sound(page: Page, where: tuple[str, ...], *rules: str, but: tuple[str, ...] = ()) -> None:
    """No finding by the rules of axe (default: all), nothing wider than the screen, nothing too small to hit."""
    left_out = {rule: {"enabled": False} for rule in but}
    options = {"resultTypes": ["violations"], "rules": left_out, **({"runOnly": list(rules)} if rules else {})}
    if not page.evaluate("'axe' in window"):
        page.evaluate(AXE_SCRIPT)
    findings = page.evaluate("async options => (await axe.run(options)).violations", options)
    assert not findings, (where, [(each["id"], each["nodes"][0]["html"][:200]) for each in findings])
    assert not is_too_wide(page), where
    assert page.evaluate(SMALL_TARGETS, LEAST_TARGET) == [], where


def classes_on(page: Page) -> set[str]:
    """The classes that give the page's parts their look: a page of parts seen before brings no new color."""
    found = page.evaluate(
        "[...new Set([...document.querySelectorAll('main *')].flatMap(e => [e.tagName, ...e.classList]))]"
    )
    return set(found)


PUT_THEME = """([theme, sheet]) => new Promise(done => {
  document.documentElement.dataset.theme = theme
  document.querySelectorAll("link[data-tried]").forEach(link => link.remove())
  const link = Object.assign(document.createElement("link"), {rel: "stylesheet", href: sheet, onload: done})
  link.dataset.tried = ""
  document.querySelector("link[href*=tokens]").after(link)
})"""
"""The sheet stands where the page's template links it; to load the page anew for each theme took a minute in all."""


def require_sound_in_other_looks(page: Page, path: str) -> None:
    """A theme changes colors and nothing else, a desk the layout."""
    for theme in THEMES[1:]:
        page.evaluate(PUT_THEME, [theme, static(f"css/{theme}.css")])
        require_sound(page, (path, theme), "color-contrast")
    page.set_viewport_size(SIZES["desk"])
    require_sound(page, (path, "desk"), *LAYOUT_RULES)
    page.set_viewport_size(SIZES["phone"])


@pytest.mark.parametrize("name", ["head", "road", "dispatch", "reader"])
def test_every_page_of_a_user_is_sound(visit: SignedIn, name: str) -> None:
    """Each page of the head, who sees most, and in all looks what has a part not seen before; of others that alone."""
    is_head = name == "head"
    page = visit(name, "phone", "light" if is_head else "booth")
    seen, parts = 0, set[str]()
    for path in crawl(page):
        new_parts = classes_on(page) - parts
        if is_head or new_parts:
            require_sound(page, (path,), but=() if new_parts else ("color-contrast",))
        if is_head and new_parts:
            require_sound_in_other_looks(page, path)
        parts |= new_parts
        seen += 1
    assert seen > 1


@pytest.mark.parametrize("theme", THEMES)
def test_the_sign_in_page_is_sound(visit: SignedIn, theme: str) -> None:
    page = visit(None, "phone", theme)
    require_sound(page, ("sign in", theme))
    assert page.evaluate("document.documentElement.dataset.theme") == theme
