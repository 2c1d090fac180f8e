"""The arrival check on paper, read back: signed or not, with two places and twenty; the page with the link's code."""

import re
from datetime import timedelta
from io import BytesIO

import pytest
import time_machine
from django.core.cache import cache
from django.db import connection
from django.test import Client, TestCase
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from pypdf import PdfReader

from crew.arrival_paper import arrival_paper
from crew.core.arrival_paper import ArrivalPaper, PaperItem, PaperPlace, PaperSignature, short_code
from crew.sheets.arrival_check import arrival_check_pdf
from crew.sheets.call_sheet import MARGIN
from crew.sheets.pen import A4, LETTER, Paper
from shows.actions.arrival import Found, mark_items, note_blockage
from shows.actions.arrival_visits import sign_as
from shows.core.checking import ITEMS
from shows.models import Engagement
from tests.crew.test_call_sheet_pdf import lowest, pages
from tests.factories import ACTOR, NOON, Cast, hours, make_show, the_cast
from tests.shows.test_arrival_pages import found, link, page, places_of, stocked
from tests.venue.pages import as_user, words
from venue.models import Place

PASS = {item: Found("pass") for item in ITEMS}


def mark(cast: Cast, place: Place, marks: dict[str, Found], by: str = "Ada", at: timedelta = timedelta()) -> None:
    unit = place.placements.get().unit
    facts = {"engagement": cast.engagement, "place": place, "unit": unit, "found": marks, "by": by}
    mark_items(actor=ACTOR, at=NOON + at, **facts)  # type: ignore[arg-type]


def sign(cast: Cast, side: str, name: str) -> None:
    facts = {"side": side, "name": name, "sha256": found(cast.engagement).sha256, "at": NOON + hours(1)}
    sign_as(actor=ACTOR, engagement=cast.engagement, **facts)  # type: ignore[arg-type]


def paper_of(cast: Cast) -> ArrivalPaper:
    row = Engagement.objects.select_related("house", "setup").get(pk=cast.engagement.pk)
    return arrival_paper(row, NOON + hours(2))


def paper_address(cast: Cast, paper: str = "letter") -> str:
    return reverse("crew:arrival_check_pdf", args=[cast.engagement.ref, paper])


