"""Whether the house can do what a show asks: each finding by the case that makes it, and by the case that does not."""

from dataclasses import replace

import pytest

from shows.core.fit.judging import fingerprint, show_findings, spot_findings, undecided
from shows.core.fit.pairs import pairs_of
from shows.core.fit.records import Ask, Color, Finding, Frame, LampEnd, Offer, UnitOffer
from shows.wording.fit import _SENTENCES, DECIDERS, GRAVITY, finding_sentence, way_choices
from venue.core.filters import Filter
from venue.core.light import Span
from venue.core.matching import Light, match
from venue.core.pick_ups import SIZES, PickUp, pick_up

UNIT = UnitOffer("FS-01", source="short-arc", frames=6, frame_1_end="lens", magazine="front")
OFFER = Offer(
    "4",
    "Rear booth",
    unit=UNIT,
    pick_ups=tuple(pick_up(size, 45.0, 0.5, 8.0) for size in SIZES),
    lux=Span(1500.0, 1500.0),
    is_steep_for_camera=False,
    fall_protection="none",
    show_exit="yes",
)


def frame(number: int, *codes: str, diffuses: bool = False) -> Frame:
    return Frame(number, tuple(Color(code, 0.5, diffuses and code == codes[-1]) for code in codes))


def codes(ask: Ask, offer: Offer | None = OFFER) -> list[tuple[str, str, str]]:
    return [(each.code, each.gravity, each.about) for each in spot_findings(ask, offer)]


def asking(**facts: object) -> Ask:
    return Ask("7", frame_1_end="lens", **facts)  # type: ignore[arg-type]


def with_unit(**facts: object) -> Offer:
    return replace(OFFER, unit=replace(UNIT, **facts))  # type: ignore[arg-type]


def test_a_unit_that_can_do_everything_leaves_nothing_to_say() -> None:
    ask = asking(
        frames=(frame(1, "C-1"), frame(6, "C-9")), least_lux=1500.0, sizes=("head", "full body"),
        on_camera=True, full_blackout=True, strip_out=True,
    )  # fmt: skip
    assert codes(ask) == []


def test_seven_colors_on_a_six_frame_unit_stop_the_show_until_somebody_decides() -> None:
    """The trade's story of seven colors on six frames, by its own words (common practice, no source)."""
    ask = asking(frames=tuple(frame(number, f"C-{number}") for number in range(1, 8)))
    (finding,) = spot_findings(ask, OFFER)
    assert (finding.code, finding.about, finding.facts["frames"]) == ("frame-short", "7", 6)
    assert undecided([finding], []) == [finding]
    assert undecided([finding], [(finding.key, fingerprint(finding))]) == []
    worse = spot_findings(ask, with_unit(frames=5))
    assert undecided(worse, [(finding.key, fingerprint(finding))]) == list(worse)


@pytest.mark.parametrize(
    ("offer", "found"),
    [
        (with_unit(frames_out=frozenset({4})), ("frame-out", "stops", "4")),
        (with_unit(frame_1_end="lamp"), ("magazine-other-way", "stops", "")),
        (with_unit(frame_1_end=""), ("frame-1-not-recorded", "note", "")),
        (with_unit(frames=None), ("frames-not-recorded", "limits", "")),
    ],
)
def test_frames_are_held_against_the_magazine_that_is_there(offer: Offer, found: tuple[str, str, str]) -> None:
    assert codes(asking(frames=(frame(4, "C-4"),)), offer) == [found]
    assert codes(asking(), offer) == []


def test_what_can_not_be_put_together_in_a_frame_is_told() -> None:
    assert codes(asking(frames=(frame(1, "C-1", "C-2", "C-3"),))) == [("combination-impossible", "stops", "1")]
    dark = Frame(2, (Color("C-1", 0.2), Color("C-2", 0.2)))
    assert codes(asking(frames=(dark,))) == [("combination-dark", "limits", "2")]
    assert codes(asking(frames=(replace(dark, colors=(Color("C-1", 0.2), Color("C-2"))),))) == []


def test_diffusion_between_the_lenses_does_nothing_and_with_a_color_there_is_no_hard_edge() -> None:
    soft = (frame(6, "D-1", diffuses=True),)
    assert codes(asking(frames=soft)) == []
    assert codes(asking(frames=soft), with_unit(magazine="between")) == [("diffusion-does-nothing", "limits", "6")]
    assert codes(asking(frames=soft), with_unit(magazine="")) == [("diffusion-not-sure", "note", "6")]
    assert codes(asking(frames=(frame(6, "C-1", "D-1", diffuses=True),))) == [("no-hard-edge", "note", "6")]


@pytest.mark.parametrize(
    ("lux", "found"),
    [
        (Span(900.0, 999.0), [("light-short", "stops", "")]),
        (Span(900.0, 1000.0), [("light-may-be-short", "limits", "")]),
        (Span(1000.0, 1200.0), []),
        (None, [("light-not-known", "note", "")]),
    ],
)
def test_the_least_light_is_held_against_what_arrives(lux: Span | None, found: list[tuple[str, str, str]]) -> None:
    assert codes(asking(least_lux=1000.0), replace(OFFER, lux=lux)) == found


