"""Addresses of the house's pages, and of signing in and out."""

from django.urls import converters, path, register_converter

from venue.views import (
    care,
    faults,
    houses,
    lamp_kinds,
    lamps,
    light,
    log,
    log_files,
    meters,
    moves,
    places,
    positions,
    readings,
    readings_file,
    setups,
    unit_page,
    units,
)
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
    # where units are
    path("houses/<house:slug>/where/", moves.where, name="where"),
    path("houses/<house:slug>/units/<uuid:ref>/stays/", moves.unit_stays, name="unit_stays"),
    path("houses/<house:slug>/units/<uuid:ref>/away/", moves.unit_away, name="unit_away"),
    path("houses/<house:slug>/units/<uuid:ref>/back/", moves.unit_back, name="unit_back"),
    # faults, the log, care, light
    path("houses/<house:slug>/faults/", faults.fault_list, name="fault_list"),
    path("houses/<house:slug>/faults/new/", faults.fault_new, name="fault_new"),
    path("houses/<house:slug>/faults/<uuid:ref>/edit/", faults.fault_edit, name="fault_edit"),
    path("houses/<house:slug>/faults/<uuid:ref>/close/", faults.fault_close, name="fault_close"),
    path("houses/<house:slug>/units/<uuid:ref>/faults/new/", faults.fault_new, name="unit_fault_new"),
    path("houses/<house:slug>/log/", log.log_list, name="log_list"),
    path("houses/<house:slug>/log/new/", log.log_new, name="log_new"),
    path("houses/<house:slug>/log/<uuid:ref>/", log.log_detail, name="log_detail"),
    path("houses/<house:slug>/log/<uuid:ref>/edit/", log.log_edit, name="log_edit"),
    path("houses/<house:slug>/log/<uuid:ref>/strike/", log.log_strike, name="log_strike"),
    path("houses/<house:slug>/log/<uuid:ref>/answer/", log.relamp_answer, name="relamp_answer"),
    path("houses/<house:slug>/log/<uuid:ref>/files/new/", log_files.log_attach, name="log_attach"),
    path("houses/<house:slug>/log/<uuid:entry_ref>/files/<uuid:ref>/", log_files.log_file, name="log_file"),
    path("houses/<house:slug>/units/<uuid:ref>/log/new/", log.log_new, name="unit_log_new"),
    path("houses/<house:slug>/care/", care.care_list, name="care_list"),
    path("houses/<house:slug>/care/<uuid:ref>/done/", care.care_item_done, name="care_done"),
    path("houses/<house:slug>/care/plans/", care.care_plan_list, name="care_plan_list"),
    path("houses/<house:slug>/care/plans/new/", care.care_plan_new, name="care_plan_new"),
    path("houses/<house:slug>/care/plans/<uuid:ref>/edit/", care.care_plan_edit, name="care_plan_edit"),
    path("houses/<house:slug>/care/plans/<uuid:ref>/end/", care.care_plan_end, name="care_plan_end"),
    path("houses/<house:slug>/units/<uuid:ref>/light/", light.light_list, name="light_list"),
    path("houses/<house:slug>/units/<uuid:ref>/light/new/", light.light_new, name="light_new"),
    # hours and lamps
    path("houses/<house:slug>/units/<uuid:ref>/", unit_page.unit_detail, name="unit_detail"),
    path("houses/<house:slug>/units/<uuid:ref>/read/", readings.reading_take, name="reading_take"),
    path(
        "houses/<house:slug>/units/<uuid:ref>/readings/<uuid:reading_ref>/undo/",
        readings.reading_undo,
        name="reading_undo",
    ),
    path(
        "houses/<house:slug>/units/<uuid:ref>/readings/<uuid:reading_ref>/strike/",
        readings.reading_strike,
        name="reading_strike",
    ),
    path("houses/<house:slug>/units/<uuid:ref>/hours/new/", readings.hours_add, name="hours_add"),
    path("houses/<house:slug>/units/<uuid:ref>/hours/<uuid:added_ref>/undo/", readings.hours_undo, name="hours_undo"),
    path(
        "houses/<house:slug>/units/<uuid:ref>/hours/<uuid:added_ref>/strike/",
        readings.hours_strike,
        name="hours_strike",
    ),
    path("houses/<house:slug>/units/<uuid:ref>/meter/", meters.meter_put, name="meter_put"),
    path("houses/<house:slug>/units/<uuid:ref>/meter/replace/", meters.meter_replace, name="meter_replace"),
    path("houses/<house:slug>/units/<uuid:ref>/relamp/", lamps.relamp, name="relamp"),
    path("houses/<house:slug>/units/<uuid:ref>/lamp-out/", lamps.lamp_out, name="lamp_out"),
    path("houses/<house:slug>/readings/upload/", readings_file.readings_upload, name="readings_upload"),
    path("houses/<house:slug>/lamps/", lamps.lamp_list, name="lamp_list"),
    path("houses/<house:slug>/lamps/new/", lamps.lamp_new, name="lamp_new"),
    path("houses/<house:slug>/lamps/<uuid:ref>/", lamps.lamp_detail, name="lamp_detail"),
    path("houses/<house:slug>/lamps/<uuid:ref>/end/", lamps.lamp_end, name="lamp_end"),
    path("houses/<house:slug>/lamps/<uuid:ref>/decide/", lamps.lamp_decide, name="lamp_decide"),
    path("houses/<house:slug>/lamps/kinds/new/", lamp_kinds.lamp_kind_new, name="lamp_kind_new"),
    path("houses/<house:slug>/lamps/kinds/<uuid:ref>/edit/", lamp_kinds.lamp_kind_edit, name="lamp_kind_edit"),
    path("houses/<house:slug>/lamps/kinds/<uuid:ref>/end/", lamp_kinds.lamp_kind_end, name="lamp_kind_end"),
    path("houses/<house:slug>/lamps/kinds/<uuid:ref>/count/", lamp_kinds.spares_count, name="spares_count"),
]
