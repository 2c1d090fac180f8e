"""Who meets what at every address of the site: one table, held against the two houses of the demo.

Members of nothing meet 404 wherever a row is named, readers 403 wherever something is changed, the road crew
404 at every house and at every show but its own. Nobody signed in is sent to the sign-in, public pages excepted.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta
from typing import Any

import pytest
import time_machine
from django.conf import settings
from django.core.cache import cache
from django.db import connection, transaction
from django.http import HttpResponse
from django.test import Client, TestCase
from django.urls import reverse

from crew.actions import add_person, add_template, issue_call_sheet, make_call, put_at_spot_talk
from crew.actions.feeds import renew_feed
from crew.actions.rules import make_rules
from crew.actions.tech_links import renew_tech_link
from crew.demo import load_demo
from crew.facts import CallFacts
from crew.models import Call, Roster
from shows.actions import add_color, decide, receive_paperwork
from shows.actions.advance import add_point
from shows.actions.arrival import note_blockage
from shows.actions.arrival_links import renew_advance_link, renew_arrival_link
from shows.core.fit.records import Finding
from shows.models import Decision, Engagement, Media
from tests.crew.asked import asked_rows
from tests.crew.peopled import people_rows
from tests.factories import ACTOR, NOON, make_user
from tests.test_urls import PUBLIC, all_addresses
from tests.venue.cared import cared
from tests.venue.lamped import hour_rows
from tests.venue.recorded import recorded
from venue.actions import confirm_walk
from venue.models import Event, House, User

ROLES = ("head", "road", "dispatch", "reader", "stranger", "nobody")
"""The four of the demo, somebody signed in who is a member of nothing, and nobody signed in."""
HEAD_ALONE = ("head",)
"""Opens nearly every page; who else may is decided by the same rows on both databases."""
OWN, OTHER = "lantern-street", "ellery-arena"
"""The house whose show is the road crew's own, and the other one."""

