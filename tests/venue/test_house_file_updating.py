"""Loading a file onto the house that is there: things are added and changed, none ends, identities stay."""

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.factories import ACTOR, NOON, make_place, make_position
from tests.venue.house_documents import a_house, booth, ordered, read, sample, slot, stay
from tests.venue.test_house_file_storing import dumped, rows, stored
from venue import actions
from venue.house_file.order import merged_order
from venue.house_file.problems import HouseFileRefused
from venue.house_file.storing import store_house
from venue.models import Event, House, Place, Placement, Position, Setup, Unit

pytestmark = pytest.mark.django_db

SINCE = [stay("FS-01", "1", "2025-09-01")]


def updated(document):
    return stored(document, update=True)


def refused(document):
    """The problems by path; nothing may have been stored."""
    before = rows()
    with pytest.raises(HouseFileRefused) as refusal:
        updated(document)
    assert rows() == before
    return {problem.where: problem.sentence for problem in refusal.value.problems}


def identities():
    """Which row is which, whatever it is called now."""
    return {
        model.__name__: set(model.objects.values_list("pk", "ref"))
        for model in (House, Setup, Position, Place, Unit, Placement)
    }


def test_an_update_without_a_house_on_file_stores_it():
    assert updated(a_house()).slug == "vellory"


def test_an_update_that_says_the_same_changes_nothing_and_adds_no_history():
    house = stored(sample("vellory.json"))
    before, versions, lines = rows(), list(Place.objects.values_list("pk", "version")), dumped(house)
    updated(sample("vellory.json"))
    assert rows() == before
    assert list(Place.objects.values_list("pk", "version")) == versions
    assert dumped(house) == lines


def test_an_update_keeps_every_identity():
    stored(a_house(placements=SINCE))
    before = identities()
    updated(
        a_house(
            booth(slot("01", -2.5), slot("2", 2.5, bearing_deg=170), name="REAR booth", level=4),
            house={"name": "Vellory", "layout": "thrust", "setup_name": "Thrust"},
            units=[{"tag": "fs-01", "watts": 2000}, {"tag": "FS-02"}],
            placements=SINCE,
        )
    )
    assert identities() == before
    place = Place.objects.get(label="01")
    assert (place.x_m, place.position.name, place.position.level) == (-2.5, "REAR booth", 4.0)
    assert (Unit.objects.get(tag="fs-01").watts, House.objects.get().name) == (2000.0, "Vellory")
    assert (Setup.objects.get().name, Setup.objects.get().layout) == ("Thrust", "thrust")


def test_the_history_keeps_the_old_value_and_the_new():
    house = stored(a_house())
    updated(a_house(booth(slot("1", -2.5), slot("2", 2.0))))
    line = Event.objects.filter(house=house).last()
    assert (line.verb, line.data["changed"]) == ("place.changed", {"x_m": [-2.0, -2.5]})


def test_what_the_file_leaves_out_stays_as_it_is_stored():
    house = stored(sample("vellory.json"))
    before = dumped(house)
    updated(
        {
            "format": "throwbook-house",
            "version": 1,
            "house": {"name": "Vellory Opera “Süd”", "slug": "vellory"},
            "positions": [{"name": "Cove", "slots": [{"label": "L", "order": 1}]}],
            "units": [{"tag": "FS-01"}],
            "setups": [{"name": "Thrust"}],
        }
    )
    assert dumped(house) == before


def test_new_things_are_added_beside_the_old_ones():
    house = stored(a_house())
    updated(
        a_house(
            booth(slot("3", 6.0)),
            {"name": "Rail", "slots": [ordered("1", 1)]},
            units=[{"tag": "FS-03"}],
            setups=[{"name": "Thrust", "zones": {"Rail": "side"}}],
            placements=[stay("FS-03", "3", "2026-01-01")],
        )
    )
    labels = Place.objects.filter(position__name="Rear booth").values_list("label", flat=True)
    assert sorted(labels) == ["1", "2", "3"]
    assert sorted(house.units.values_list("tag", flat=True)) == ["FS-01", "FS-02", "FS-03"]
    assert house.setups.get(name="Thrust").zones.get().zone == "side"
    assert Placement.objects.get().place.label == "3"


