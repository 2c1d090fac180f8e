"""What readers are offered on the house's pages, and rows of other houses; the access table has the statuses."""

from uuid import uuid4

import pytest

from tests.factories import make_a_house, make_place, the_cast
from tests.venue.pages import addresses, as_user, furnished

pytestmark = pytest.mark.django_db

SEEN = {"house_detail", "position_detail", "unit_list", "walk"}


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