TABLE = """
                                                GET                             POST
address                   rows it names         head road disp read stra nobo   head road disp read stra nobo
venue:sign_in             -                     302  302  302  302  302  200    302  302  302  302  302  302
venue:sign_out            -                     405  405  405  405  405  302    302  302  302  302  302  302
venue:choose_theme        -                     405  405  405  405  405  405    302  302  302  302  302  302
venue:house_detail        house                 200  404  404  200  404  302    405  405  405  405  405  302
venue:house_edit          house                 200  404  404  403  404  302    302  404  404  403  404  302
venue:setup_new           house                 200  404  404  403  404  302    302  404  404  403  404  302
venue:setup_edit          house/setup           200  404  404  403  404  302    200  404  404  403  404  302
venue:walk                house/setup/position  200  404  404  200  404  302    302  404  404  403  404  302
venue:row_turn            house/setup/position  405  405  405  405  405  302    302  404  404  403  404  302
venue:row_new             house                 200  404  404  403  404  302    302  404  404  403  404  302
venue:position_new        house                 200  404  404  403  404  302    302  404  404  403  404  302
venue:position_detail     house/position        200  404  404  200  404  302    405  405  405  405  405  302
venue:position_edit       house/position        200  404  404  403  404  302    200  404  404  403  404  302
venue:position_end        house/position        200  404  404  403  404  302    200  404  404  403  404  302
venue:place_new           house/position        200  404  404  403  404  302    302  404  404  403  404  302
venue:place_edit          house/place           200  404  404  403  404  302    200  404  404  403  404  302
venue:place_end           house/place           200  404  404  403  404  302    200  404  404  403  404  302
venue:place_stand         house/place           200  404  404  403  404  302    200  404  404  403  404  302
venue:placement_end       house/stay            200  404  404  403  404  302    302  404  404  403  404  302
venue:placement_move      house/stay            200  404  404  403  404  302    200  404  404  403  404  302
venue:unit_list           house                 200  404  404  200  404  302    405  405  405  405  405  302
venue:unit_new            house                 200  404  404  403  404  302    302  404  404  403  404  302
venue:unit_edit           house/unit            200  404  404  403  404  302    200  404  404  403  404  302
venue:unit_end            house/unit            200  404  404  403  404  302    200  404  404  403  404  302
venue:where               house                 200  404  404  200  404  302    405  405  405  405  405  302
venue:unit_stays          house/unit            200  404  404  200  404  302    405  405  405  405  405  302
venue:unit_away           house/unit            200  404  404  403  404  302    200  404  404  403  404  302
venue:unit_back           house/unit            200  404  404  403  404  302    200  404  404  403  404  302
venue:fault_list          house                 200  404  404  200  404  302    405  405  405  405  405  302
venue:fault_new           house                 200  404  404  403  404  302    200  404  404  403  404  302
venue:fault_edit          house/fault           200  404  404  403  404  302    200  404  404  403  404  302
venue:fault_close         house/fault           200  404  404  403  404  302    302  404  404  403  404  302
venue:unit_fault_new      house/unit            200  404  404  403  404  302    302  404  404  403  404  302
venue:log_list            house                 200  404  404  200  404  302    405  405  405  405  405  302
venue:log_new             house                 200  404  404  403  404  302    302  404  404  403  404  302
venue:log_detail          house/entry           200  404  404  200  404  302    405  405  405  405  405  302
venue:log_edit            house/entry           200  404  404  403  404  302    200  404  404  403  404  302
venue:log_strike          house/entry           200  404  404  403  404  302    302  404  404  403  404  302
venue:relamp_answer       house/entry           200  404  404  403  404  302    302  404  404  403  404  302
venue:log_attach          house/entry           200  404  404  403  404  302    200  404  404  403  404  302
venue:log_file            house/entry/file      200  404  404  200  404  302    405  405  405  405  405  302
venue:unit_log_new        house/unit            200  404  404  403  404  302    302  404  404  403  404  302
venue:care_list           house                 200  404  404  200  404  302    405  405  405  405  405  302
venue:care_done           house/item            405  405  405  405  405  302    302  404  404  403  404  302
venue:care_plan_list      house                 200  404  404  200  404  302    405  405  405  405  405  302
venue:care_plan_new       house                 200  404  404  403  404  302    302  404  404  403  404  302
venue:care_plan_edit      house/plan            200  404  404  403  404  302    200  404  404  403  404  302
venue:care_plan_end       house/plan            200  404  404  403  404  302    302  404  404  403  404  302
venue:light_list          house/unit            200  404  404  200  404  302    405  405  405  405  405  302
venue:light_new           house/unit            200  404  404  403  404  302    302  404  404  403  404  302
venue:house_plan          house                 200  404  404  200  404  302    405  405  405  405  405  302
venue:house_section       house                 200  404  404  200  404  302    405  405  405  405  405  302
venue:throw_list          house                 200  404  404  200  404  302    405  405  405  405  405  302
venue:place_light         house/place           200  404  404  200  404  302    405  405  405  405  405  302
venue:position_reach      house/position        200  404  404  200  404  302    405  405  405  405  405  302
venue:matching            house                 200  404  404  200  404  302    405  405  405  405  405  302
venue:load_list           house                 200  404  404  200  404  302    405  405  405  405  405  302
venue:circuit_list        house                 200  404  404  200  404  302    405  405  405  405  405  302
venue:circuit_new         house                 200  404  404  403  404  302    302  404  404  403  404  302
venue:circuit_edit        house/circuit         200  404  404  403  404  302    200  404  404  403  404  302
venue:circuit_end         house/circuit         200  404  404  403  404  302    302  404  404  403  404  302
venue:filter_list         house                 200  404  404  200  404  302    405  405  405  405  405  302
venue:filter_new          house                 200  404  404  403  404  302    302  404  404  403  404  302
venue:filter_edit         house/filter          200  404  404  403  404  302    200  404  404  403  404  302
venue:filter_end          house/filter          200  404  404  403  404  302    302  404  404  403  404  302
venue:size_list           house                 200  404  404  200  404  302    405  405  405  405  405  302
venue:size_edit           house/size            200  404  404  403  404  302    302  404  404  403  404  302
venue:area_list           house/setup           200  404  404  200  404  302    405  405  405  405  405  302
venue:area_new            house/setup           200  404  404  403  404  302    302  404  404  403  404  302
venue:area_edit           house/area            200  404  404  403  404  302    200  404  404  403  404  302
venue:area_end            house/area            200  404  404  403  404  302    302  404  404  403  404  302
venue:blockage_new        house/position        200  404  404  403  404  302    302  404  404  403  404  302
venue:blockage_edit       house/blockage        200  404  404  403  404  302    200  404  404  403  404  302
venue:blockage_end        house/blockage        200  404  404  403  404  302    302  404  404  403  404  302
venue:unit_detail         house/unit            200  404  404  200  404  302    405  405  405  405  405  302
venue:reading_take        house/unit            200  404  404  403  404  302    302  404  404  403  404  302
venue:reading_undo        house/unit/reading    405  405  405  405  405  302    302  404  404  403  404  302
venue:reading_strike      house/unit/reading    200  404  404  403  404  302    200  404  404  403  404  302
venue:hours_add           house/unit            200  404  404  403  404  302    200  404  404  403  404  302
venue:hours_undo          house/unit/added      405  405  405  405  405  302    302  404  404  403  404  302
venue:hours_strike        house/unit/added      200  404  404  403  404  302    200  404  404  403  404  302
venue:meter_put           house/unit            200  404  404  403  404  302    200  404  404  403  404  302
venue:meter_replace       house/unit            200  404  404  403  404  302    200  404  404  403  404  302
venue:relamp              house/unit            200  404  404  403  404  302    200  404  404  403  404  302
venue:lamp_out            house/unit            200  404  404  403  404  302    200  404  404  403  404  302
venue:readings_upload     house                 200  404  404  403  404  302    200  404  404  403  404  302
venue:lamp_list           house                 200  404  404  200  404  302    405  405  405  405  405  302
venue:lamp_new            house                 200  404  404  403  404  302    200  404  404  403  404  302
venue:lamp_detail         house/lamp            200  404  404  200  404  302    405  405  405  405  405  302
venue:lamp_end            house/lamp            200  404  404  403  404  302    200  404  404  403  404  302
venue:lamp_decide         house/lamp            200  404  404  403  404  302    200  404  404  403  404  302
venue:lamp_kind_new       house                 200  404  404  403  404  302    302  404  404  403  404  302
venue:lamp_kind_edit      house/kind            200  404  404  403  404  302    200  404  404  403  404  302
venue:lamp_kind_end       house/kind            200  404  404  403  404  302    200  404  404  403  404  302
venue:spares_count        house/kind            200  404  404  403  404  302    200  404  404  403  404  302
shows:quick               -                     200  200  200  200  200  302    405  405  405  405  405  302
shows:quick_in_house      house                 200  404  404  200  404  302    405  405  405  405  405  302
shows:quick_keep          house                 200  404  404  403  404  302    302  404  404  403  404  302
shows:engagement_list     house                 200  404  404  200  404  302    405  405  405  405  405  302
shows:engagement_new      house                 200  404  404  403  404  302    200  404  404  403  404  302
shows:engagement_detail   show                  200  200  404  200  404  302    405  405  405  405  405  302
shows:engagement_edit     show                  200  200  404  403  404  302    200  200  404  403  404  302
shows:engagement_end      show                  200  200  404  403  404  302    302  302  404  403  404  302
shows:event_new           show                  200  200  404  403  404  302    302  302  404  403  404  302
shows:event_edit          show/event            200  200  404  403  404  302    302  302  404  403  404  302
shows:event_end           show/event            200  200  404  403  404  302    302  302  404  403  404  302
shows:paperwork_receive   show                  200  200  404  403  404  302    302  302  404  403  404  302
shows:paperwork_preview   show/sent             200  200  404  200  404  302    405  405  405  405  405  302
shows:paperwork_accept    show/sent             405  405  405  405  405  302    302  302  404  403  404  302
shows:paperwork_file      show/sent             200  200  404  200  404  302    405  405  405  405  405  302
shows:fit                 show                  200  200  404  200  404  302    405  405  405  405  405  302
shows:fit_decide          show                  302  302  404  403  404  302    302  302  404  403  404  302
shows:decision_end        show/decision         200  200  404  403  404  302    302  302  404  403  404  302
shows:propose             show                  200  200  404  200  404  302    200  200  404  403  404  302
shows:compare             show                  200  200  404  200  404  302    405  405  405  405  405  302
shows:way_choose          show                  405  405  405  405  405  302    302  302  404  403  404  302
shows:statement_apply     show                  405  405  405  405  405  302    302  302  404  403  404  302
shows:reading_apply       show                  405  405  405  405  405  302    302  302  404  403  404  302
shows:numbers_obey        show                  405  405  405  405  405  302    302  302  404  403  404  302
shows:renumbered          show                  200  200  404  200  404  302    405  405  405  405  405  302
shows:plan                show                  200  200  404  200  404  302    405  405  405  405  405  302
shows:place_list          show                  200  200  404  200  404  302    405  405  405  405  405  302
shows:place_use           show/place            405  405  405  405  405  302    302  302  404  403  404  302
shows:row_bring           show                  200  200  404  403  404  302    302  302  404  403  404  302
shows:place_bring         show/position         200  200  404  403  404  302    302  302  404  403  404  302
shows:assign              show                  200  200  404  403  404  302    200  200  404  403  404  302
shows:ask_list            show                  200  200  404  200  404  302    405  405  405  405  405  302
shows:show_asks           show                  200  200  404  403  404  302    302  302  404  403  404  302
shows:spot_asks           show/spot             200  200  404  403  404  302    302  302  404  403  404  302
shows:color_list          show                  200  200  404  200  404  302    405  405  405  405  405  302
shows:color_new           show                  200  200  404  403  404  302    302  302  404  403  404  302
shows:color_edit          show/color            200  200  404  403  404  302    200  200  404  403  404  302
shows:color_end           show/color            200  200  404  403  404  302    302  302  404  403  404  302
shows:arrival             show                  200  200  404  200  404  302    405  405  405  405  405  302
shows:arrival_link        show                  405  405  405  405  405  302    302  302  404  403  404  302
shows:arrival_link_off    show                  405  405  405  405  405  302    302  302  404  403  404  302
shows:arrival_place       show/place            200  200  404  200  404  302    302  302  404  403  404  302
shows:arrival_sign        show                  200  200  404  200  404  302    200  200  404  403  404  302
shows:arrival_numbers     show                  200  200  404  403  404  302    200  200  404  403  404  302
shows:arrival_blockage_end  show/banner         200  200  404  403  404  302    302  302  404  403  404  302
shows:arrive_numbers      arrival/key           200  200  200  200  200  200    200  200  200  200  200  200
shows:arrive_blockage_end  arrival/key/banner   200  200  200  200  200  200    302  302  302  302  302  302
shows:arrive              arrival/key           200  200  200  200  200  200    405  405  405  405  405  405
shows:arrive_place        arrival/key/place     200  200  200  200  200  200    302  302  302  302  302  302
shows:arrive_sign         arrival/key           200  200  200  200  200  200    200  200  200  200  200  200
shows:advance             show                  200  200  404  200  404  302    405  405  405  405  405  302
shows:advance_answer      show                  200  200  404  200  404  302    405  405  405  405  405  302
shows:advance_new         show                  200  200  404  403  404  302    302  302  404  403  404  302
shows:advance_note        show                  405  405  405  405  405  302    302  302  404  403  404  302
shows:advance_link        show                  405  405  405  405  405  302    302  302  404  403  404  302
shows:advance_link_off    show                  405  405  405  405  405  302    302  302  404  403  404  302
shows:advance_edit        show/point            200  200  404  403  404  302    302  302  404  403  404  302
shows:advance_done        show/point            200  200  404  403  404  302    302  302  404  403  404  302
shows:advance_again       show/point            405  405  405  405  405  302    302  302  404  403  404  302
shows:advance_end         show/point            200  200  404  403  404  302    302  302  404  403  404  302
shows:advance_read        advance/word          200  200  200  200  200  200    200  200  200  200  200  200
shows:advance_tell        advance/word/point    200  200  200  200  200  200    302  302  302  302  302  302
shows:after               show                  200  200  404  403  404  302    200  200  404  403  404  302
shows:copy                show                  200  403  404  403  404  302    302  403  404  403  404  302
shows:today               house                 200  404  404  200  404  302    405  405  405  405  405  302
shows:outlook             house                 200  404  404  200  404  302    405  405  405  405  405  302
crew:labels               house                 200  404  404  403  404  302    200  404  404  403  404  302
crew:out                  house                 200  404  404  200  404  302    405  405  405  405  405  302
crew:out_file             house                 200  404  404  200  404  302    405  405  405  405  405  302
crew:tech_sheet           house                   200  404  404  200  404  302    405  405  405  405  405  302
crew:tech_sheet_pdf       house                   200  404  404  200  404  302    405  405  405  405  405  302
crew:tech_link            house                   405  405  405  405  405  302    302  404  404  403  404  302
crew:tech_link_off        house                   405  405  405  405  405  302    302  404  404  403  404  302
crew:tech_public          link/secret             200  200  200  200  200  200    405  405  405  405  405  405
crew:tech_public_pdf      link/secret             200  200  200  200  200  200    405  405  405  405  405  405
crew:home                 -                     200  200  200  200  200  302    405  405  405  405  405  302
crew:looks                -                     200  200  200  200  200  302    405  405  405  405  405  302
crew:code                 code                  200  200  200  200  200  200    405  405  405  405  405  405
crew:house_new            -                     200  403  403  403  403  302    302  403  403  403  403  302
crew:roster               roster                200  404  200  404  404  302    405  405  405  405  405  302
crew:roster_settings      roster                200  404  200  404  404  302    302  404  302  404  404  302
crew:roster_serve         roster                200  404  200  404  404  302    200  404  200  404  404  302
crew:kind_new             roster                200  404  200  404  404  302    302  404  302  404  404  302
crew:kind_edit            roster/skill          200  404  200  404  404  302    302  404  302  404  404  302
crew:kind_end             roster/skill          200  404  200  404  404  302    302  404  302  404  404  302
crew:people_import        roster                200  404  200  404  404  302    200  404  200  404  404  302
crew:people_export        roster                200  404  200  404  404  302    405  405  405  405  405  302
crew:person_add           roster                200  404  200  404  404  302    302  404  302  404  404  302
crew:person               roster/person         200  404  200  404  404  302    405  405  405  405  405  302
crew:person_edit          roster/person         200  404  200  404  404  302    302  404  302  404  404  302
crew:person_return        roster/person         405  405  405  405  405  302    302  404  302  404  404  302
crew:person_forget        roster/person         200  404  200  404  404  302    200  404  200  404  404  302
crew:certification_new    roster/person         200  404  200  404  404  302    200  404  200  404  404  302
crew:certification_edit   roster/person/paper   200  404  200  404  404  302    302  404  302  404  404  302
crew:certification_end    roster/person/paper   200  404  200  404  404  302    302  404  302  404  404  302
crew:days_off_new         roster/person         200  404  200  404  404  302    302  404  302  404  404  302
crew:days_off_end         roster/person/off     200  404  200  404  404  302    302  404  302  404  404  302
crew:person_end           roster/person         200  404  200  404  404  302    200  404  200  404  404  302
crew:calls                -                     200  200  200  200  200  302    405  405  405  405  405  302
crew:call_new             event                 200  403  200  403  404  302    200  403  200  403  404  302
crew:call                 call                  200  403  200  403  404  302    405  405  405  405  405  302
crew:call_edit            call                  200  403  200  403  404  302    302  403  302  403  404  302
crew:call_end             call                  200  403  200  403  404  302    302  403  302  403  404  302
crew:line_who             call                  200  403  200  403  404  302    200  403  200  403  404  302
crew:call_propose         call                  200  403  200  403  404  302    200  403  200  403  404  302
crew:passed_over          call                  200  403  200  403  404  302    405  405  405  405  405  302
crew:call_fill            call                  405  405  405  405  405  302    302  403  302  403  404  302
crew:call_lines           call                  200  403  200  403  404  302    405  405  405  405  405  302
crew:spot_talk            call                  200  403  200  403  404  302    405  405  405  405  405  302
crew:line_new             call                  200  403  200  403  404  302    302  403  302  403  404  302
crew:line_replace         call/line             200  403  200  403  404  302    302  403  302  403  404  302
crew:line_number          call/line             200  403  200  403  404  302    302  403  302  403  404  302
crew:line_time            call/line             200  403  200  403  404  302    302  403  302  403  404  302
crew:line_off             call/line             200  403  200  403  404  302    302  403  302  403  404  302
crew:template_list        roster                200  404  200  404  404  302    405  405  405  405  405  302
crew:template_new         roster                200  404  200  404  404  302    302  404  302  404  404  302
crew:template_edit        roster/template       200  404  200  404  404  302    302  404  302  404  404  302
crew:template_end         roster/template       200  404  200  404  404  302    302  404  302  404  404  302
crew:call_day             call                  200  403  200  403  404  302    200  403  200  403  404  302
crew:day_extra            call                  200  403  200  403  404  302    200  403  200  403  404  302
crew:day_line             call/line             200  403  200  403  404  302    200  403  200  403  404  302
crew:sign_in_pdf          call/a4               200  403  200  403  404  302    405  405  405  405  405  302
crew:call_hours           call                  200  403  200  403  404  302    405  405  405  405  405  302
crew:call_hours_file      call                  200  403  200  403  404  302    405  405  405  405  405  302
crew:show_hours           roster/show           200  404  200  404  404  302    405  405  405  405  405  302
crew:show_hours_file      roster/show           200  404  200  404  404  302    405  405  405  405  405  302
crew:person_hours         roster/person         200  404  200  404  404  302    405  405  405  405  405  302
crew:person_hours_file    roster/person         200  404  200  404  404  302    405  405  405  405  405  302
crew:roster_hours         roster                200  404  200  404  404  302    405  405  405  405  405  302
crew:roster_hours_file    roster                200  404  200  404  404  302    405  405  405  405  405  302
crew:rules                roster                200  404  200  404  404  302    405  405  405  405  405  302
crew:rules_start          roster                200  404  200  404  404  302    302  404  302  404  404  302
crew:rules_edit           roster/rules          200  404  200  404  404  302    302  404  302  404  404  302
crew:rules_follow         roster/rules          200  404  200  404  404  302    302  404  302  404  404  302
crew:rules_end            roster/rules          200  404  200  404  404  302    302  404  302  404  404  302
crew:offers               call                  200  403  200  403  404  302    405  405  405  405  405  302
crew:offer_new            call                  302  403  302  403  404  302    302  403  302  403  404  302
crew:offer_answer         call/offer            405  405  405  405  405  302    302  403  302  403  404  302
crew:outbox               roster                200  404  200  404  404  302    405  405  405  405  405  302
crew:message              roster/message        200  404  200  404  404  302    302  404  302  404  404  302
crew:person_link          roster/person         200  404  200  404  404  302    302  404  302  404  404  302
crew:person_link_off      roster/person         405  405  405  405  405  302    302  404  302  404  404  302
crew:mine                 mine/mine_secret      200  200  200  200  200  200    405  405  405  405  405  405
crew:mine_read            mine/mine_secret      405  405  405  405  405  405    302  302  302  302  302  302
crew:mine_answer          mine/mine_secret/question  405  405  405  405  405  405    302  302  302  302  302  302
crew:mine_seen            mine/mine_secret/line/n  405  405  405  405  405  405    302  302  302  302  302  302
crew:mine_calendar        mine/mine_secret/call 200  200  200  200  200  200    405  405  405  405  405  405
crew:sheet_issue          call                  405  405  405  405  405  302    302  403  302  403  404  302
crew:draft_pdf            call/a4               200  403  200  403  404  302    405  405  405  405  405  302
crew:confirmations        call                  200  403  200  403  404  302    405  405  405  405  405  302
crew:line_confirm         call/line/n           405  405  405  405  405  302    302  403  302  403  404  302
crew:sheet_against        call/n/n              200  200  200  200  404  302    405  405  405  405  405  302
crew:sheet                call/n                200  200  200  200  404  302    405  405  405  405  405  302
crew:sheet_pdf            call/n/a4             200  200  200  200  404  302    405  405  405  405  405  302
crew:cards                call/n                200  200  200  200  404  302    405  405  405  405  405  302
crew:card                 call/n/n              200  200  200  200  404  302    405  405  405  405  405  302
crew:cards_pdf            call/n/a4             200  200  200  200  404  302    405  405  405  405  405  302
crew:frames               call/n                200  200  200  200  404  302    405  405  405  405  405  302
crew:frames_pdf           call/n/a4             200  200  200  200  404  302    405  405  405  405  405  302
crew:tapes                call/n                200  200  200  200  404  302    405  405  405  405  405  302
crew:tapes_pdf            call/n/a4             200  200  200  200  404  302    405  405  405  405  405  302
crew:chart                call/n                200  200  200  200  404  302    405  405  405  405  405  302
crew:chart_pdf            call/n/a4             200  200  200  200  404  302    405  405  405  405  405  302
crew:call_ics             call                  200  403  200  403  404  302    405  405  405  405  405  302
crew:feed                 feed/feed_secret      200  200  200  200  200  200    405  405  405  405  405  405
crew:house_feed           house                 200  404  404  403  404  302    302  404  404  403  404  302
crew:house_feed_off       house                 405  405  405  405  405  302    302  404  404  403  404  302
crew:person_feed          roster/person         200  404  200  404  404  302    302  404  302  404  404  302
crew:person_feed_off      roster/person         405  405  405  405  405  302    302  404  302  404  404  302
crew:arrival_check_pdf    show/a4               200  200  404  200  404  302    405  405  405  405  405  302
crew:arrival_qr           show/a4               405  405  405  405  405  302    302  302  404  403  404  302
"""

