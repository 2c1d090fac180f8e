"""Addresses of the pages about shows: engagements, their paperwork, the comparison, places and numbers."""

from django.urls import path

from shows.views import asks, colors, compare, engagements, events, fit, outlook, paperwork, places, quick, today

app_name = "shows"
urlpatterns = [
    path("quick/", quick.quick, name="quick"),
    path("quick/<slug:slug>/", quick.quick_in_house, name="quick_in_house"),
    path("quick/<slug:slug>/keep/", quick.quick_keep, name="quick_keep"),
    path("houses/<slug:slug>/shows/", engagements.engagement_list, name="engagement_list"),
    path("houses/<slug:slug>/shows/new/", engagements.engagement_new, name="engagement_new"),
    path("shows/<uuid:ref>/", engagements.engagement_detail, name="engagement_detail"),
    path("shows/<uuid:ref>/edit/", engagements.engagement_edit, name="engagement_edit"),
    path("shows/<uuid:ref>/end/", engagements.engagement_end, name="engagement_end"),
    path("shows/<uuid:ref>/events/new/", events.event_new, name="event_new"),
    path("shows/<uuid:ref>/events/<uuid:event_ref>/edit/", events.event_edit, name="event_edit"),
    path("shows/<uuid:ref>/events/<uuid:event_ref>/end/", events.event_end, name="event_end"),
    path("shows/<uuid:ref>/paperwork/", paperwork.paperwork_receive, name="paperwork_receive"),
    path("shows/<uuid:ref>/paperwork/<uuid:paperwork_ref>/", paperwork.paperwork_preview, name="paperwork_preview"),
    path(
        "shows/<uuid:ref>/paperwork/<uuid:paperwork_ref>/accept/", paperwork.paperwork_accept, name="paperwork_accept"
    ),
    path(
        "shows/<uuid:ref>/paperwork/<uuid:paperwork_ref>/as-it-came/", paperwork.paperwork_file, name="paperwork_file"
    ),
    path("shows/<uuid:ref>/fit/", fit.fit, name="fit"),
    path("shows/<uuid:ref>/fit/decide/", fit.fit_decide, name="fit_decide"),
    path("shows/<uuid:ref>/fit/decisions/<uuid:decision_ref>/end/", fit.decision_end, name="decision_end"),
    path("shows/<uuid:ref>/compare/", compare.compare, name="compare"),
    path("shows/<uuid:ref>/compare/way/", compare.way_choose, name="way_choose"),
    path("shows/<uuid:ref>/compare/statement/", compare.statement_apply, name="statement_apply"),
    path("shows/<uuid:ref>/compare/reading/", compare.reading_apply, name="reading_apply"),
    path("shows/<uuid:ref>/compare/obey/", compare.numbers_obey, name="numbers_obey"),
    path("shows/<uuid:ref>/compare/renumbered.csv", compare.renumbered, name="renumbered"),
    path("shows/<uuid:ref>/places/", places.place_list, name="place_list"),
    path("shows/<uuid:ref>/places/<uuid:place_ref>/use/", places.place_use, name="place_use"),
    path("shows/<uuid:ref>/places/bring/", places.row_bring, name="row_bring"),
    path("shows/<uuid:ref>/places/bring/<uuid:position_ref>/", places.place_bring, name="place_bring"),
    path("shows/<uuid:ref>/assign/", places.assign, name="assign"),
    path("shows/<uuid:ref>/asks/", asks.ask_list, name="ask_list"),
    path("shows/<uuid:ref>/asks/show/", asks.show_asks, name="show_asks"),
    path("shows/<uuid:ref>/spots/<uuid:spot_ref>/asks/", asks.spot_asks, name="spot_asks"),
    path("shows/<uuid:ref>/colors/", colors.color_list, name="color_list"),
    path("shows/<uuid:ref>/colors/new/", colors.color_new, name="color_new"),
    path("shows/<uuid:ref>/colors/<uuid:color_ref>/edit/", colors.color_edit, name="color_edit"),
    path("shows/<uuid:ref>/colors/<uuid:color_ref>/end/", colors.color_end, name="color_end"),
    path("houses/<slug:slug>/today/", today.today, name="today"),
    path("houses/<slug:slug>/outlook/", outlook.outlook, name="outlook"),
]
