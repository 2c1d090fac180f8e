"""The theme: chosen by a form, kept in a cookie, in the page's first bytes; readable in each."""

import colorsys
import re
from itertools import product
from pathlib import Path

import pytest
from django.conf import settings
from django.test import Client

from venue.theme import Theme

pytestmark = pytest.mark.django_db

CSS = Path(__file__).resolve().parents[2] / "static" / "css"
TEXTS = ["text", "text-quiet", "link", "good", "warn", "stop"]


def colors(theme: str) -> dict[str, str]:
    """The colors in force: light ones, with the theme's own over them."""
    sheets = ["tokens.css"] if theme == "light" else ["tokens.css", f"{theme}.css"]
    return {
        name: value
        for sheet in sheets
        for name, value in re.findall(r"--([a-z-]+): (#[0-9a-f]{6});", (CSS / sheet).read_text())
    }


def channels(color: str) -> tuple[float, float, float]:
    red, green, blue = (int(color[start : start + 2], 16) / 255 for start in (1, 3, 5))
    return red, green, blue


def luminance(color: str) -> float:
    """Relative luminance as WCAG 2.2 defines it."""
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels(color)]
    return sum(weight * c for weight, c in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(one: str, other: str) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_contrast_formula_gives_the_published_grays() -> None:
    """WCAG 2.x, technique G18 as commonly quoted: #767676 on white passes 4.5:1, #777777 fails."""
    assert round(contrast("#767676", "#ffffff"), 2) == 4.54
    assert round(contrast("#777777", "#ffffff"), 2) == 4.48


@pytest.mark.parametrize("theme", ["light", "dark", "booth"])
def test_text_stands_out_from_its_ground_in_every_theme(theme: str) -> None:
    palette = colors(theme)
    pairs = [*product(TEXTS, ["ground", "surface"]), ("accent-text", "accent")]
    too_faint = [pair for pair in pairs if contrast(*(palette[name] for name in pair)) < 4.5]
    assert too_faint == []


@pytest.mark.parametrize("theme", ["light", "dark", "booth"])
def test_the_edge_of_a_control_and_the_focus_can_be_seen(theme: str) -> None:
    palette = colors(theme)
    edges = product(["control-line", "focus"], ["ground", "surface"])
    assert [edge for edge in edges if contrast(*(palette[name] for name in edge)) < 3] == []


def test_the_booth_has_nothing_bright_in_the_large_and_no_red() -> None:
    palette = colors("booth")
    assert all(luminance(palette[name]) < 0.02 for name in ("ground", "surface", "accent"))
    hues = {name: colorsys.rgb_to_hsv(*channels(palette[name]))[0] * 360 for name in [*TEXTS, "accent-text"]}
    assert [name for name, hue in hues.items() if hue < 25 or hue > 335] == []


@pytest.mark.parametrize("theme", Theme.values)
def test_a_chosen_theme_is_in_the_first_bytes_of_every_page_after(client: Client, theme: str) -> None:
    response = client.post("/theme/", {"theme": theme, "next": "/sign-in/"})
    assert (response.status_code, response["Location"]) == (302, "/sign-in/")
    first_line = client.get("/sign-in/").content.decode().split("<head>")[0]
    assert f'data-theme="{theme}"' in first_line


def test_the_choice_is_kept_for_a_year_out_of_reach_for_scripts(client: Client) -> None:
    client.post("/theme/", {"theme": "booth"})
    cookie = client.cookies["theme"]
    assert (cookie["max-age"], cookie["httponly"], cookie["samesite"]) == (365 * 24 * 60 * 60, True, "Lax")


@pytest.mark.parametrize("kept", ["", "pink", "<script>"])
def test_without_a_known_choice_the_device_decides(client: Client, kept: str) -> None:
    client.cookies["theme"] = kept
    text = client.get("/sign-in/").content.decode()
    assert 'data-theme="auto"' in text
    assert "(prefers-color-scheme: dark)" in text


def test_an_unknown_theme_is_refused_and_nothing_kept(client: Client) -> None:
    response = client.post("/theme/", {"theme": "pink"})
    assert response.status_code == 400
    assert "There is no such theme." in response.content.decode()
    assert "theme" not in response.cookies


@pytest.mark.parametrize("page", ["https://elsewhere.example/", "//elsewhere.example/", "javascript:go()", ""])
def test_choosing_a_theme_leads_to_no_other_site(client: Client, page: str) -> None:
    response = client.post("/theme/", {"theme": "dark", "next": page})
    assert response["Location"] == "/"


def test_in_production_the_cookie_travels_by_https_only(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(settings, "SESSION_COOKIE_SECURE", True)
    client.post("/theme/", {"theme": "dark"})
    assert client.cookies["theme"]["secure"]
