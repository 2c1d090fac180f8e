"""What rows have in common: references, versions, ends, derived keys, relations that hold."""

from typing import Any

import pytest
from django.apps import apps
from django.db import models
from django.db.models import ProtectedError

from tests.factories import ACTOR, NOON, make_a_house, make_place, make_position, make_unit
from venue.actions import add_position, add_setup, change, end_place, end_position, place_unit, set_zone
from venue.errors import AlreadyEnded, AlreadyExists, DomainError, InUse, Invalid, StaleVersion, WrongHouse
from venue.models import House, Place, Position, Versioned
from venue.storing import store

OURS = [model for app in ("venue", "shows", "crew") for model in apps.get_app_config(app).get_models()]
NOT_EDITED = {
    "User": "the framework stores sign-ins into it",
    "Event": "never changed at all",
    "Link": "its end and use are set by conditional updates",
    "PrintedCode": "never changed",
    "IssuedSheet": "never changed at all",
    "Reading": "struck out and entered anew",
    "HoursAdded": "struck out and entered anew",
    "LightReading": "struck out and entered anew",
    "Attachment": "kept as it came",
    "LampDecision": "never changed at all",
    "CheckMark": "never changed at all",
    "CheckSignature": "never changed at all",
    "LineConfirmation": "never changed at all",
    "PassedOver": "never changed at all",
    "UnitTally": "derived",
    "LampTally": "derived",
    "EngagementPosition": "made once with its position",
    "EngagementPlace": "made once with its place",
}


@pytest.mark.parametrize("model", OURS, ids=lambda model: model.__name__)
def test_nothing_that_is_relied_on_can_be_deleted(model: type[models.Model]) -> None:
    relations = [field for field in model._meta.fields if isinstance(field, models.ForeignKey)]
    assert [field.name for field in relations if field.remote_field.on_delete is not models.PROTECT] == []


@pytest.mark.parametrize("model", OURS, ids=lambda model: model.__name__)
def test_every_row_that_people_edit_has_a_version(model: type[models.Model]) -> None:
    assert issubclass(model, Versioned) != (model.__name__ in NOT_EDITED)


@pytest.mark.parametrize("model", OURS, ids=lambda model: model.__name__)
def test_every_rule_of_a_table_has_words(model: type[models.Model]) -> None:
    generic = models.CheckConstraint.default_violation_error_message
    wordless = [rule.name for rule in model._meta.constraints if rule.violation_error_message == generic]
    assert wordless == []


@pytest.mark.django_db
def test_a_house_with_positions_is_not_deleted() -> None:
    position = make_position()
    with pytest.raises(ProtectedError):
        position.house.delete()


@pytest.mark.django_db
def test_every_change_raises_the_version() -> None:
    house = make_a_house()
    house.name = "Renamed"
    house.save()
    house.save(update_fields=["name"])
    assert (house.version, House.objects.get(pk=house.pk).version) == (3, 3)


@pytest.mark.django_db
def test_a_stale_change_is_refused_and_shows_both() -> None:
    house = make_a_house(name="Before")
    mine, theirs = House.objects.get(pk=house.pk), House.objects.get(pk=house.pk)
    change(actor=ACTOR, row=theirs, house=house, seen=1, values={"name": "Theirs"})
    with pytest.raises(StaleVersion) as refused:
        change(actor=ACTOR, row=mine, house=house, seen=1, values={"name": "Mine"})
    assert refused.value.stored.name == "Theirs"  # type: ignore[attr-defined]
    assert refused.value.submitted == {"name": "Mine"}
    assert House.objects.get(pk=house.pk).name == "Theirs"


@pytest.mark.django_db
def test_a_form_that_shows_an_old_version_is_refused_even_if_the_row_was_read_just_now() -> None:
    house = make_a_house(name="Before")
    change(actor=ACTOR, row=house, house=house, seen=1, values={"name": "Theirs"})
    now = House.objects.get(pk=house.pk)
    with pytest.raises(StaleVersion):
        change(actor=ACTOR, row=now, house=house, seen=1, values={"name": "Mine"})