@pytest.mark.parametrize(
    ("narrow", "wide", "found"),
    [
        (1.0, 8.0, [("cant-close", "stops", "head")]),
        (0.5, 2.0, [("cant-open", "stops", "full body")]),
        (None, 8.0, [("size-not-known", "note", "head"), ("size-not-known", "note", "full body")]),
    ],
)
def test_a_size_out_of_reach_is_told(narrow: float | None, wide: float, found: list[tuple[str, str, str]]) -> None:
    """At 45 m a head of 0.60 m needs 0.76 degrees, a full body of 2.45 m needs 3.12: 2 atan(d / 2t)."""
    offer = replace(OFFER, pick_ups=tuple(pick_up(size, 45.0, narrow, wide) for size in SIZES))
    assert codes(asking(sizes=("head", "full body")), offer) == found


@pytest.mark.parametrize(
    ("limit", "asked", "code"),
    [
        ("blackout", "full_blackout", "no-full-blackout"),
        ("camera", "on_camera", "not-on-camera"),
        ("shutters", "strip_out", "no-strip"),
    ],
)
def test_a_limit_stops_a_show_that_needs_it_and_is_a_note_where_nobody_said(limit: str, asked: str, code: str) -> None:
    offer = with_unit(limits=frozenset({limit}))
    assert codes(asking(**{asked: True}), offer) == [(code, "stops", "")]
    assert codes(asking(), offer) == [(code, "note", "")]
    assert codes(asking(**{asked: False}), offer) == []


def test_a_fixed_iris_stops_a_number_of_several_sizes() -> None:
    offer = with_unit(limits=frozenset({"iris"}))
    assert codes(asking(sizes=("waist", "full body")), offer) == [("fixed-iris", "stops", "")]
    assert codes(asking(sizes=("waist",)), offer) == [("fixed-iris", "limits", "")]


@pytest.mark.parametrize(
    ("offer", "code"),
    [
        (None, "no-place"),
        (replace(OFFER, unit=None), "no-unit"),
        (replace(OFFER, unit=None, away="lent out"), "unit-away"),
        (with_unit(stops=("Will not strike",)), "unit-out"),
        (with_unit(stops=("Safety cable missing",), is_dangerous=True), "danger"),
        (with_unit(lamp=LampEnd("L-1", is_past=True)), "lamp-past-stop"),
        (replace(OFFER, fall_protection="harness"), "no-rescue-plan"),
        (replace(OFFER, fall_protection="", is_up_high=True), "fall-protection-not-recorded"),
    ],
)
def test_what_is_dangerous_or_missing_can_not_be_waived(offer: Offer | None, code: str) -> None:
    finding = spot_findings(asking(), offer)[0]
    assert (finding.code, finding.gravity) == (code, "stops")
    assert undecided([finding], [(finding.key, fingerprint(finding))]) == [finding]


def test_a_lamp_that_will_not_last_names_the_event_and_may_be_decided() -> None:
    offer = with_unit(lamp=LampEnd("L-1", event="Saturday, second show", event_key="e7"))
    (finding,) = spot_findings(asking(), offer)
    assert (finding.code, finding.facts["event"], finding.ways[0]) == (
        "lamp-will-not-last",
        "Saturday, second show",
        "relamp-before",
    )
    assert undecided([finding], [(finding.key, fingerprint(finding))]) == []


def test_a_truss_seat_says_harness_and_no_exit() -> None:
    """The trade's story of the truss seat (common practice, no source)."""
    offer = replace(OFFER, fall_protection="harness", has_rescue_plan=True, show_exit="no", needs="water")
    assert [code for code, _, _ in codes(asking(), offer)] == ["needs-certification", "no-exit", "position-needs"]


def test_a_circuit_over_its_rating_is_for_an_electrician() -> None:
    (finding,) = spot_findings(asking(), replace(OFFER, circuit="A1", circuit_over_a=4.2))
    assert (finding.code, finding.gravity, finding.decider) == ("circuit-over", "stops", "electrician")


def test_a_pair_that_can_not_match_is_found_once_at_the_number_that_asks() -> None:
    """180 and 140 foot-candles differ by 22 %, over 15 % (common practice, no source)."""
    asks = (Ask("1"), Ask("2", matches="1"), Ask("3", matches="9"), Ask("4", matches="4"))
    assert pairs_of(asks) == [("2", "1")]
    lights = (
        Light("2", 45.0, lux=140.0, source="LED", color_k=5600, narrow_deg=0.5, wide_deg=8.0),
        Light("1", 45.0, lux=180.0, source="short-arc", color_k=5600, narrow_deg=0.5, wide_deg=8.0),
    )
    found = show_findings(asks, {ask.number: (OFFER,) for ask in asks}, {("2", "1"): match(lights, SIZES[-1])})
    assert [(each.number, each.code, each.gravity, each.about) for each in found] == [
        ("2", "pair-sources-differ", "stops", "1"),
        ("2", "pair-levels-differ", "limits", "1"),
        ("3", "pair-unknown", "limits", "9"),
    ]
    assert found[1].facts["value"] == pytest.approx(1 - 140 / 180)