@time_machine.travel(NOON, tick=False)
class SignedCheckTest(TestCase):
    """Of two places one was looked at whole and fails, of the other only the label. The road crew signed."""

    cast: Cast
    said: str
    leaves: list[str]

    @classmethod
    def setUpTestData(cls) -> None:
        cls.cast = the_cast()
        first, second = stocked(cls.cast.engagement)
        mark(cls.cast, first, PASS | {"strike": Found("fail", "no arc")})
        mark(cls.cast, first, {"headset": Found("fail", "dead on B")}, by="Dov", at=timedelta(minutes=8))
        noted = {"place": first, "words": "speaker array", "noted_on": NOON.date()}
        note_blockage(actor=ACTOR, engagement=cls.cast.engagement, **noted)  # type: ignore[arg-type]
        sign(cls.cast, "road", "Ada")
        mark(cls.cast, second, {"label": Found("pass")}, at=hours(1.5))
        with time_machine.travel(NOON + hours(2), tick=False):
            answer = as_user(cls.cast.reader).get(paper_address(cls.cast))
        assert answer["Content-Type"] == "application/pdf"
        cls.leaves = pages(answer.content)
        cls.said = " ".join(cls.leaves)

    def test_it_names_show_house_days_and_set_up_and_how_far_the_check_is(self) -> None:
        setup = self.cast.engagement.setup.name
        which = f"Arrival check · Quillmark Hall · Mar 2, 2026 – Mar 8, 2026 · set-up: {setup}"
        assert all(leaf.startswith(f"Nine Paper Boats {which}") for leaf in self.leaves)
        assert "1 of 2 places checked, 1 fails." in self.said

    def test_each_place_has_both_marks_its_unit_and_what_was_found_by_whom_and_when(self) -> None:
        unit = places_of(self.cast)[0].placements.get().unit.tag
        for wanted in (
            f"show 1 house 2 Rear booth, place 2 · unit {unit} FAILS: strike, headset",
            "CAUTION: fall protection needed: full-body harness; ask for the rescue plan before going up",
            "Strike FAILS Ada, Mar 2, 7:00 AM no arc",
            "Headset, both ways, on its channel FAILS Dov, Mar 2, 7:08 AM dead on B; before, Ada: passes, Mar 2, 7:00",
            "Sight passes Ada, Mar 2, 7:00 AM",
            f"{unit} is out of service",
        ):
            assert wanted in self.said, wanted

    def test_what_is_in_the_way_what_broke_and_what_nobody_looked_at_is_said_plainly(self) -> None:
        unit = places_of(self.cast)[0].placements.get().unit.tag
        rest = "strike, douser, frames, headset, iris, zoom and edge, focus, level, sight, coverage, access and rescue"
        for wanted in (
            "In the way tonight speaker array: Rear booth, place 2, for this show, noted on Mar 2, 2026",
            f"{unit} at Rear booth, place 2: strike (no arc); for use it means: out of service; seen Mar 2, 7:00 AM by",
            "OPEN Not checked",
            f"Not checked Show 2, Rear booth, place 1: {rest}",
            f"NOT CHECKED: {rest}",
        ):
            assert wanted in self.said, wanted

    def test_who_signed_when_and_that_marks_came_later_stand_on_it_and_who_did_not(self) -> None:
        now = found(self.cast.engagement)
        signed = self.cast.engagement.check_signatures.get()
        for wanted in (
            "NOT SIGNED for the house; signed for the road crew. CHANGED since: see the signatures.",
            "For the house: NOT SIGNED",
            f"For the road crew: Ada, Mar 2, 2026, 8:00 AM, check code {short_code(signed.sha256)}: signed before",
            f"Check code of the marks as printed: {short_code(now.sha256)}.",
            "Lamps are hot and bright",
        ):
            assert wanted in self.said, wanted
        assert now.sha256 in self.said.replace(" ", "")

    def test_every_page_has_its_number_when_it_was_printed_and_the_code_of_the_marks(self) -> None:
        code = short_code(found(self.cast.engagement).sha256)
        for number, leaf in enumerate(self.leaves, start=1):
            assert f"Arrival check · page {number} of {len(self.leaves)} · check code {code}" in leaf
            assert "printed Mar 2, 2026, 9:00 AM by the clocks of America/New_York" in leaf

    def test_it_hangs_on_the_page_of_the_check_for_all_who_sign_in_and_other_papers_are_not_found(self) -> None:
        road = as_user(self.cast.road)
        assert paper_address(self.cast, "a4") in road.get(page(self.cast.engagement)).content.decode()
        assert road.get(paper_address(self.cast, "a5")).status_code == 404
        assert "/check/" not in Client().get(link(self.cast)).content.decode()


@pytest.mark.django_db
@time_machine.travel(NOON, tick=False)
def test_before_anybody_looked_or_signed_the_same_paper_says_so() -> None:
    cast = the_cast()
    stocked(cast.engagement)
    check = paper_of(cast)
    assert check.standing == "NOT SIGNED: nobody has signed for this check."
    assert {each.told for each in check.signatures} == {"NOT SIGNED"}
    assert {place.state for place in check.places} == {"NOT CHECKED: nobody looked at it"}
    said = " ".join(pages(arrival_check_pdf(check, LETTER)))
    assert "Not checked Show 1, Rear booth, place 2: everything Show 2, Rear booth, place 1: everything" in said