@pytest.mark.django_db
def test_a_form_that_changes_nothing_stores_nothing() -> None:
    house = make_a_house(name="Same")
    lines = house.history.count()
    change(actor=ACTOR, row=house, house=house, seen=1, values={"name": "Same"})
    assert (House.objects.get(pk=house.pk).version, house.history.count()) == (1, lines)


@pytest.mark.django_db
def test_the_history_keeps_the_old_and_the_new() -> None:
    place = make_place(x_m=1.0, y_m=2.0, z_m=3.0)
    house = place.position.house
    change(actor=ACTOR, row=place, house=house, seen=1, values={"x_m": 4.5, "y_m": 2.0})
    assert house.history.last().data["changed"] == {"x_m": [1.0, 4.5]}  # type: ignore[union-attr]


@pytest.mark.django_db
def test_changing_a_label_changes_its_keys() -> None:
    place = make_place(label="2")
    change(actor=ACTOR, row=place, house=None, seen=1, values={"label": "Spot 10"})
    stored = Place.objects.get(pk=place.pk)
    assert (stored.label_key, stored.sort_key) == ("10", "0000210")


@pytest.mark.django_db
def test_rows_stored_in_bulk_have_their_keys() -> None:
    position = make_position()
    Place.objects.bulk_create([Place(position=position, label=label) for label in ("#01", "t 2")])
    assert list(position.places.values_list("label_key", flat=True)) == ["1", "T2"]


@pytest.mark.django_db
def test_a_label_is_unique_among_places_that_have_not_ended() -> None:
    place = make_place(label="1")
    with pytest.raises(AlreadyExists, match="a place of this label already"):
        make_place(place.position, label="No. 01")
    end_place(actor=ACTOR, place=place, at=NOON, reason="rail taken out")
    assert make_place(place.position, label="1").pk != place.pk


@pytest.mark.django_db
def test_a_position_name_is_unique_in_its_house_whatever_its_case() -> None:
    position = make_position(name="Rear booth")
    with pytest.raises(AlreadyExists):
        make_position(position.house, name="REAR  Booth")
    assert make_position(name="Rear booth").name == "Rear booth"


@pytest.mark.django_db
def test_a_unit_tag_is_unique_in_its_house_even_after_the_unit_ended() -> None:
    unit = make_unit(tag="FS-1")
    with pytest.raises(AlreadyExists):
        make_unit(unit.house, tag="fs-1")
    assert make_unit(unit.house, tag="FS-11").tag == "FS-11"


@pytest.mark.django_db
def test_what_has_ended_has_its_date_and_reason_and_ends_once() -> None:
    place = make_place()
    end_place(actor=ACTOR, place=place, at=NOON, reason="rail taken out")
    stored = Place.objects.get(pk=place.pk)
    assert (stored.ended_at, stored.ended_reason, stored.version) == (NOON, "rail taken out", 2)
    with pytest.raises(AlreadyEnded):
        end_place(actor=ACTOR, place=stored, at=NOON, reason="again")


@pytest.mark.django_db
@pytest.mark.parametrize("reason", ["", "   ", "x" * 201])
def test_an_end_needs_a_reason_that_fits(reason: str) -> None:
    place = make_place()
    with pytest.raises(Invalid) as refused:
        end_place(actor=ACTOR, place=place, at=NOON, reason=reason)
    assert list(refused.value.problems) == ["ended_reason"]
    assert Place.objects.get(pk=place.pk).ended_at is None


@pytest.mark.django_db
def test_a_position_ends_with_its_places() -> None:
    place = make_place()
    end_position(actor=ACTOR, position=place.position, at=NOON, reason="wall moved")
    assert not Place.objects.standing().filter(position=place.position).exists()
    with pytest.raises(AlreadyEnded):
        make_place(place.position, label="2")


@pytest.mark.django_db
def test_a_place_where_a_unit_stands_does_not_end() -> None:
    place = make_place()
    place_unit(actor=ACTOR, unit=make_unit(place.position.house), place=place, starts_at=NOON)
    with pytest.raises(InUse):
        end_position(actor=ACTOR, position=place.position, at=NOON, reason="wall moved")


