"""The demo, served to a real Chromium at phone and desktop size."""

import os
import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from django.contrib.staticfiles.handlers import StaticFilesHandler
from django.core.management import call_command
from django.db import connection
from django.test import override_settings
from django.test.testcases import LiveServerThread
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

from tests.racing import sqlite_file

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


@pytest.fixture(scope="session")
def demo_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Where the SQLite file with the demo is made once, to be copied from then on."""
    return tmp_path_factory.mktemp("demo") / "demo.sqlite3"


@pytest.fixture
def demo(transactional_db: None, tmp_path: Path, template: Path, demo_file: Path) -> Iterator[None]:
    """A database with the demo on it that every thread sees."""
    if connection.vendor != "sqlite":
        load_demo()
        yield
        return
    if not demo_file.exists():
        with sqlite_file(demo_file, template):
            load_demo()
    with sqlite_file(tmp_path / "demo.sqlite3", demo_file):
        yield


def load_demo() -> None:
    with override_settings(MAY_LOAD_DEMO=True):
        call_command("load_demo", "--json")


@pytest.fixture
def site(demo: None) -> Iterator[str]:
    """The address of a server on the demo's database; its threads open that themselves."""
    server = LiveServerThread("localhost", StaticFilesHandler, connections_override={})
    server.daemon = True
    server.start()
    server.is_ready.wait(timeout=30)
    if server.error:
        raise server.error
    yield f"http://localhost:{server.port}"
    server.terminate()


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
