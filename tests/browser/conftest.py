"""The demo, served to a real Chromium at phone and desktop size."""

import os
import shutil
from collections.abc import Callable, Iterator

import pytest
from django.core.management import call_command
from django.test import override_settings
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright
from pytest_django.live_server_helper import LiveServer

from tests.racing import shared_database, template

__all__ = ["shared_database", "template"]

# The driver runs an event loop in the test's own thread, where the framework would refuse its database calls.
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "1")

SIZES = {"phone": {"width": 360, "height": 740}, "desk": {"width": 1280, "height": 800}}
THEMES = ("light", "dark", "booth")
FLAGS = [
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]

SignedIn = Callable[..., Page]


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """One browser for all tests of a worker. A missing one is an error, never a skip."""
    path = os.environ.get("CHROMIUM") or shutil.which("chromium") or shutil.which("chromium-browser")
    if path is None:
        pytest.fail("Chromium was not found. Install Debian's package chromium, or set CHROMIUM to its path.")
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=path, args=FLAGS)
        yield browser
        browser.close()


@pytest.fixture
def site(transactional_db: None, shared_database: None, live_server: LiveServer) -> str:
    """The address of a server with the demo on it."""
    with override_settings(MAY_LOAD_DEMO=True):
        call_command("load_demo", "--json")
    return live_server.url


@pytest.fixture
def visit(site: str, chromium: Browser) -> Iterator[SignedIn]:
    """visit("head", "phone", theme="booth"): a page of the start page, signed in as that demo user.

    Without a name nobody is signed in. Any script error or blocked content fails the test.
    """
    contexts: list[BrowserContext] = []
    faults: list[str] = []

    def open_page(name: str | None = None, size: str = "phone", theme: str = "light") -> Page:
        context = chromium.new_context(viewport=SIZES[size], base_url=site)  # type: ignore[arg-type]
        context.add_cookies([{"name": "theme", "value": theme, "url": site}])
        contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(10_000)
        page.on("pageerror", lambda error: faults.append(str(error)))
        page.on("console", lambda message: faults.append(message.text) if _is_fault(message.text) else None)
        page.goto("/")
        if name:
            page.fill("input[name=username]", name)
            page.fill("input[name=password]", f"{name}-demo")
            page.get_by_role("button", name="Sign in").click()
        return page

    yield open_page
    for context in contexts:
        context.close()
    assert not faults


def _is_fault(text: str) -> bool:
    return "Content Security Policy" in text or "Refused to" in text
