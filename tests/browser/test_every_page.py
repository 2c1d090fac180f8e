"""Every page that a demo user can reach by links: no finding by axe, no sideways scrolling, no small target."""

from collections.abc import Callable, Iterator
from html.parser import HTMLParser
from urllib.parse import unquote, urljoin, urlsplit

import pytest
from axe_playwright_python.base import AXE_SCRIPT
from django.templatetags.static import static
from django.urls import Resolver404, resolve
from playwright.sync_api import APIResponse, Page, Response

from tests.browser.conftest import SIZES, THEMES, SignedIn

pytestmark = pytest.mark.django_db(transaction=True)

LAYOUT_RULES = ("target-size", "scrollable-region-focusable", "region")
FILES = (".pdf", ".csv", ".json", ".ics")
LEAST_TARGET = 24  # CSS px, WCAG 2.2 SC 2.5.8; links inside a line of text are exempt there


class Read(HTMLParser):
    """A page as it is sent, which is as it is shown: no script adds a link or a part.

    `links` are addresses of this site that it links to, without files to download; `parts` the tags and classes that
    give it its look: a page of parts seen before brings no new color.
    """

    def __init__(self, text: str, path: str) -> None:
        super().__init__()
        self.path, self.links, self.parts = path, list[str](), set[str]()
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        said = dict(attrs)
        self.parts |= {tag, *(said.get("class") or "").split()}
        link = urlsplit(urljoin(self.path, said.get("href") or ""))
        if tag == "a" and "download" not in said and not link.netloc and not link.path.endswith(FILES):
            self.links.append(link.path)


def view_at(path: str) -> str:
    """The name of the view behind an address, empty where there is none."""
    try:
        return resolve(unquote(path)).view_name
    except Resolver404:
        return ""


def crawl(get: Callable[[str], Response | APIResponse | None]) -> Iterator[tuple[str, set[str]]]:
    """One address for each view that can be reached from the start page by following links, and the page's parts."""
    found: set[str] = set()
    waiting = ["/"]
    while waiting:
        path = waiting.pop(0)
        view = view_at(path)
        if not view or view in found:
            continue
        response = get(path)
        assert response is not None
        assert response.ok, (path, response.status)
        found.add(view)
        if "text/html" in response.headers.get("content-type", ""):
            read = Read(response.text(), path)
            waiting += [link for link in read.links if view_at(link) not in found]
            yield path, read.parts


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
    """Each page of the head, who sees most, and in all looks what has a part not seen before; of others that alone.

    What the others see that the head does not is opened; all else is only fetched.
    """
    is_head = name == "head"
    page = visit(name, "phone", "light" if is_head else "booth")
    seen, parts = 0, set[str]()
    for path, on_page in crawl(page.goto if is_head else page.request.get):
        is_new = bool(on_page - parts)
        if is_new and not is_head:
            page.goto(path)
        if is_head or is_new:
            require_sound(page, (path,), but=() if is_new else ("color-contrast",))
        if is_head and is_new:
            require_sound_in_other_looks(page, path)
        parts |= on_page
        seen += 1
    assert seen > 1


@pytest.mark.parametrize("theme", THEMES)
def test_the_sign_in_page_is_sound(visit: SignedIn, theme: str) -> None:
    page = visit(None, "phone", theme)
    require_sound(page, ("sign in", theme))
    assert page.evaluate("document.documentElement.dataset.theme") == theme