SENT: dict[str, dict[str, Any]] = {
    "venue:sign_in": {"username": "reader", "password": "reader-demo"},
    "venue:choose_theme": {"theme": "booth"},
    "venue:house_edit": {"name": "Lantern Street", "time_zone": "America/Chicago", "unit_system": "metric",
                         "day_turns_at": "05:00", "burn_before_min": 30, "usual_event_min": 180,
                         "use_window_days": 28, "version": 1},
    "venue:setup_new": {"name": "Thrust", "layout": "thrust", "prompt_side": "stage left", "twelve_deg": 0,
                        "target_side": "center", "target_height": "1.5 m"},
    "venue:walk": {"label": "1", "walked_by": "Hollis Varga"},
    "venue:row_turn": {"version": 1},
    "venue:row_new": {"name": "Cove", "zone": "front", "how_many": 2},
    "venue:position_new": {"name": "Cove", "zone": "front"},
    "venue:position_end": {"version": 1, "reason": "torn down"},
    "venue:place_new": {"label": "77", "way": "order", "row_order": 77},
    "venue:place_end": {"version": 1, "reason": "torn down"},
    "venue:placement_end": {"version": 1, "at": "2026-03-02T08:00"},
    "venue:unit_new": {"tag": "LS-77"},
    "venue:unit_end": {"version": 1, "reason": "sold"},
    # faults, the log, care, light
    "venue:fault_close": {"version": 1, "done": "cleaned", "by": "Hollis Varga", "at": "2026-03-02T06:00"},
    "venue:unit_fault_new": {"what": "limit:blackout", "part": "douser", "seen_by": "x", "at": "2026-03-02T05:30"},
    "venue:log_new": {"kind": "clean", "accessory": "gloves", "by": "x", "at": "2026-03-02T05:30"},
    "venue:unit_log_new": {"kind": "clean", "by": "x", "at": "2026-03-02T05:30"},
    "venue:log_strike": {"version": 1, "reason": "wrong unit"},
    "venue:relamp_answer": {"version": 1, "isolated": "yes"},
    "venue:care_plan_new": {"what": "look", "covers": "all", "every_days": 7, "log_kind": "inspect"},
    "venue:care_plan_end": {"version": 1, "reason": "not needed"},
    "venue:light_new": {"light": 150, "distance": "142'", "setting": "open", "by": "x", "at": "2026-03-02T05:30"},
    # circuits, filters, sizes, areas, what is in the way
    "venue:circuit_new": {"name": "FS-Z", "volts": 120},
    "venue:circuit_end": {"version": 1, "reason": "rewired"},
    "venue:filter_new": {"code": "C-77", "transmission_pct": 40},
    "venue:filter_end": {"version": 1, "reason": "used up"},
    "venue:size_edit": {"diameter": "2' 6\""},
    "venue:area_new": {"name": "Aisle", "kind": "aisle", "corners": "center, 1 m downstage\n1 m house left, 9 m "
                       "downstage\n1 m house right, 9 m downstage"},
    "venue:area_end": {"version": 1, "reason": "covered"},
    "venue:blockage_new": {"name": "speaker array"},
    "venue:blockage_end": {"version": 1, "reason": "flown out"},
    "venue:reading_take": {"hours": "1176.2"},
    "venue:lamp_kind_new": {"name": "A kind of lamp", "warn_at": "0.8", "stop_at": "1", "spares": "0"},
    "shows:quick_keep": {"zone": "front", "how_many": 2, "how_many_spots": 2, "counts": "house left to house right",
                         "row_name": "Cove", "show": "Salt Lanterns", "starts_on": "2026-04-01",
                         "ends_on": "2026-04-02"},
    "shows:engagement_new": {"name": "Salt Lanterns", "starts_on": "2026-04-01", "ends_on": "2026-04-02"},
    "shows:copy": {"house": OWN, "starts_on": "2026-05-01", "ends_on": "2026-05-02"},
    "shows:engagement_end": {"version": 3, "reason": "the tour is off"},
    "shows:event_new": {"kind": "focus", "day": "2026-03-04", "starts": "10:00"},
    "shows:event_edit": {"kind": "focus", "day": "2026-03-04", "starts": "10:00", "version": 1},
    "shows:event_end": {"version": 1, "reason": "not needed"},
    "shows:paperwork_receive": {"text": "1\n2\n3\n4"},
    "shows:paperwork_accept": {"version": 1},
    "shows:way_choose": {"way": "tape"},
    "shows:statement_apply": {"statement": "house right to house left", "version": 3},
    "shows:decision_end": {"reason": "the tour thinks otherwise"},
    "shows:place_use": {"in_use": "no", "version": 0},
    "shows:arrival_link": {"until": "2026-03-02T22:00"},
    "shows:arrival_place": {"by": "Hollis Varga", "label": "pass"},
    "shows:arrive_place": {"by": "Hollis Varga", "label": "pass"},
    "shows:arrival_blockage_end": {"reason": "flown out"},
    "shows:arrive_blockage_end": {"reason": "flown out", "by": "Hollis Varga"},
    "shows:advance_new": {"what": "gels sent ahead?", "owed_by": "tour", "due_on": "2026-03-01"},
    "shows:advance_note": {"point": "no-gel-by:"},
    "shows:advance_link": {"until": "2026-03-02T22:00"},
    "shows:advance_edit": {"version": 1, "what": "frames?", "owed_by": "house"},
    "shows:advance_done": {"version": 1, "answer": "six frames", "by": "Rowan Sedge"},
    "shows:advance_again": {"version": 1},
    "shows:advance_end": {"version": 1, "reason": "no matter any more"},
    "shows:advance_tell": {"version": 1, "answer": "six frames", "by": "Rowan Sedge"},
    "shows:place_bring": {"label": "77", "way": "order", "row_order": 77},
    "shows:row_bring": {"name": "Tour truss", "zone": "overhead", "how_many": 2},
    "shows:show_asks": {"version": 3, "on_camera": "no", "caller": "the show's own caller, from the desk"},
    "shows:spot_asks": {"version": 3, "frame_1": "C-1", "strip_out": "yes"},
    "shows:color_new": {"code": "C-77", "transmission_pct": 40},
    "shows:color_end": {"version": 1, "reason": "no longer in the show"},
    "crew:house_new": {"name": "Tarn Bowl", "slug": "tarn-bowl", "time_zone": "America/Chicago",
                       "unit_system": "imperial", "day_turns_at": "05:00", "layout": "bowl"},
    "crew:person_add": {"name": "Tove Brandauer"},
    "crew:person_end": {"reason": "moved away"},
    "crew:roster_settings": {"version": 2, "referral_order": "skill", "rest_min": 600, "late_after_min": 15},
    "crew:kind_new": {"name": "Fog and haze"},
    "crew:kind_edit": {"version": 1, "name": "Rope access, level 1"},
    "crew:kind_end": {"version": 1, "reason": "not used"},
    "crew:people_import": {"text": "name\nTove Brandauer"},
    "crew:person_edit": {"version": 1, "name": "Tove Brandauer", "phone": "555-0177"},
    "crew:person_forget": {"version": 1, "reason": "asked for it", "typed": "somebody else"},
    "crew:certification_edit": {"version": 1, "expires_on": "2027-03-31"},
    "crew:certification_end": {"version": 1, "reason": "lost"},
    "crew:days_off_new": {"first_day": "2026-04-05"},
    "crew:days_off_end": {"version": 1, "reason": "plans changed"},
    "crew:call_new": {"call_date": "2026-03-03", "call_time": "07:00"},
    "crew:call_edit": {"call_date": "2026-03-03", "call_time": "18:00", "version": 5},
    "crew:call_end": {"reason": "storm"},
    "crew:call_fill": {"version": 5},
    "crew:offer_answer": {"answer": "declined"},
    "crew:message": {"version": 1, "what": "told"},
    "crew:mine_answer": {"answer": "declined"},
    "crew:day_line": {"version": 0, "in_at": "2026-03-09T18:30"},
    "crew:rules_start": {"preset": "four-hour-calls"},
    "crew:rules_edit": {"version": 1, "name": "our agreement", "minimum_h": "4"},
    "crew:rules_follow": {"first_day": "2026-09-01"},
    "crew:rules_end": {"reason": "a new agreement"},
    "crew:line_new": {"role": "spare"},
    "crew:line_replace": {"person": "", "reason": "sick", "version": 1},
    "crew:line_number": {"light": "1:3", "version": 1},
    "crew:line_time": {"own_time": "18:00", "version": 1},
    "crew:line_off": {"reason": "sick"},
    "crew:template_new": {"name": "Load-in call", "call_before_min": 0, "ends_after_min": 0, "head_spots": 1,
                          "spares": 0, "runners": 0},
    "crew:template_edit": {"name": "Rehearsal call", "call_before_min": 60, "ends_after_min": 0, "head_spots": 1,
                           "spares": 0, "runners": 0, "version": 1},
    "crew:template_end": {"reason": "not used"},
}  # fmt: skip
"""What is sent by POST. Where nothing is named, or a unit still stands there, whoever may write sees the form again."""


