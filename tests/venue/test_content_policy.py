"""A page loads nothing from elsewhere and holds no script or style of its own."""

import re
from pathlib import Path

import pytest
from django.test import Client
from django.urls import reverse

ROOT = Path(__file__).resolve().parents[2]
TEMPLATES = sorted((ROOT / "templates").rglob("*.html"))

INLINE = {
    "a style element": r"<style\b",
    "a style attribute": r"<[^>]*\sstyle\s*=",
    "a script without src": r"<script\b(?![^>]*\bsrc=)",
    "an event attribute": r"<[^>]*\son[a-z]+\s*=",
    "a script address": r"""=\s*["']?\s*javascript:""",
    "an address of another host": r"""\b(?:src|srcset|action|formaction)\s*=\s*["']?\s*(?:https?:)?//""",
}


def inline_parts(markup: str) -> list[str]:
    """The kinds of inline script and style in the markup, template tags left out."""
    plain = re.sub(r"{[%{#].*?[%}#]}", "", markup, flags=re.DOTALL)
    return [kind for kind, pattern in INLINE.items() if re.search(pattern, plain, re.IGNORECASE)]


@pytest.mark.parametrize("template", TEMPLATES, ids=lambda path: str(path.relative_to(ROOT / "templates")))
def test_a_template_holds_no_inline_script_or_style(template: Path) -> None:
    assert inline_parts(template.read_text()) == []


@pytest.mark.parametrize(
    ("markup", "kind"),
    [
        ("<style>p { color: red }</style>", "a style element"),
        ('<p class="a"\n style="color: red">', "a style attribute"),
        ('<p {% if a > b %}class="x"{% endif %} style="color: red">', "a style attribute"),
        ("<script>alert(1)</script>", "a script without src"),
        ('<script type="module">alert(1)</script>', "a script without src"),
        ('<button type="button" onClick="go()">', "an event attribute"),
        ('<a href="javascript:go()">', "a script address"),
        ('<img src="//elsewhere.example/a.png">', "an address of another host"),
    ],
)
def test_inline_parts_are_found(markup: str, kind: str) -> None:
    assert inline_parts(markup) == [kind]


@pytest.mark.parametrize(
    "markup",
    [
        "<script src=\"{% static 'js/a.js' %}\" defer></script>",
        '<p data-on="x">on = style = one</p>',
        '<a href="https://a.example">',
    ],
)
def test_what_is_allowed_is_not_found(markup: str) -> None:
    assert inline_parts(markup) == []


@pytest.mark.django_db
@pytest.mark.parametrize("address", ["/sign-in/", "/no/such/page/", "/"])
def test_every_answer_carries_the_policy(client: Client, address: str) -> None:
    headers = client.get(address).headers
    policy = dict(part.split(" ", 1) for part in headers["Content-Security-Policy"].split("; "))
    assert policy["default-src"] == "'none'"
    assert policy["script-src"] == policy["style-src"] == policy["form-action"] == "'self'"
    assert policy["frame-ancestors"] == policy["base-uri"] == "'none'"
    assert "unsafe" not in headers["Content-Security-Policy"]
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Referrer-Policy"] == "same-origin"
    assert "camera=()" in headers["Permissions-Policy"]


@pytest.mark.django_db
def test_a_signed_in_page_is_not_kept_by_shared_caches(client: Client) -> None:
    assert "private" in client.get(reverse("venue:sign_in"))["Cache-Control"]