@pytest.mark.django_db
def test_positions_come_in_the_order_of_the_house() -> None:
    house = make_a_house()
    names = ["Zenith booth", "Aisle rail", "Middle cove"]
    for name in names:
        make_position(house, name=name)
    assert [position.name for position in house.positions.all()] == names


BAD_VALUES: list[tuple[str, dict[str, Any], str]] = [
    ("coordinates in part", {"x_m": 1.0}, "__all__"),
    ("too far", {"x_m": 2000.0, "y_m": 0.0, "z_m": 0.0}, "x_m"),
    ("not a number", {"x_m": float("nan"), "y_m": 0.0, "z_m": 0.0}, "x_m"),
    ("bearing beyond the circle", {"bearing_deg": 361.0}, "bearing_deg"),
    ("no letter or digit", {"label": "- . -"}, "__all__"),
    ("too long", {"label": "x" * 41}, "label"),
    ("NUL", {"label": "1\0"}, "label"),
    ("half a character", {"label": "1\ud800"}, "label"),
    ("an order too large for any database", {"row_order": 2**40}, "row_order"),
]


@pytest.mark.django_db
@pytest.mark.parametrize(("facts", "field"), [bad[1:] for bad in BAD_VALUES], ids=[bad[0] for bad in BAD_VALUES])
def test_a_bad_value_is_named_and_nothing_is_stored(facts: dict[str, Any], field: str) -> None:
    position = make_position()
    with pytest.raises(Invalid) as refused:
        make_place(position, **{"label": "1", **facts})
    assert field in refused.value.problems
    assert str(refused.value)
    assert not position.places.exists()


@pytest.mark.django_db
def test_a_place_may_be_run_from_another_but_not_from_itself() -> None:
    desk = make_place(label="desk")
    remote = make_place(desk.position, label="R1", operated_from=desk)
    remote.operated_from = remote
    with pytest.raises(Invalid, match="needs no other place"):
        change(actor=ACTOR, row=remote, house=None, seen=1, values={"operated_from": remote})


@pytest.mark.django_db
def test_a_refusal_leaves_the_surrounding_work_in_place() -> None:
    position = make_position()
    with pytest.raises(DomainError):
        add_position(actor=ACTOR, house=position.house, name=position.name)
    assert Position.objects.filter(house=position.house).count() == 1


@pytest.mark.django_db
def test_a_place_is_run_from_a_place_of_the_same_house() -> None:
    with pytest.raises(Invalid, match="a place of this house"):
        make_place(operated_from=make_place())


@pytest.mark.django_db
def test_a_set_up_changes_the_zone_of_positions_of_its_house_only() -> None:
    position = make_position(zone="front")
    setup = add_setup(actor=ACTOR, house=position.house, name="In the round", layout="round")
    for zone in ("side", "bowl"):
        set_zone(actor=ACTOR, setup=setup, position=position, zone=zone)
    assert [row.zone for row in setup.zones.all()] == ["bowl"]
    with pytest.raises(WrongHouse):
        set_zone(actor=ACTOR, setup=setup, position=make_position(), zone="bowl")
    with pytest.raises(Invalid):
        set_zone(actor=ACTOR, setup=setup, position=position, zone="attic")


@pytest.mark.django_db
def test_a_house_has_one_usual_set_up() -> None:
    house = make_a_house()
    with pytest.raises(AlreadyExists, match="a usual set-up already"):
        add_setup(actor=ACTOR, house=house, name="Other", is_default=True)


@pytest.mark.django_db
@pytest.mark.parametrize("zone", ["Atlantis/Capital", "", "../etc/passwd"])
def test_a_time_zone_is_one_of_the_known_ones(zone: str) -> None:
    with pytest.raises(Invalid, match="time_zone"):
        make_a_house(time_zone=zone)


@pytest.mark.django_db
def test_a_new_row_never_overwrites_a_stored_one() -> None:
    house = make_a_house(name="Stored")
    with pytest.raises(AlreadyExists):
        store(House(pk=house.pk, name="Copy", slug="copy"))
    assert House.objects.get(pk=house.pk).name == "Stored"