@pytest.mark.django_db
@time_machine.travel(NOON, tick=False)
def test_the_paper_costs_as_many_queries_with_twenty_places_as_with_two() -> None:
    cast, costs = the_cast(), []
    for count, name in ((2, "Rear booth"), (20, "Front rail")):
        for place in stocked(cast.engagement, count, name):
            mark(cast, place, PASS | {"strike": Found("fail", "no arc")})
        with CaptureQueriesContext(connection) as queries:
            assert len(paper_of(cast).places) >= count
        costs.append(len(queries))
    assert costs[0] == costs[1]


# Without a database: a paper of so many places
def a_place(number: int, note: str = "") -> PaperPlace:
    items = tuple(PaperItem(f"Item {n}", "passes", "Ada, Mar 2, 7:00 AM", note) for n in range(12))
    return PaperPlace(str(number), f"L{number}", f"Position {number}, place L{number} · unit FS-{number}", "x", items)


def a_check(*places: PaperPlace) -> ArrivalPaper:
    signatures = (PaperSignature("For the house", "NOT SIGNED", False),)
    return ArrivalPaper(
        *("Nine Paper Boats", "Quillmark Hall", "Mar 2, 2026", "20 of 20 places checked.", "NOT SIGNED"),
        *(places, (), (), (), signatures, "0123456789abcdef" * 4, "America/Chicago", NOON),
    )


@pytest.mark.parametrize("paper", [LETTER, A4], ids=lambda paper: paper.name)
def test_twenty_places_are_each_whole_on_one_page_and_nothing_runs_off(paper: Paper) -> None:
    content = arrival_check_pdf(a_check(*map(a_place, range(1, 21))), paper)
    leaves = pages(content)
    for number in range(1, 21):
        (leaf,) = [each for each in leaves if f"Position {number}, place" in each]
        assert leaf.index(f"Position {number}, place") < leaf.index(f"page {leaves.index(leaf) + 1} of")
    assert sum(leaf.count("Item 11 passes") for leaf in leaves) == 20
    assert lowest(content) > MARGIN
    box = PdfReader(BytesIO(content)).pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx((paper.width, paper.height), abs=0.01)


def test_a_place_with_more_than_a_page_goes_on_under_its_name() -> None:
    note = " ".join(f"word{n}" for n in range(60))
    leaves = pages(arrival_check_pdf(a_check(a_place(7, note)), LETTER))
    assert len(leaves) > 1
    assert "Position 7, place L7 · unit FS-7, continued" in leaves[1]
    assert sum(leaf.count("word59") for leaf in leaves) == 12


# The link's code
@pytest.mark.django_db
@time_machine.travel(NOON, tick=False)
def test_a_new_link_is_shown_as_a_code_and_printed_for_the_call_board() -> None:
    cache.clear()
    cast = the_cast()
    road = as_user(cast.road)
    shown = road.post(page(cast.engagement, tail="link/"), {"until": "2026-03-02T22:00"}, follow=True)
    assert 'src="data:image/svg+xml' in shown.content.decode()
    assert "QR code of the address above" in shown.content.decode()
    (address,) = re.findall(r'readonly value="([^"]+)"', shown.content.decode())
    print_at = reverse("crew:arrival_qr", args=[cast.engagement.ref, "a4"])
    assert print_at in shown.content.decode()
    (leaf,) = pages(road.post(print_at, {"address": address}).content)
    for wanted in ("Nine Paper Boats Arrival check of the follow spots", "works until Mar 2, 2026, 10:00 PM", "ladder"):
        assert wanted in leaf, wanted
    assert address.split("/")[-2] in leaf.replace(" ", "")
    other = link(Cast(**{**vars(cast), "engagement": make_show(cast.house, "Salt Lanterns")}))
    for wrong in (
        "",
        "https://[",
        "/houses/",
        f"{address}sign/",
        address.replace("/arrive/", "/advance/"),
        other,
        "\0",
    ):
        refused = road.post(print_at, {"address": wrong}, follow=True)
        assert "That is not the address of a link that works." in words(refused), wrong
    assert as_user(cast.reader).post(print_at, {"address": address}).status_code == 403