def test_a_team_tells_what_is_alike_at_its_places_once() -> None:
    offers = {"7": (replace(OFFER, lux=None), replace(OFFER, label="5", lux=None))}
    found = show_findings((asking(least_lux=10.0),), offers, {})
    assert [each.code for each in found] == ["light-not-known"]


def every_finding() -> list[Finding]:
    """One of each code that the cases of this file and the pairs can make."""
    everything = with_unit(
        frames=3, frames_out=frozenset({2}), magazine="between",
        limits=frozenset({"blackout", "camera", "shutters", "iris"}),
        other_limits=("wobbles",), stops=("no arc",), lamp=LampEnd("L-1", event="Show", event_key="e"),
    )  # fmt: skip
    frames = (frame(1, "C-1", "C-2", "C-3"), frame(2, "C-2"), frame(4, "C-4", "D-1", diffuses=True))
    ask = Ask("7", frames, "lamp", 1000.0, ("head", "full body"), on_camera=True, full_blackout=True, strip_out=True)
    place = {"fall_protection": "harness", "show_exit": "no", "who_may_operate": "house", "needs": "water"}
    more = {"circuit": "A1", "circuit_over_a": 4.2, "blockages": ("banner",), "is_steep_for_camera": True}
    more["failed"] = (("headset", "dead on B"), ("access", "no rescue kit"))
    offer = replace(everything, lux=Span(1.0, 2.0), pick_ups=pick_ups(1.0, 2.0), **place, **more)  # type: ignore[arg-type]
    offers = [
        offer,
        None,
        replace(OFFER, unit=None),
        replace(OFFER, unit=None, away="FS-01 lent out"),
        replace(OFFER, lux=None, pick_ups=pick_ups(None, None), is_up_high=True, fall_protection=""),
        replace(OFFER, lux=Span(1.0, 2000.0)),
        with_unit(frames=None, frame_1_end="", magazine="", lamp=LampEnd("L-1", is_past=True)),
        with_unit(stops=("Safety cable missing",), is_dangerous=True),
    ]
    dark = replace(ask, frames=(Frame(1, (Color("C-1", 0.1), Color("C-2", 0.1))),), frame_1_end="")
    return [finding for each in (ask, dark) for place_ in offers for finding in spot_findings(each, place_)]


def pick_ups(narrow: float | None, wide: float | None) -> tuple[PickUp, ...]:
    return tuple(pick_up(size, 45.0, narrow, wide) for size in SIZES)


def test_every_finding_has_its_sentence_and_every_way_and_decider_its_words() -> None:
    for finding in every_finding():
        assert finding_sentence(finding, "imperial")
        assert finding_sentence(finding, "metric")
        assert len(way_choices(finding)) == len(finding.ways)
        assert DECIDERS[finding.decider]
        assert GRAVITY[finding.gravity]
    told = {finding.code for finding in every_finding()}
    assert {code for code in _SENTENCES if not code.startswith("pair-")} - told == set()


def test_every_finding_of_a_pair_has_its_sentence() -> None:
    asks = (Ask("1"), Ask("2", matches="1"), Ask("3", matches="9"))
    base = Light("1", 45.0, lux=900.0, source="LED", color_k=5600.0, narrow_deg=0.5, wide_deg=8.0)
    others = [
        replace(base, name="2", source="short-arc", color_k=3200.0, lux=100.0),
        replace(base, name="2", narrow_deg=20.0, wide_deg=30.0),
    ]
    corrections = [[], [Filter("C", 0.5, -134.0)]]
    matches = [match([other, base], SIZES[-1], some) for other in others for some in corrections]
    found = [each for one in matches for each in show_findings(asks, {}, {("2", "1"): one})]
    sentences = {each.code: finding_sentence(each, "imperial") for each in found}
    assert {code for code in sentences if code.startswith("pair-")} == {
        code for code in _SENTENCES if code.startswith("pair-")
    }


def test_what_failed_on_arrival_stops_the_show_until_it_passes_or_the_road_crew_decides() -> None:
    failed = (("headset", "dead on B"), ("access", "no rescue kit"))
    offer = replace(OFFER, failed=failed)
    headset, access = spot_findings(asking(), offer)
    assert (headset.code, headset.gravity, headset.decider, headset.ways) == (
        "check-failed",
        "stops",
        "road",
        ("mend", "other-place", "go-on"),
    )
    decided = [(each.key, fingerprint(each)) for each in (headset, access)]
    assert undecided([headset, access], decided) == [access]  # what may hurt somebody is never decided away
    two_places = show_findings((asking(),), {"7": (offer, replace(offer, label="5"))}, {})
    assert len({each.key for each in two_places}) == 4
