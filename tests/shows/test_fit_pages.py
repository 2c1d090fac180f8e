"""The show on the house, from its rows: what stops it, who decided, when it is ready."""

from datetime import timedelta

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from shows.actions import add_show_event, bind_spots, decide, put_spots
from shows.errors import FindingChanged
from shows.facts import SpotFacts
from shows.fit import Fit, fit_of
from shows.models import Decision, Engagement, ShowSpot
from tests.factories import ACTOR, NOON, make_place, make_position, make_show, make_unit, the_cast
from tests.venue.lamped import a_kind, a_lamp, day, fit, h, read
from venue.actions import place_unit, put_meter, report_fault
from venue.errors import Invalid
from venue.models import ColorFilter, Unit

pytestmark = pytest.mark.django_db
SEVEN = tuple(f"C-{number}" for number in range(1, 8))


def a_show(spots: int = 1, engagement: Engagement | None = None, **facts: object) -> Engagement:
    """A show of so many numbers, each on its place with a six-frame unit that reaches every size."""
    engagement = engagement or make_show()
    house = engagement.house
    position = make_position(house, fall_protection="none", show_exit="yes")
    told = [SpotFacts(f"{number}", **facts) for number in range(1, spots + 1)]  # type: ignore[arg-type]
    rows = put_spots(actor=ACTOR, engagement=engagement, spots=told, at=NOON)
    for index, spot in enumerate(rows):
        place = make_place(position, f"{index + 1}", x_m=float(index), y_m=-38.0, z_m=12.0)
        unit = make_unit(
            house, frames=6, frame_1_end="lens", magazine="front", source="LED", narrow_deg=0.5, wide_deg=12.0,
            narrow_cd=5e6, wide_cd=5e6, angle_percent=50, cct_k=5600,
        )  # fmt: skip
        place_unit(actor=ACTOR, unit=unit, place=place, starts_at=NOON - timedelta(days=9))
        bind_spots(actor=ACTOR, engagement=engagement, places={spot: [place]}, at=NOON)
    engagement.frame_1_end = "lens"
    engagement.save()
    return engagement


def fitted(engagement: Engagement) -> Fit:
    return fit_of(Engagement.objects.select_related("house", "setup").get(pk=engagement.pk), NOON, NOON)


def codes(engagement: Engagement) -> list[str]:
    return [each.finding.code for each in fitted(engagement).findings]


def unit_of(engagement: Engagement) -> Unit:
    return Unit.objects.filter(house=engagement.house).earliest("pk")


def test_a_house_that_can_do_what_is_asked_is_ready() -> None:
    show = a_show(frames=("C-1", "C-2"), least_lux=1000.0)
    assert codes(show) == []
    assert fitted(show).is_ready


def test_seven_colors_on_six_frames_are_blocked_until_a_named_person_decides(client: Client) -> None:
    """The trade's story of seven colors, by its own words (common practice, no source)."""
    cast = the_cast()
    show = a_show(engagement=cast.engagement, frames=SEVEN)
    client.force_login(cast.head)
    page = reverse("shows:fit", args=[show.ref])
    assert "Not ready: show 1 is stopped." in client.get(page).content.decode()
    address = reverse("shows:fit_decide", args=[show.ref]) + "?number=1&code=frame-short&about=7"
    form = client.get(address).context["form"]
    sent = {"way": "merge", "reason": "6 and 7 go together", "decided_by": "Hollis Varga"}
    sent["facts"] = form["facts"].value()
    assert client.post(address, {**sent, "reason": ""}).status_code == 200
    text = client.post(address, sent, follow=True).content.decode()
    assert "Ready: nothing that stops the show is undecided." in text
    assert "6 and 7 go together (Hollis Varga" in text
    Unit.objects.filter(house=show.house).update(frames=5)
    assert not fitted(show).is_ready  # what was decided has changed
    assert str(FindingChanged()) in client.post(address, sent).content.decode()


def test_a_unit_out_of_service_is_never_left_in_a_ready_show() -> None:
    """The trade's story of the unit set out of service: not ready, naming spot and unit."""
    show = a_show()
    report_fault(actor=ACTOR, unit=unit_of(show), means="out", part="ballast", at=NOON - timedelta(hours=1))
    (each,) = fitted(show).open
    assert (each.finding.number, each.finding.facts["unit"]) == ("1", unit_of(show).tag)
    with pytest.raises(Invalid):
        facts = {"way": "mend", "reason": "tomorrow", "by": "Hollis", "at": NOON}
        decide(actor=ACTOR, engagement=show, spot=None, finding=each.finding, **facts)  # type: ignore[arg-type]


def test_a_lamp_that_passes_its_stop_in_the_show_names_the_event() -> None:
    show = a_show()
    starts = (NOON + timedelta(days=1)).replace(tzinfo=None)
    facts = {"kind": "show", "starts": starts, "ends": starts + timedelta(hours=3)}
    add_show_event(actor=ACTOR, engagement=show, name="Opening", **facts)  # type: ignore[arg-type]
    unit = unit_of(show)
    put_meter(actor=ACTOR, unit=unit, at=day(-3), starts_h=h(0))
    fit(unit, -3, a_lamp(a_kind(show.house, rated_h=10)), 0)
    read(unit, -1, 9)
    assert "lamp-will-not-last" in codes(show)


def test_a_filter_of_the_house_explains_what_a_frame_holds() -> None:
    show = a_show(frames=("D-1",))
    assert codes(show) == []
    ColorFilter.objects.create(house=show.house, code="D-1", code_key="d-1", is_diffusion=True)
    Unit.objects.filter(house=show.house).update(magazine="between")
    assert codes(show) == ["diffusion-does-nothing"]


def test_two_numbers_that_must_match_are_held_against_each_other() -> None:
    show = a_show(spots=2)
    ShowSpot.objects.filter(engagement=show, number="2").update(matches="1")
    assert codes(show) == []
    Unit.objects.filter(house=show.house).exclude(pk=unit_of(show).pk).update(source="short-arc")
    assert codes(show) == ["pair-sources-differ"]


def test_the_fit_costs_as_many_queries_with_twenty_numbers_as_with_two() -> None:
    counts = []
    for spots in (2, 20):
        show = a_show(spots=spots, frames=("C-1",), least_lux=100.0)
        ShowSpot.objects.filter(engagement=show, number="2").update(matches="1")
        fresh = Engagement.objects.select_related("house", "setup__house").get(pk=show.pk)
        with CaptureQueriesContext(connection) as queries:
            assert len(fit_of(fresh, NOON, NOON).asks) == spots
        counts.append(len(queries))
    assert counts[0] == counts[1]


def test_nobody_may_decide_what_is_not_there(client: Client) -> None:
    cast = the_cast()
    show = a_show(engagement=cast.engagement)
    client.force_login(cast.head)
    for query in ("", "?number=1&code=frame-short&about=7", "?number=1&code=%00&about=", "?number=&code=&about="):
        assert client.get(reverse("shows:fit_decide", args=[show.ref]) + query).status_code == 302
    assert not Decision.objects.exists()
