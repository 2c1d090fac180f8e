"""Addresses of the pages that draw on houses, shows and people together."""

from django.urls import path

from crew.views import (
    arrival_paper,
    calls,
    codes,
    filling,
    home,
    houses,
    labels,
    looks,
    out,
    papers,
    revisions,
    rosters,
    sheets,
    tech_sheet,
)

app_name = "crew"
urlpatterns = [
    path("", home.home, name="home"),
    path("looks/", looks.looks, name="looks"),
    path("q/<str:text>", codes.code, name="code"),
    path("houses/new/", houses.house_new, name="house_new"),
    path("rosters/<uuid:ref>/", rosters.roster_detail, name="roster"),
    path("rosters/<uuid:ref>/persons/", rosters.person_add, name="person_add"),
    path("rosters/<uuid:ref>/persons/<uuid:person_ref>/end/", rosters.person_end, name="person_end"),
    path("calls/", calls.call_list, name="calls"),
    path("calls/for/<uuid:event_ref>/", calls.call_new, name="call_new"),
    path("calls/<uuid:ref>/", calls.call_detail, name="call"),
    path("calls/<uuid:ref>/edit/", calls.call_edit, name="call_edit"),
    path("calls/<uuid:ref>/off/", calls.call_end, name="call_end"),
    path("calls/<uuid:ref>/people/", filling.call_fill, name="call_fill"),
    path("calls/<uuid:ref>/issue/", sheets.sheet_issue, name="sheet_issue"),
    path("calls/<uuid:ref>/draft/<slug:paper>.pdf", sheets.draft_sheet_pdf, name="draft_pdf"),
    path("calls/<uuid:ref>/sheets/<int:n>/", sheets.sheet_detail, name="sheet"),
    path("calls/<uuid:ref>/confirmed/", revisions.confirmations, name="confirmations"),
    path("calls/<uuid:ref>/confirmed/<uuid:line_ref>/<int:n>/", revisions.line_confirm, name="line_confirm"),
    path("calls/<uuid:ref>/sheets/<int:n>/against/<int:m>/", revisions.sheet_against, name="sheet_against"),
    path("calls/<uuid:ref>/sheets/<int:n>/<slug:paper>.pdf", sheets.sheet_pdf, name="sheet_pdf"),
    # a sheet's other papers
    path("calls/<uuid:ref>/sheets/<int:n>/cards/", papers.cards, name="cards"),
    path("calls/<uuid:ref>/sheets/<int:n>/cards/<int:at>/", papers.card, name="card"),
    path("calls/<uuid:ref>/sheets/<int:n>/cards/<slug:paper>.pdf", papers.cards_pdf, name="cards_pdf"),
    path("calls/<uuid:ref>/sheets/<int:n>/frames/", papers.frames, name="frames"),
    path("calls/<uuid:ref>/sheets/<int:n>/frames/<slug:paper>.pdf", papers.frames_pdf, name="frames_pdf"),
    path("calls/<uuid:ref>/sheets/<int:n>/tapes/<slug:paper>.pdf", papers.tapes_pdf, name="tapes_pdf"),
    path("calls/<uuid:ref>/sheets/<int:n>/chart/", papers.chart, name="chart"),
    path("calls/<uuid:ref>/sheets/<int:n>/chart/<slug:paper>.pdf", papers.chart_pdf, name="chart_pdf"),
    # the arrival check
    path("shows/<uuid:ref>/arrival/check/<slug:paper>.pdf", arrival_paper.arrival_check, name="arrival_check_pdf"),
    path("shows/<uuid:ref>/arrival/qr/<slug:paper>.pdf", arrival_paper.arrival_qr, name="arrival_qr"),
    # on paper and out
    path("houses/<house:slug>/labels/", labels.labels, name="labels"),
    path("houses/<house:slug>/out/", out.out, name="out"),
    path("houses/<house:slug>/out/file/", out.out_file, name="out_file"),
    # the technical sheet
    path("houses/<house:slug>/tech-sheet/", tech_sheet.tech_sheet, name="tech_sheet"),
    path("houses/<house:slug>/tech-sheet/pdf/", tech_sheet.tech_sheet_pdf, name="tech_sheet_pdf"),
    path("houses/<house:slug>/tech-sheet/link/", tech_sheet.tech_link, name="tech_link"),
    path("houses/<house:slug>/tech-sheet/link/off/", tech_sheet.tech_link_off, name="tech_link_off"),
    path("house-sheet/<uuid:ref>/<str:secret>/", tech_sheet.tech_public, name="tech_public"),
    path("house-sheet/<uuid:ref>/<str:secret>/pdf/", tech_sheet.tech_public_pdf, name="tech_public_pdf"),
]