def test_a_zone_of_a_setup_is_changed_and_the_others_stay():
    zones = {"Rear booth": "rear", "Rail": "side"}
    positions = (booth(slot("1")), {"name": "Rail"})
    house = stored(a_house(*positions, setups=[{"name": "Thrust", "zones": zones}]))
    updated(a_house(*positions, setups=[{"name": "Thrust", "zones": {"rail": "rear"}}]))
    found = house.setups.get(name="Thrust").zones.values_list("position__name", "zone")
    assert dict(found) == {"Rear booth": "rear", "Rail": "rear"}


def test_a_new_coordinate_takes_the_old_text_as_typed_with_it():
    stored(a_house(booth(slot("1", 4.5, x_text="14' 9\"", z_text="45' 11\""))))
    updated(a_house(booth(slot("1", 4.25))))
    place = Place.objects.get()
    assert (place.x_m, place.x_text, place.z_text) == (4.25, "", "45' 11\"")


def test_where_a_place_is_operated_from_can_be_added_later():
    stored(a_house(booth(slot("1", -2.0), slot("2", 2.0))))
    elsewhere = {"position": "rear booth", "label": "02"}
    updated(a_house(booth(slot("1", -2.0, operated_from=elsewhere), slot("2", 2.0))))
    assert str(Place.objects.get(label="1").operated_from) == "Rear booth, place 2"


def test_rows_of_an_engagement_are_left_alone():
    house = stored(a_house())
    truss = make_position(house, "Rear booth", only_for="0b1f0f6e-8a57-4a2b-9d6c-5d2f6f6f9b01")
    theirs = make_place(truss, "1", row_order=7)
    updated(a_house(booth(slot("1", -9.0), slot("2", 2.0))))
    theirs.refresh_from_db()
    assert (theirs.x_m, theirs.row_order) == (None, 7)


# -- the order of positions ----------------------------------------------------------------------------


def order_of(house):
    return list(house.positions.order_by("row_order", "pk").values_list("name", flat=True))


def named(*names):
    return a_house(*({"name": name} for name in names))


def test_the_order_of_the_file_becomes_the_houses_order():
    house = stored(named("Booth", "Rail", "Cove"))
    updated(named("Cove", "Booth", "Rail"))
    assert order_of(house) == ["Cove", "Booth", "Rail"]


def test_a_position_that_is_not_named_keeps_its_place_in_the_order():
    house = stored(named("Booth", "Rail", "Cove"))
    updated(named("Cove", "Attic", "Booth"))
    assert order_of(house) == ["Cove", "Attic", "Rail", "Booth"]


@pytest.mark.parametrize(
    ("before", "names", "after"),
    [
        ("", "", ""),
        ("abc", "", "abc"),
        ("", "ba", "ba"),
        ("abc", "abc", "abc"),
        ("abc", "b", "abc"),
        ("abc", "ca", "cba"),
        ("abc", "xb", "xabc"),
        ("abc", "bx", "abxc"),
        ("abc", "xyz", "xyzabc"),
        ("abcd", "dxa", "dxbca"),
    ],
)
def test_an_order_is_changed_as_little_as_possible(before, names, after):
    assert merged_order(before, names) == list(after)


LETTERS = st.lists(st.sampled_from("abcdefgh"), unique=True)


@given(LETTERS, LETTERS)
def test_a_merged_order_holds_everything_once_and_the_named_ones_in_their_order(before, names):
    merged = merged_order(before, names)
    assert sorted(merged) == sorted({*before, *names})
    assert [each for each in merged if each in names] == names
    assert [each for each in merged if each not in names] == [each for each in before if each not in names]


# -- who stands where ----------------------------------------------------------------------------------


def test_a_unit_that_stands_at_its_slot_already_goes_on_standing_there():
    document = a_house(booth(slot("1", unit="FS-01")))
    stored(document)
    before = Placement.objects.get()
    stored(document, update=True)
    assert (Placement.objects.get().pk, Placement.objects.get().starts_at) == (before.pk, NOON)


def test_an_end_that_the_file_gives_ends_the_placement_then():
    stored(a_house(placements=SINCE))
    updated(a_house(placements=[stay("FS-01", "1", "2025-09-01", "2026-01-01")]))
    assert Placement.objects.get().ends_at == datetime(2026, 1, 1, tzinfo=UTC)