@dataclass(frozen=True)
class Row:
    """A line of the table: which rows its address names, and the status for each role."""

    named: tuple[str, ...]
    get: dict[str, int]
    post: dict[str, int]


def read_table() -> dict[str, Row]:
    """The table by the name of the address; two lines for one name are refused."""
    table: dict[str, Row] = {}
    for line in TABLE.splitlines()[3:]:
        name, named, *cells = line.split()
        statuses = [int(cell) for cell in cells]
        assert name not in table, name
        assert len(statuses) == 2 * len(ROLES), name
        get, post = statuses[: len(ROLES)], statuses[len(ROLES) :]
        parts = () if named == "-" else tuple(named.split("/"))
        table[name] = Row(parts, dict(zip(ROLES, get, strict=True)), dict(zip(ROLES, post, strict=True)))
    return table


def is_refused_by_its_method(expected: dict[str, int]) -> bool:
    """Whether the address does not know the method, whoever signed in asks: that is decided before anything is read."""
    signed_in = {status for role, status in expected.items() if role != "nobody"}
    assert 405 not in signed_in or signed_in == {405}, expected
    return signed_in == {405}


def rows_of(slug: str) -> dict[str, Any]:
    """What stands in an address for each row of the house and its show; made is what the demo lacks."""
    house = House.objects.get(slug=slug)
    setup, position = house.setups.get(is_default=True), house.positions.earliest("pk")
    place, show = position.places.get(label="1"), house.engagements.earliest("pk")
    walked = {"left_end": place, "walked_by": "Hollis Varga", "walked_at": NOON}
    confirm_walk(actor=ACTOR, setup=setup, position=position, **walked)
    paper = receive_paperwork(actor=ACTOR, engagement=show, content=b"1\n2\n3\n4", media=Media.TEXT, at=NOON)
    roster = Roster.objects.get(roster_houses__house=house)
    call = call_for_show(show, roster)
    sheet = issue_call_sheet(actor=ACTOR, call=call, now=NOON).sheet
    stay = place.placements.get()
    rows = {"setup": setup, "position": position, "place": place, "stay": stay, "unit": stay.unit, "show": show,
            "event": show.events.get(kind="load-in"), "sent": paper, "roster": roster, "call": call}  # fmt: skip
    refs = {name: row.ref for name, row in rows.items()} | cared(stay.unit) | hour_rows(stay.unit, NOON)
    refs |= recorded(setup, place)
    person = roster.persons.first() or add_person(actor=ACTOR, roster=roster, name="Inga Sørlund")
    refs |= people_rows(roster, person)
    made = renew_tech_link(actor=ACTOR, house=house, now=NOON)
    line = call.lines.standing().first() or put_at_spot_talk(actor=ACTOR, call=call, person=person)
    refs["line"] = line.ref
    refs |= asked_rows(call, line)
    refs["template"] = add_template(actor=ACTOR, roster=roster, values={"name": "Usual call"}).ref
    color = add_color(actor=ACTOR, engagement=show, code="C-1", transmission_pct=62)
    refs |= {"spot": show.spots.standing()[0].ref, "color": color.ref}
    refs["decision"] = a_decision(show).ref
    refs |= {"link": made.link.ref, "secret": made.secret}
    feed = renew_feed(actor=ACTOR, subject=house, now=NOON)
    refs |= {"feed": feed.link.ref, "feed_secret": feed.secret}
    check = renew_arrival_link(actor=ACTOR, engagement=show, now=NOON, until=NOON + timedelta(hours=9))
    refs |= {"arrival": check.link.ref, "key": check.secret}
    noted = {"place": place, "words": "banner", "noted_on": NOON.date()}
    refs["banner"] = note_blockage(actor=ACTOR, engagement=show, **noted).ref
    asked = add_point(actor=ACTOR, engagement=show, what="Which frames?", owed_by="tour")
    told = renew_advance_link(actor=ACTOR, engagement=show, now=NOON, until=NOON + timedelta(hours=9))
    refs |= {"point": asked.ref, "advance": told.link.ref, "word": told.secret}
    own_rules = {"actor": ACTOR, "roster": roster, "house": house, "name": "ours", "rules": {"minimum_h": 4}}
    refs["rules"] = (roster.hour_rules.first() or make_rules(**own_rules)).ref
    return {**refs, "person": person.ref, "house": slug, "code": sheet.code.code, "n": 1, "a4": "a4"}


