"""Each user's errand from end to end, as a newcomer walks it, on a phone and at a desk."""

import re
from io import BytesIO
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from tests.browser.conftest import SIZES, SignedIn

pytestmark = pytest.mark.django_db(transaction=True)
on_both = pytest.mark.parametrize("size", sorted(SIZES))
on_the_phone = pytest.mark.parametrize("size", ["phone"])
"""What is laid out at a desk as every other page: the look at every page tries that layout."""

PASTED = """Numbering: rear booth, stage right to stage left
Spot 1 - booth - channel B - frames pale pink, amber
Spot 2 - booth - channel B
Spot 3 - booth - channel B
Spot 4 - booth - channel B"""


def open_show(page: Page, name: str = "The Weathervane Revue") -> None:
    page.goto("/")
    page.get_by_role("link", name=name).first.click()
    expect(page.get_by_role("heading", level=1)).to_have_text(name)


def paste(page: Page, text: str) -> None:
    page.get_by_role("link", name=re.compile("paperwork", re.IGNORECASE)).first.click()
    page.locator("textarea[name=text]").fill(text)
    page.get_by_role("button", name="Read it").click()


def accept(page: Page) -> None:
    page.get_by_role("button", name=re.compile("^Accept")).click()
    expect(page.get_by_text("Accepted.")).to_be_visible()


def open_call(page: Page) -> None:
    page.goto("/calls/")
    page.get_by_role("link", name="The Weathervane Revue, show").first.click()


@on_both
def test_the_whole_job_from_paperwork_to_a_sheet_that_knows_when_it_is_old(visit: SignedIn, size: str) -> None:
    page = visit("head", size)
    open_show(page)
    paste(page, PASTED)
    expect(page.get_by_text("House labels run the other way: show 1 = house 4.").first).to_be_visible()
    accept(page)
    expect(page.get_by_text("Right lights, different paint.").first).to_be_visible()
    page.get_by_role("button", name="Tape the lamps").click()
    expect(page.get_by_text("Chosen: tape the lamps")).to_be_visible()

    open_call(page)
    selects = page.locator("main select")
    selects.nth(3).select_option(label="Zofia Wiśniak")
    page.get_by_role("button", name="Store the operators").click()
    page.get_by_role("button", name=re.compile("^Issue")).first.click()
    code = printed_code(page)
    for paper in ("letter", "a4"):
        assert {"Ada Quillfeather", "Мира Лисовская", "Zofia Wiśniak"} <= words_in(page, paper)
    stranger = visit(None, size)
    stranger.goto(f"/q/{code}")
    expect(stranger.locator("main")).to_contain_text("current")
    expect(stranger.locator("main")).not_to_contain_text("Weathervane")

    open_call(page)
    selects.nth(0).select_option(label="Eun-ji Castellane")
    page.get_by_role("button", name="Store the operators").click()
    stranger.reload()
    expect(stranger.locator("main")).to_contain_text(re.compile("changed", re.IGNORECASE))
    page.get_by_role("button", name=re.compile("^Issue")).first.click()
    stranger.reload()
    expect(stranger.locator("main")).to_contain_text("REPLACED")
    expect(stranger.locator("main")).to_contain_text("revision 2 was issued")


def printed_code(page: Page) -> str:
    """The code on the phone page of the sheet that was just issued."""
    expect(page.get_by_text("Revision 1 is issued.")).to_be_visible()
    href = page.locator("a[href*='/q/']").first.get_attribute("href")
    assert href
    return href.rsplit("/q/", 1)[1].strip("/")


def words_in(page: Page, paper: str) -> set[str]:
    """The names on the sheet's PDF, as a reader of PDFs finds them."""
    link = page.locator(f".actions a[href$='{paper}.pdf']").first.get_attribute("href")
    body = page.request.get(link or "").body()
    text = " ".join(leaf.extract_text() for leaf in PdfReader(BytesIO(body)).pages)
    folded = " ".join(text.split())
    names = ["Ada Quillfeather", "Мира Лисовская", "Zofia Wiśniak", "Bruno Achterberg"]
    return {name for name in names if name in folded}


@on_the_phone
def test_a_draft_that_says_left_to_right_is_asked_about_and_answered_by_a_tap(visit: SignedIn, size: str) -> None:
    page = visit("head", size)
    open_show(page)
    paste(page, Path("shows/demo/weathervane_revue_first_draft.csv").read_text())
    accept(page)
    expect(page.get_by_text("Left and right as seen from the house, or from the stage?").first).to_be_visible()
    page.get_by_role("button", name=re.compile("from the stage", re.IGNORECASE)).first.click()
    expect(page.get_by_text("Show numbers are the house labels.").first).to_be_visible()


