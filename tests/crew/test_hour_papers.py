"""Hours and the sheet to sign, on paper."""

from datetime import date, datetime, timedelta
from decimal import Decimal
from uuid import UUID

import pytest

from crew.core.hours.records import Part, Tally
from crew.core.hours_report import HoursLine, HoursReport
from crew.sheets.call_sheet import Imprint
from crew.sheets.hours import hours_pdf
from crew.sheets.pen import A4, LETTER, Paper
from crew.sheets.sign_in import SignIn, SignInRow, sign_in_pdf
from tests.crew.test_call_sheet_pdf import pages

PRINTED = datetime(2026, 3, 9, 9)


def a_line(key: int, paid: int) -> HoursLine:
    day = date(2026, 3, 3)
    worked, padded = Part(day, 160, Decimal(1), "worked", True), Part(day, paid, Decimal("1.5"), "minimum", False)
    came = datetime(2026, 3, 3, 19)
    refs = {"person_ref": UUID(int=key), "show_ref": UUID(int=1)}
    names = {**refs, "person": f"Мира Лисовская {key}", "show": "Nine Paper Boats"}
    times = {"came": came, "left": came + timedelta(minutes=160), "meals": ()}
    return HoursLine(
        **names, event="Show", house="Quillmark Hall", **times, tally=Tally((worked, padded)), flags=("night",)
    )  # type: ignore[arg-type]


@pytest.mark.parametrize("paper", [LETTER, A4], ids=lambda paper: paper.name)
def test_a_week_on_paper_has_every_person_with_a_total_and_the_shows(paper: Paper) -> None:
    lines = tuple(a_line(key, 50) for key in range(1, 16) for _nth in (1, 2))
    report = HoursReport(
        "Hours, week of Monday, March 2, 2026",
        "Quillmark roster",
        lines,
        ("Ada: in 7:00 PM, no time out yet",),
        PRINTED,
    )
    texts = pages(hours_pdf(report, paper))
    whole = " ".join(texts)
    assert len(texts) > 1
    assert all(f"page {n} of {len(texts)}" in text for n, text in enumerate(texts, start=1))
    assert all(f"Мира Лисовская {key}" in whole for key in range(1, 16))
    assert "total 5.33 7.00 5.33 7.83" in whole, "two calls: 320 min worked, 420 paid, 320 + 1.5 × 100 straight"
    assert "Nine Paper Boats, Quillmark Hall" in whole
    assert "Ada: in 7:00 PM, no time out yet" in whole
    assert hours_pdf(report, paper) == hours_pdf(report, paper)
    assert "No hours are counted here" in pages(hours_pdf(HoursReport("Hours", "R", (), (), PRINTED), paper))[0]


def a_sheet(rows: int, imprint: Imprint) -> SignIn:
    names = (f"Zofia Wiśniak {n}" for n in range(1, rows + 1))
    people = tuple(SignInRow(name, f"{n}", f"L{n}", "6:30 PM", came="6:31 PM") for n, name in enumerate(names, start=1))
    head = ("Nine Paper Boats", "Quillmark Hall · Show", "Call 6:30 PM", "Goes with call sheet revision 2.", "Clocks.")
    return SignIn(*head, people, imprint)


@pytest.mark.parametrize("paper", [LETTER, A4], ids=lambda paper: paper.name)
def test_the_sheet_to_sign_has_everybody_with_both_numbers_and_the_code(paper: Paper) -> None:
    issued = Imprint(PRINTED, 2, PRINTED, "Dilys Okafor-Penn", "ACDEFGHJKMN", "https://house.example/q/ACDEFGHJKMN")
    texts = pages(sign_in_pdf(a_sheet(60, issued), paper))
    assert len(texts) > 2
    for n, text in enumerate(texts, start=1):
        assert f"page {n} of {len(texts)}" in text
        assert "ACDE-FGH-JKMN" in text
        assert "House label" in text
    whole = " ".join(texts)
    assert all(f"Zofia Wiśniak {n} {n} L{n} 6:30 PM 6:31 PM" in whole for n in range(1, 61))
    draft = pages(sign_in_pdf(a_sheet(0, Imprint(PRINTED)), paper))
    assert "Nobody is on the call yet" in draft[0]
    assert "page 1 of 1" in draft[0]
