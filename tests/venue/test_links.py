"""Links hand out a secret once and keep its hash; looking changes nothing; codes can be read back."""

from random import Random
from uuid import uuid4

import pytest
from django.http import Http404
from django.utils import timezone

from tests.factories import ACTOR, NOON, hours, make_a_house, make_place
from venue.access import link_for, printed_code
from venue.actions import MadeLink, change, make_code, make_link, revoke_link, use_link
from venue.core.codes import ALPHABET, RANDOM_BITS, new_code, typed_code
from venue.errors import AlreadyEnded, Invalid, LinkRefused
from venue.models import Event, Link

LATER = NOON + hours(1)


def a_link() -> MadeLink:
    house = make_a_house()
    times = {"made_at": NOON, "expires_at": NOON + hours(2)}
    return make_link(actor=ACTOR, purpose="arrival check", subject=house, house=house, **times)


@pytest.mark.django_db
def test_a_secret_opens_its_link_and_only_its_hash_is_kept() -> None:
    made = a_link()
    assert link_for(made.link.ref, made.secret, purpose="arrival check", now=LATER) == made.link
    stored = Link.objects.filter(pk=made.link.pk).values_list().get()
    assert made.secret not in map(str, stored)
    assert not Event.objects.filter(data__icontains=made.secret).exists()


@pytest.mark.django_db
def test_looking_at_a_link_changes_nothing() -> None:
    made = a_link()
    before, lines = Link.objects.filter(pk=made.link.pk).values().get(), Event.objects.count()
    link_for(made.link.ref, made.secret, purpose="arrival check", now=LATER)
    assert Link.objects.filter(pk=made.link.pk).values().get() == before
    assert Event.objects.count() == lines


@pytest.mark.django_db
@pytest.mark.parametrize("wrong", ["secret", "ref", "purpose", "empty", "over", "revoked"])
def test_every_wrong_link_is_refused_alike(wrong: str) -> None:
    made = a_link()
    ref = uuid4() if wrong == "ref" else made.link.ref
    secret = {"secret": "guess", "empty": ""}.get(wrong, made.secret)
    purpose = "call" if wrong == "purpose" else "arrival check"
    if wrong == "revoked":
        revoke_link(actor=ACTOR, link=made.link, now=NOON)
    with pytest.raises(LinkRefused, match="does not work any more"):
        link_for(ref, secret, purpose=purpose, now=NOON + hours(2) if wrong == "over" else LATER)


@pytest.mark.django_db
def test_an_unknown_link_is_not_opened_by_an_empty_secret() -> None:
    with pytest.raises(LinkRefused):
        link_for(uuid4(), "", purpose="arrival check", now=NOON)


@pytest.mark.django_db
def test_using_a_link_is_noted_until_it_ends() -> None:
    made = a_link()
    use_link(actor=ACTOR, link=made.link, now=LATER)
    assert Link.objects.get(pk=made.link.pk).last_used_at == LATER
    revoke_link(actor=ACTOR, link=made.link, now=LATER)
    with pytest.raises(LinkRefused):
        use_link(actor=ACTOR, link=made.link, now=LATER)
    with pytest.raises(AlreadyEnded):
        revoke_link(actor=ACTOR, link=made.link, now=LATER)


@pytest.mark.django_db
def test_a_link_that_is_over_before_it_begins_is_refused() -> None:
    house = make_a_house()
    with pytest.raises(Invalid, match="ends after it was made"):
        make_link(actor=ACTOR, purpose="call", subject=house, house=house, made_at=NOON, expires_at=NOON)


@pytest.mark.django_db
def test_a_printed_code_is_found_however_it_is_typed_and_survives_a_renaming() -> None:
    place = make_place(label="1")
    code = make_code(actor=ACTOR, purpose="place", subject=place, house=place.position.house)
    change(actor=ACTOR, row=place, house=None, seen=1, values={"label": "9"})
    typed = f" {code.code[:4].lower()}-{code.code[4:8]} {code.code[8:]} "
    assert printed_code(typed) == code
    assert (code.subject_kind, code.subject_ref) == ("place", place.ref)
    assert code.made_at <= timezone.now()
    with pytest.raises(Http404):
        printed_code("22222222222")


def test_codes_are_long_enough_and_hold_nothing_that_is_taken_for_something_else() -> None:
    code = new_code(Random(7).randrange)
    assert RANDOM_BITS >= 50
    assert set(code) <= set(ALPHABET)
    assert not set(ALPHABET) & set("01BILOSZ")
    assert len(set(ALPHABET)) == len(ALPHABET)
    assert typed_code(code) == code


def test_a_code_uses_every_symbol_at_every_place() -> None:
    random = Random(7)
    codes = [new_code(random.randrange) for _ in range(2000)]
    assert all({code[index] for code in codes} == set(ALPHABET) for index in range(len(codes[0])))
