"""Every address is behind the sign-in, or on the short list of public ones with its reason."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any
from uuid import UUID

import pytest
from django.contrib.auth.decorators import login_not_required
from django.http import HttpRequest, HttpResponse
from django.test import Client
from django.urls import URLPattern, URLResolver, get_resolver, include, path, reverse
from django.utils.decorators import method_decorator
from django.views import View

PUBLIC = {
    "venue:sign_in": "a stranger has to sign in somewhere",
    "venue:choose_theme": "the sign-in page has to be readable in a dark booth too; nothing is stored here",
    "crew:code": "who holds a printed sheet has no account; told is only whether it is current, and no name",
    "crew:tech_public": "a touring electrician has no account; the house gave the address out, with its secret in it",
    "crew:tech_public_pdf": "the same sheet on paper, behind the same secret",
    "crew:mine": "an operator has no account; every message to that person carries the address, with its secret in it",
    "crew:mine_read": "what was taken away is marked as seen, behind the same secret",
    "crew:mine_answer": "a question answered with yes or no, behind the same secret",
    "crew:mine_seen": "a revision of the sheet marked as seen, behind the same secret",
    "crew:mine_calendar": "an own call as a file for a calendar, behind the same secret",
    "crew:feed": "a calendar program can't sign in; dispatch or the house head gave the address out, its secret in it",
    "shows:arrive": "a touring crew has no account; house or show gave the address out, with its secret in it",
    "shows:arrive_place": "one place of the same check, behind the same secret",
    "shows:arrive_sign": "the signature under the same check, behind the same secret",
    "shows:arrive_numbers": "a number put elsewhere during the same check, behind the same secret",
    "shows:arrive_blockage_end": "what is in the way taken back, behind the same secret",
    "shows:advance_read": "a tour's head has no account; house or show gave the address out, with its secret in it",
    "shows:advance_tell": "one point that the house asks the tour about, behind the same secret",
}
SAMPLES = {"int": 1, "slug": "somewhere", "str": "something", "uuid": UUID(int=7), "path": "some/thing"}


@dataclass(frozen=True)
class Address:
    """A view as the URLconf has it: its name with namespaces, or its route where it has no name."""

    name: str
    view: Callable[..., HttpResponse]
    converters: dict[str, Any] = field(default_factory=dict)

    @property
    def is_protected(self) -> bool:
        return bool(getattr(self.view, "login_required", True))

    def sample(self) -> str:
        """The address with made-up values."""
        values = {name: SAMPLES[kind(converter)] for name, converter in self.converters.items()}
        return reverse(self.name, kwargs=values)


def kind(converter: Any) -> str:
    return type(converter).__name__.removesuffix("Converter").replace("String", "str").lower()


def walk(
    patterns: Sequence[URLPattern | URLResolver], names: tuple[str, ...] = (), route: str = "", **outer: Any
) -> Iterator[Address]:
    """Every view below the patterns, nested ones too."""
    for pattern in patterns:
        converters = {**outer, **pattern.pattern.converters}
        whole = route + str(pattern.pattern)
        if isinstance(pattern, URLResolver):
            deeper = (*names, pattern.namespace) if pattern.namespace else names
            yield from walk(pattern.url_patterns, deeper, whole, **converters)
        else:
            yield Address(":".join((*names, pattern.name)) if pattern.name else whole, pattern.callback, converters)


def unprotected(patterns: Sequence[URLPattern | URLResolver]) -> set[str]:
    return {address.name for address in walk(patterns) if not address.is_protected}


def all_addresses() -> list[Address]:
    return list(walk(get_resolver().url_patterns))


def test_every_view_is_protected_or_listed_as_public() -> None:
    assert unprotected(get_resolver().url_patterns) == set(PUBLIC)


@pytest.mark.django_db
@pytest.mark.parametrize("address", [a for a in all_addresses() if a.is_protected], ids=lambda a: a.name)
def test_a_stranger_is_sent_to_the_sign_in(client: Client, address: Address) -> None:
    response = client.get(address.sample())
    assert response.status_code == 302
    assert response["Location"].startswith(reverse("venue:sign_in") + "?next=")


def page(request: HttpRequest, **_values: Any) -> HttpResponse:
    return HttpResponse()


@login_not_required
def open_page(request: HttpRequest, **_values: Any) -> HttpResponse:
    return HttpResponse()


@method_decorator(login_not_required, name="dispatch")
class OpenView(View):
    pass


MADE_UP = [
    path("", page, name="start"),
    path("open/", open_page, name="open"),
    path(
        "houses/<slug:house>/",
        include(([path("units/<uuid:ref>/", open_page, name="unit"), path("", page)], "inner")),
    ),
    path("unnamed/", open_page),
    path("class/", OpenView.as_view(), name="class"),
]


def test_the_walk_finds_every_unprotected_view_however_deep_or_nameless() -> None:
    assert unprotected(MADE_UP) == {"open", "inner:unit", "unnamed/", "class"}


def test_the_walk_keeps_the_values_that_outer_and_inner_routes_take() -> None:
    unit = next(address for address in walk(MADE_UP) if address.name == "inner:unit")
    assert {name: kind(converter) for name, converter in unit.converters.items()} == {
        "house": "slug",
        "ref": "uuid",
    }