def a_decision(show: Engagement) -> Decision:
    """A decision on a finding of the show."""
    finding = Finding("light-short", "stops", "1", ways=("less-light",))
    facts = {"way": "less-light", "reason": "the tour agrees", "by": "Hollis Varga", "at": NOON}
    return decide(actor=ACTOR, engagement=show, spot=None, finding=finding, **facts)  # type: ignore[arg-type]


def call_for_show(show: Engagement, roster: Roster) -> Call:
    """The show's call, made where the demo has none."""
    event = show.events.get(kind="show")
    facts = CallFacts(call=event.starts_wall - timedelta(minutes=90))
    return event.calls.first() or make_call(actor=ACTOR, roster=roster, event=event, facts=facts)


def session_of(username: str) -> str:
    """The key of a session in which the user is signed in."""
    client = Client()
    client.force_login(User.objects.get(username=username))
    return client.cookies[settings.SESSION_COOKIE_NAME].value


@time_machine.travel(NOON, tick=False)
class EveryAddressTest(TestCase):
    """The demo, made once, with a member of nothing besides."""

    table = read_table()

    @classmethod
    def setUpTestData(cls) -> None:
        load_demo(now=NOON)
        make_user("stranger")
        make_user("site-operator", is_superuser=True)
        cls.own, cls.other = rows_of(OWN), rows_of(OTHER)
        cls.sessions = {name: session_of(name) for name in (*ROLES, "site-operator") if name != "nobody"}

    def setUp(self) -> None:
        cache.clear()

    def values(self, name: str, rows: dict[str, Any]) -> list[Any]:
        return [rows[part] for part in self.table[name].named]

    def status(self, role: str, method: str, name: str, rows: dict[str, Any]) -> int:
        return self.answer(role, method, name, rows).status_code

    def answer(self, role: str, method: str, name: str, rows: dict[str, Any]) -> HttpResponse:
        """The answer to one request; what it stored is taken back, and a refusal is seen to have stored nothing."""
        client = Client()
        if role != "nobody":
            client.cookies[settings.SESSION_COOKIE_NAME] = self.sessions[role]
        address, data = reverse(name, args=self.values(name, rows)), SENT.get(name, {}) if method == "post" else {}
        with transaction.atomic():
            before = Event.objects.count()
            response: HttpResponse = getattr(client, method)(address, data)
            stored = Event.objects.count() - before
            transaction.set_rollback(True)
        assert not stored or (method == "post" and response.status_code == 302), (role, method, name, stored)
        return response

    def each(self) -> Iterator[tuple[str, str, dict[str, int]]]:
        """Every address by both methods, with the status for each role."""
        for name, row in self.table.items():
            yield name, "get", row.get
            yield name, "post", row.post

    def each_answered(self) -> Iterator[tuple[str, str, dict[str, int]]]:
        """As `each`, without the methods that an address refuses whoever asks."""
        return (each for each in self.each() if not is_refused_by_its_method(each[2]))

    def test_the_table_names_every_address_of_the_site_and_no_other(self) -> None:
        assert sorted(self.table) == sorted(address.name for address in all_addresses())

    def test_each_role_meets_the_status_of_the_table(self) -> None:
        """All of them on SQLite; on another database the head, who may open and send nearly everything."""
        roles = ROLES if connection.vendor == "sqlite" else HEAD_ALONE
        for name, method, expected in self.each():
            asked = [role for role in roles if role in {"head", "nobody"} or not is_refused_by_its_method(expected)]
            with self.subTest(name=name, method=method):
                found = {role: self.status(role, method, name, self.own) for role in asked}
                assert found == {role: expected[role] for role in asked}

    @pytest.mark.pages
    def test_nobody_signed_in_is_sent_to_the_sign_in(self) -> None:
        for name, method, _expected in self.each():
            if name not in PUBLIC:
                with self.subTest(name=name, method=method):
                    response = self.answer("nobody", method, name, self.own)
                    assert response.status_code == 302
                    assert response["Location"].startswith(reverse("venue:sign_in") + "?next=")

    @pytest.mark.pages
    def test_a_superuser_who_is_a_member_of_nothing_is_a_stranger(self) -> None:
        for name, method, expected in self.each_answered():
            with self.subTest(name=name, method=method):
                assert self.status("site-operator", method, name, self.own) == expected["stranger"]

    @pytest.mark.pages
    def test_the_road_crew_meets_404_at_every_address_of_the_other_house_and_show(self) -> None:
        for name, method, _expected in self.each_answered():
            if self.table[name].named and name not in PUBLIC:
                with self.subTest(name=name, method=method):
                    assert self.status("road", method, name, self.other) == 404

    @pytest.mark.pages
    def test_a_row_of_one_house_is_not_found_under_the_address_of_another(self) -> None:
        for name, method, _expected in self.each_answered():
            first, *inner = self.table[name].named or ("",)
            if inner and first != "call" and inner not in (["size"], ["a4"]):  # the same everywhere
                with self.subTest(name=name, method=method):
                    assert self.status("head", method, name, {**self.other, first: self.own[first]}) == 404

    def test_heading_a_house_is_not_dispatching_its_roster(self) -> None:
        rosters = {"crew:roster": ("get", 404), "crew:person_add": ("post", 404), "crew:person_end": ("get", 404)}
        calls = {"crew:call": ("get", 200), "crew:sheet_issue": ("post", 302), "crew:call_fill": ("post", 403)}
        for name, (method, expected) in (rosters | calls).items():
            with self.subTest(name=name):
                assert self.status("head", method, name, self.other) == expected