@on_the_phone
def test_the_road_crew_checks_its_own_show_and_no_other(visit: SignedIn, size: str) -> None:
    page = visit("road", size)
    expect(page.locator("main")).to_contain_text("Do the numbers run the house's way")
    expect(page.locator("main")).not_to_contain_text("Copper Heron")
    open_show(page)
    expect(page.get_by_text("House labels run the other way: show 1 = house 4.").first).to_be_visible()


@on_the_phone
def test_bad_paperwork_is_named_by_its_line_and_nothing_is_lost(visit: SignedIn, size: str) -> None:
    page = visit("head", size)
    open_show(page)
    paste(page, "Numbering: rear booth HL to HR\nSpot,Position\n1,Booth\n=1+1,Booth\n3-Feb,Booth\n4,Booth")
    main = page.locator("main")
    expect(main).to_contain_text("line 4")
    expect(main).to_contain_text("formula")
    expect(main).to_contain_text("line 5")
    open_show(page)
    expect(page.locator("main")).to_contain_text("house 4")


@on_the_phone
def test_dispatch_sees_who_is_missing_and_the_reader_the_latest_sheet(visit: SignedIn, size: str) -> None:
    dispatch = visit("dispatch", size)
    expect(dispatch.locator("main")).to_contain_text("The Weathervane Revue")
    reader = visit("reader", size)
    expect(reader.locator("main")).to_contain_text(re.compile("sheet", re.IGNORECASE))
    assert reader.goto("/houses/lantern-street/units/new/").status == 403  # type: ignore[union-attr]
    assert visit("road", size).goto("/houses/ellery-arena/").status == 404  # type: ignore[union-attr]


@on_the_phone
def test_the_walk_confirms_which_label_is_at_the_left_end(visit: SignedIn, size: str) -> None:
    page = visit("head", size)
    page.goto("/houses/lantern-street/")
    page.get_by_role("link", name=re.compile("walk", re.IGNORECASE)).first.click()
    expect(page.locator("main")).to_contain_text(re.compile("face the stage", re.IGNORECASE))


def open_unit(page: Page, tag: str) -> None:
    page.goto("/houses/lantern-street/units/")
    page.get_by_role("link", name=tag, exact=True).click()
    expect(page.get_by_role("heading", level=1)).to_have_text(tag)


@on_the_phone
def test_the_head_reads_a_meter_in_three_taps_and_takes_a_mistake_back(visit: SignedIn, size: str) -> None:
    page = visit("head", size)
    open_unit(page, "FS-03")
    page.get_by_role("link", name="Read the meter").click()
    before = float(page.locator("input[name=hours]").input_value())
    page.get_by_role("button", name="a tenth more").click()
    expect(page.locator("input[name=hours]")).to_have_value(f"{before + 0.1:.1f}")
    page.get_by_role("button", name="Right: save").click()
    expect(page.get_by_text("h is in the book.")).to_be_visible()
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_text("h was taken back.")).to_be_visible()
    page.locator("input[name=hours]").fill("12")
    page.get_by_role("button", name="Right: save").click()
    expect(page.get_by_text("Nothing was stored yet.")).to_be_visible()
    expect(page.locator("input[name=hours]")).to_have_value("12")


@on_the_phone
def test_a_fault_reaches_the_show_and_its_sheet_at_once(visit: SignedIn, size: str) -> None:
    page = visit("head", size)
    open_unit(page, "FS-01")
    page.get_by_role("link", name="Report a fault").first.click()
    page.get_by_text("Not on camera", exact=False).first.click()
    page.get_by_role("button", name="Report the fault").click()
    expect(page.get_by_text("Every show that uses the unit is told.")).to_be_visible()
    open_call(page)
    expect(page.get_by_text("Not on camera").first).to_be_visible()
    page.goto("/houses/lantern-street/today/")
    expect(page.get_by_text("Not on camera").first).to_be_visible()


@on_the_phone
def test_a_relamp_stays_open_until_its_questions_are_answered(visit: SignedIn, size: str) -> None:
    page = visit("head", size)
    page.goto("/houses/lantern-street/today/")
    page.get_by_role("heading", name="Relamps to finish").wait_for()
    page.goto("/houses/lantern-street/log/")
    page.get_by_role("link", name="Answer now").click()
    expect(page.get_by_text("The maker's manual, local codes and a qualified person come first.").first).to_be_visible()
    page.locator("input[name=aligned][value=yes]").check()
    page.get_by_role("button", name="Save the answers").click()
    page.goto("/houses/lantern-street/log/")
    expect(page.get_by_role("link", name="Answer now")).to_have_count(0)
