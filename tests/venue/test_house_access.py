"""Each address of the house's pages, by each of the cast: who sees, who writes, who meets nothing."""

from uuid import uuid4

import pytest

from tests.factories import make_a_house, make_place, the_cast
from tests.venue.pages import addresses, as_user, furnished
from venue.urls import urlpatterns

pytestmark = pytest.mark.django_db

SEEN = {"house_detail", "position_detail", "unit_list", "walk"}
SENT_ONLY = {"row_turn"}
PAGES = sorted(pattern.name or "" for pattern in urlpatterns if str(pattern.pattern).startswith("houses/"))
STRANGERS = ["road", "dispatch", "stranger"]


def statuses(name: str, who: str) -> tuple[int, int]:
    """The status of opening the page and of sending it an empty form."""
    cast = the_cast()
    address, client = addresses(furnished(cast))[name], as_user(getattr(cast, who))
    return client.get(address).status_code, client.post(address, {}).status_code


def test_the_table_names_every_page() -> None:
    assert set(addresses(furnished(the_cast()))) == set(PAGES)


@pytest.mark.parametrize("who", STRANGERS)
@pytest.mark.parametrize("name", PAGES)
def test_strangers_do_not_learn_that_the_page_exists(name: str, who: str) -> None:
    seen, sent = statuses(name, who)
    methods = (404, 404) if name not in SENT_ONLY else (405, 404)
    expected = (404, 405) if name in SEEN - {"walk"} else methods
    assert (seen, sent) == expected


@pytest.mark.parametrize("name", PAGES)
def test_readers_see_pages_and_are_refused_every_change(name: str) -> None:
    sent = 405 if name in SEEN - {"walk"} else 403
    assert statuses(name, "reader") == (200 if name in SEEN else 405 if name in SENT_ONLY else 403, sent)


@pytest.mark.parametrize("name", PAGES)
def test_the_head_sees_all_and_an_empty_form_is_answered_with_words(name: str) -> None:
    seen, sent = statuses(name, "head")
    assert seen == (405 if name in SENT_ONLY else 200)
    assert sent == (405 if name in SEEN - {"walk"} else 302 if name in SENT_ONLY else 200)


@pytest.mark.parametrize("name", sorted(SEEN))
def test_readers_are_offered_nothing_to_change(name: str) -> None:
    cast = the_cast()
    body = as_user(cast.reader).get(addresses(furnished(cast))[name]).content.decode()
    for word in ("/edit/", "/new/", "/end/", "/move/", "/stand/", 'name="label"'):
        assert word not in body


def test_rows_of_another_house_are_not_found() -> None:
    cast = the_cast()
    foreign = make_place(label="1")
    client = as_user(cast.head)
    for address in (f"places/{foreign.ref}/edit/", f"positions/{foreign.position.ref}/", f"units/{uuid4()}/edit/"):
        assert client.get(f"/houses/{cast.house.slug}/{address}").status_code == 404
    assert client.get(f"/houses/{make_a_house().slug}/").status_code == 404
    for setup in ("nonsense", str(uuid4())):
        assert client.get(f"/houses/{cast.house.slug}/?setup={setup}").status_code == 404