def test_a_unit_moves_if_the_file_says_when_it_left_wherever_that_stands_in_the_file():
    stored(a_house(placements=SINCE))
    moved = [stay("FS-01", "2", "2026-01-01"), stay("FS-01", "1", "2025-09-01", "2026-01-01")]
    updated(a_house(placements=moved))
    found = Placement.objects.order_by("starts_at").values_list("place__label", "ends_at")
    assert list(found) == [("1", datetime(2026, 1, 1, tzinfo=UTC)), ("2", None)]


def test_a_unit_does_not_move_unless_the_file_says_when_it_left():
    stored(a_house(placements=SINCE))
    problems = refused(a_house(booth(slot("1", -2.0), slot("2", 2.0, unit="FS-01"))))
    assert list(problems) == ["$.positions[0].slots[1].unit"]
    assert "FS-01 at Rear booth, place 1" in problems["$.positions[0].slots[1].unit"]


def test_a_placement_that_has_ended_is_not_opened_again():
    stored(a_house(placements=[stay("FS-01", "1", "2025-09-01", "2026-01-01")]))
    again = stay("FS-01", "1", "2025-09-01") | {"until": None}
    assert list(refused(a_house(placements=[again]))) == ["$.placements[0].until"]


def test_a_placement_that_has_ended_is_not_made_longer():
    stored(a_house(placements=[stay("FS-01", "1", "2025-09-01", "2026-01-01")]))
    longer = stay("FS-01", "1", "2025-09-01", "2026-02-01")
    assert list(refused(a_house(placements=[longer]))) == ["$.placements[0].until"]


def test_an_overlap_with_what_is_only_stored_is_refused_at_its_path():
    stored(a_house(placements=SINCE))
    problems = refused(a_house(placements=[stay("FS-02", "1", "2025-12-01")]))
    assert list(problems) == ["$.placements[0]"]


def test_every_refusal_of_an_update_is_named_and_nothing_is_stored():
    house = stored(a_house(placements=SINCE))
    before = dumped(house)
    problems = refused(
        a_house(
            booth(slot("1", -9.0), slot("2", 2.0, unit="FS-01"), slot("3", 3.0)),
            {"name": "Rail"},
            house={"name": "Other"},
            placements=[stay("FS-02", "1", "2025-12-01")],
        )
    )
    assert set(problems) == {"$.placements[0]", "$.positions[0].slots[1].unit"}
    assert dumped(house) == before


def test_the_tag_of_a_unit_that_has_ended_is_not_given_again():
    stored(a_house())
    actions.end_unit(actor=ACTOR, unit=Unit.objects.get(tag="FS-02"), at=NOON, reason="sold")
    assert list(refused(a_house())) == ["$.units[1].tag"]


def test_the_label_of_a_place_that_has_ended_may_be_given_again():
    stored(a_house())
    ended = Place.objects.get(label="2")
    actions.end_place(actor=ACTOR, place=ended, at=NOON, reason="wall built")
    updated(a_house())
    assert Place.objects.filter(label="2").count() == 2
    ended.refresh_from_db()
    assert ended.has_ended


def test_the_name_of_another_setup_is_not_given_to_the_usual_one():
    stored(a_house(setups=[{"name": "Thrust"}]))
    assert list(refused(a_house(house={"setup_name": "Thrust"}))) == ["$.house"]


def test_an_update_made_while_somebody_else_changes_a_row_is_refused(monkeypatch):
    stored(a_house())
    change = actions.change

    def meanwhile(**facts):
        row = facts["row"]
        if isinstance(row, Place):
            type(row).objects.filter(pk=row.pk).update(version=row.version + 1)
        change(**facts)

    monkeypatch.setattr(actions, "change", meanwhile)
    with pytest.raises(HouseFileRefused) as refusal:
        updated(a_house(booth(slot("1", -9.0), slot("2", 2.0))))
    assert refusal.value.problems[0].where == "$.positions[0].slots[0]"
    assert Place.objects.get(label="1").x_m == -2.0


def test_a_later_load_does_not_move_what_stands_since_an_earlier_one():
    file = read(a_house(booth(slot("1", unit="FS-01"))))
    store_house(file, actor=ACTOR, now=NOON)
    store_house(file, actor=ACTOR, now=NOON + timedelta(days=30), update=True)
    assert Placement.objects.get().starts_at == NOON
