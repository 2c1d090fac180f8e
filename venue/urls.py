"""Addresses of the house's pages, and of signing in and out."""

from django.urls import converters, path, register_converter

from venue.views import houses, places, positions, setups, units
from venue.views.sessions import sign_in, sign_out
from venue.views.theme import choose_theme


class SlugConverter(converters.SlugConverter):
    """A house's short name; "new" is the address of the form for a new house."""

    regex = "(?!new/)[-a-zA-Z0-9_]+"


register_converter(SlugConverter, "house")

app_name = "venue"
urlpatterns = [
    path("sign-in/", sign_in, name="sign_in"),
    path("sign-out/", sign_out, name="sign_out"),
    path("theme/", choose_theme, name="choose_theme"),
    path("houses/<house:slug>/", houses.house_detail, name="house_detail"),
    path("houses/<house:slug>/edit/", houses.house_edit, name="house_edit"),
    path("houses/<house:slug>/setups/new/", setups.setup_new, name="setup_new"),
    path("houses/<house:slug>/setups/<uuid:ref>/edit/", setups.setup_edit, name="setup_edit"),
    path("houses/<house:slug>/setups/<uuid:ref>/walk/<uuid:position_ref>/", setups.walk, name="walk"),
    path("houses/<house:slug>/setups/<uuid:ref>/turn/<uuid:position_ref>/", setups.row_turn, name="row_turn"),
    path("houses/<house:slug>/rows/new/", positions.row_new, name="row_new"),
    path("houses/<house:slug>/positions/new/", positions.position_new, name="position_new"),
    path("houses/<house:slug>/positions/<uuid:ref>/", positions.position_detail, name="position_detail"),
    path("houses/<house:slug>/positions/<uuid:ref>/edit/", positions.position_edit, name="position_edit"),
    path("houses/<house:slug>/positions/<uuid:ref>/end/", positions.position_end, name="position_end"),
    path("houses/<house:slug>/positions/<uuid:ref>/places/new/", places.place_new, name="place_new"),
    path("houses/<house:slug>/places/<uuid:ref>/edit/", places.place_edit, name="place_edit"),
    path("houses/<house:slug>/places/<uuid:ref>/end/", places.place_end, name="place_end"),
    path("houses/<house:slug>/places/<uuid:ref>/stand/", places.place_stand, name="place_stand"),
    path("houses/<house:slug>/placements/<uuid:ref>/end/", places.placement_end, name="placement_end"),
    path("houses/<house:slug>/placements/<uuid:ref>/move/", places.placement_move, name="placement_move"),
    path("houses/<house:slug>/units/", units.unit_list, name="unit_list"),
    path("houses/<house:slug>/units/new/", units.unit_new, name="unit_new"),
    path("houses/<house:slug>/units/<uuid:ref>/edit/", units.unit_edit, name="unit_edit"),
    path("houses/<house:slug>/units/<uuid:ref>/end/", units.unit_end, name="unit_end"),
]
