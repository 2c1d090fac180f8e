"""Pages of hours and lamps: the unit's hub, the quick entry, relamps, the shelf, a file of readings."""

from typing import Any

import time_machine
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.http import HttpResponse
from django.test import TestCase
from django.test.utils import CaptureQueriesContext

from tests.factories import ACTOR, make_unit, the_cast
from tests.venue.lamped import a_kind, a_lamp, a_unit, burned, day, fit, h, read
from tests.venue.pages import as_user, errors_of, send, shown_values, words
from venue.actions import add_hours
from venue.models import Fitting, Lamp, LampKind, Meter, Reading, Unit
from venue.models.meters import Cause
from venue.tallies import retally_house

NOW = day(30)
CAUTIONS = (
    "under pressure hot and cold",
    "at least 10 minutes",
    "Face shield",
    "Never touch the glass",
    "ultraviolet",
    "ozone",
    "maker's manual, local codes and a qualified person",
    "wait 20 minutes",
)


@time_machine.travel(NOW, tick=False)
class HourPagesTest(TestCase):
    """One unit with a meter from day 0 and a lamp in it, read on days 28 and 29; the head looks on day 30."""

    @classmethod
    def setUpTestData(cls) -> None:
        cls.cast = the_cast()
        cls.house = cls.cast.house
        cls.unit = a_unit(cls.house)
        cls.kind = a_kind(cls.house, keep_at_least=2, lead_days=14, opening_min=20.0)
        cls.lamp = a_lamp(cls.kind, "L-1")
        fit(cls.unit, 0, cls.lamp, 500)
        read(cls.unit, 28, 596)
        read(cls.unit, 29, 599.2)

    def setUp(self) -> None:
        self.client = as_user(self.cast.head)
        self.top = f"/houses/{self.house.slug}/"
        self.at = f"{self.top}units/{self.unit.ref}/"

    def sent(self, path: str, **changes: Any) -> HttpResponse:
        return send(self.client, self.at + path, **changes)

    # The unit's page

    def test_the_unit_tells_lamp_hours_limits_and_how_far(self) -> None:
        page = words(self.client.get(self.at))
        for told in ("99.2 of 1000 h, 900.8 h left", "within its life", "800.0 h, 1000.0 h", "599.2 h", "L-1"):
            assert told in page, told
        assert "days at the usual use" in page
        assert page.count("Lamp hours of FS-01 over the last year") == 1

    def test_readers_see_the_unit_and_are_offered_nothing_to_change(self) -> None:
        body = as_user(self.cast.reader).get(self.at).content.decode()
        for word in ("/read/", "/relamp/", "/meter/", "/hours/new/", "/strike/", "/lamp-out/", "/upload/", "/edit/"):
            assert word not in body, word

    def test_led_and_tungsten_units_show_no_nonsense_fields(self) -> None:
        led = make_unit(self.house, tag="FS-LED", source="LED")
        at = f"{self.top}units/{led.ref}/"
        page = words(self.client.get(at))
        for word in ("Strikes", "Fit a lamp", "lamp hours can't be told"):
            assert word not in page, word
        assert "strikes" not in self.client.get(f"{at}hours/new/").context["form"].fields
        tungsten = make_unit(self.house, tag="FS-TH", source="tungsten halogen")
        assert "strikes" not in self.client.get(f"{self.top}units/{tungsten.ref}/hours/new/").context["form"].fields
        assert "Fit a lamp" in words(self.client.get(f"{self.top}units/{tungsten.ref}/"))
        relamp = self.client.get(f"{self.top}units/{led.ref}/relamp/").context["form"]
        assert not {"isolated", "strikes", "meter_in_h", "fate"} & relamp.fields.keys()

    def test_a_retired_unit_can_be_looked_at_and_not_written_to(self) -> None:
        type(self.unit).objects.filter(pk=self.unit.pk).update(ended_at=NOW, ended_reason="sold")
        assert "Off the books since" in words(self.client.get(self.at))
        assert self.client.get(f"{self.at}read/").status_code == 404

    def test_the_book_is_shown_a_page_at_a_time_with_the_lamps_hours_at_each_line(self) -> None:
        meter = Meter.objects.get(unit=self.unit)
        rows = [
            Reading(meter=meter, at=day(number / 2 + 0.25), hours=h(500 + number), cause=Cause.BOOTH)
            for number in range(1, 56)
        ]
        Reading.objects.bulk_create(rows)
        retally_house(self.house)
        seen: list[tuple[Any, ...]] = []
        address = self.at
        while address:
            ledger = self.client.get(address).context["page"].ledger
            seen += [(line.row.at, line.row.what, line.row.meter_h, line.row.lamp_h) for line in ledger.lines]
            address = f"{self.at}?before={ledger.earlier:%Y-%m-%dT%H:%M:%SZ}" if ledger.earlier else ""
        readings = [(at, meter_h, lamp_h) for at, what, meter_h, lamp_h in seen if what == "reading"]
        assert len(readings) == 58
        assert readings == sorted(readings, reverse=True)
        assert all(lamp_h == meter_h - 500 for at, meter_h, lamp_h in readings if at > day(0))
        assert {what for _at, what, _m, _l in seen} == {"reading", "meter-fitted", "lamp-fitted"}

    def test_an_address_of_a_page_of_the_book_that_nobody_made_shows_the_last(self) -> None:
        for nonsense in ("yesterday", "2026-13-45T00:00Z", "2026-03-02T12:00", ""):
            page = self.client.get(self.at, {"before": nonsense}).context["page"]
            assert len(page.ledger.lines) == 5, nonsense

    def queries_of(self, path: str) -> int:
        with CaptureQueriesContext(
            connection,
        ) as queries:
            assert self.client.get(path).status_code == 200
        return len(queries)

    def fill_up(self, count: int) -> None:
        """So many more units, each with a meter and a lamp."""
        units = Unit.objects.bulk_create(Unit(house=self.house, tag=f"B-{n:02}") for n in range(count))
        Meter.objects.bulk_create(Meter(unit=unit, starts_at=day(0)) for unit in units)
        lamps = Lamp.objects.bulk_create(Lamp(house=self.house, kind=self.kind, serial=f"B-{n}") for n in range(count))
        pairs = zip(units, lamps, strict=True)
        Fitting.objects.bulk_create(Fitting(unit=unit, lamp=lamp, from_at=day(0)) for unit, lamp in pairs)
        retally_house(self.house)

    def test_pages_ask_as_many_queries_at_60_readings_and_units_as_at_2(self) -> None:
        paths = (self.at, f"{self.at}read/", f"{self.top}lamps/", f"{self.top}lamps/{self.lamp.ref}/")
        before = [self.queries_of(path) for path in paths]
        meter = Meter.objects.get(unit=self.unit)
        rows = [Reading(meter=meter, at=day(1 + n / 4), hours=h(500 + n), strikes=n) for n in range(60)]
        Reading.objects.bulk_create(rows)
        self.fill_up(58)
        assert [self.queries_of(path) for path in paths] == before

    # The quick entry

    def test_the_likely_next_is_there_and_the_question_names_the_night(self) -> None:
        page = self.client.get(f"{self.at}read/")
        assert str(page.context["form"]["hours"].value()) == "602.4"
        told = words(page)
        assert "Last: 599.2 h, last night" in told
        assert "3.2 h since last night: right?" in told

    def test_three_taps_put_the_reading_into_the_book_and_undo_takes_it_back(self) -> None:
        sent = self.sent("read/")
        assert sent.status_code == 302
        reading = Reading.objects.latest("pk")
        assert (reading.hours, reading.cause, reading.entered_by, burned(self.lamp)) == (
            h("602.40"), "booth", "Head", h("102.40"),
        )  # fmt: skip
        page = self.client.get(f"{self.at}read/")
        assert "602.4 h was entered just now." in words(page)
        assert self.client.post(f"{self.at}readings/{reading.ref}/undo/").status_code == 302
        assert burned(self.lamp) == h("99.20")
        assert Reading.objects.get(pk=reading.pk).is_struck
        assert self.client.post(f"{self.at}readings/{reading.ref}/undo/").status_code == 404

    def test_an_old_reading_is_not_undone_and_the_page_says_what_to_do(self) -> None:
        reading = Reading.objects.earliest("at")
        page = self.client.post(f"{self.at}readings/{reading.ref}/undo/", follow=True)
        assert "Strike it out and say why" in words(page)
        assert not Reading.objects.get(pk=reading.pk).is_struck

    def test_steps_of_a_tenth_store_nothing_and_keep_what_was_typed(self) -> None:
        typed = {"hours": "602.4", "strikes": "12"}
        page = self.client.post(f"{self.at}read/", {**typed, "step": "-0.1"})
        form = page.context["form"]
        assert (str(form["hours"].value()), form["strikes"].value()) == ("602.3", "12")
        assert "3.1 h since last night: right?" in words(page)
        for nonsense in (
            {"hours": "much", "step": "0.1"},
            {"hours": "602.4", "step": "500"},
            {"hours": "NaN", "step": "0.1"},
        ):
            assert self.client.post(f"{self.at}read/", nonsense).status_code == 200
        assert Reading.objects.count() == 3

    def test_a_reading_that_falls_is_refused_at_the_field_and_kept(self) -> None:
        sent = self.sent("read/", hours="498", strikes="5")
        assert "can't show less after that" in errors_of(sent)["hours"][0]
        assert shown_values(sent.context["form"])["hours"] == "498"
        assert "599.2 h" in words(sent)

    def test_an_odd_reading_is_asked_about_and_taken_after_a_yes(self) -> None:
        sent = self.sent("read/", hours="616.0")
        assert "more than 14 h in a day: right?" in words(sent)
        assert 'name="confirmed"' in sent.content.decode()
        assert Reading.objects.count() == 3
        assert self.sent("read/", hours="616.0", confirmed="on").status_code == 302
        assert burned(self.lamp) == h("116.00")

    def test_bad_input_names_the_field(self) -> None:
        wrong = {
            "hours": ("", "much", "-1", "1e9", "599.999"),
            "strikes": ("-1", "1.5"),
            "at": ("soon", "2026-04-30T10:00"),
        }
        for field, values in wrong.items():
            for value in values:
                assert field in errors_of(self.sent("read/", **{field: value})), (field, value)
        assert "at" in errors_of(self.sent("read/", at="2026-03-08T02:30"))

    def test_a_unit_without_a_meter_is_led_to_one(self) -> None:
        bare = make_unit(self.house, tag="FS-00")
        at = f"{self.top}units/{bare.ref}/"
        assert "Put its meter on file" in words(self.client.get(f"{at}read/"))
        assert send(self.client, f"{at}meter/", counts="lamp", starts_h="12.5").status_code == 302
        assert bare.meters.get().starts_h == h("12.5")
        again = send(self.client, f"{at}meter/", counts="lamp", starts_h="12.5")
        assert "in the way" in words(again)

    def test_hours_are_added_after_a_question_and_undone(self) -> None:
        asked = self.sent("hours/new/", hours="2")
        assert errors_of(asked)["confirmed"] == [
            "A meter counts on FS-01 at that time. Are these hours that it did not count?"
        ]
        assert self.sent("hours/new/", hours="2", confirmed="on").status_code == 302
        assert burned(self.lamp) == h("101.20")
        added = self.unit.hours_added.get()
        assert "2.0 h were added just now." in words(self.client.get(self.at))
        self.client.post(f"{self.at}hours/{added.ref}/undo/")
        assert burned(self.lamp) == h("99.20")

    def test_entries_are_struck_out_with_a_reason(self) -> None:
        reading = Reading.objects.latest("at")
        path = f"readings/{reading.ref}/strike/"
        assert "reason" in errors_of(self.sent(path, reason=""))
        assert self.sent(path, reason="misread", instead_h="598").status_code == 302
        assert burned(self.lamp) == h("98.00")
        page = words(self.client.get(self.at))
        assert "struck out by Head: misread" in page
        first = self.lamp.fittings.get().from_reading
        assert first is not None
        assert (
            "takes its place" in errors_of(self.sent(f"readings/{first.ref}/strike/", reason="misread"))["instead_h"][0]
        )
        added = add_hours(actor=ACTOR, unit=self.unit, at=day(29), hours=h(1), confirmed=True)
        assert self.sent(f"hours/{added.ref}/strike/", reason="twice").status_code == 302

    def test_a_meter_is_replaced_with_its_closing_reading_or_bridged(self) -> None:
        asked = self.sent("meter/replace/")
        assert "closing_h" in errors_of(asked)
        assert "closing_h" in errors_of(self.sent("meter/replace/", closing_h="590"))
        assert "gap_h" in errors_of(self.sent("meter/replace/", gap_h="90"))
        assert self.sent("meter/replace/", closing_h="601", starts_h="0").status_code == 302
        assert burned(self.lamp) == h("101.00")
        assert self.unit.meters.count() == 2

    # Relamps and the shelf

    def relamped(self, **changes: Any) -> HttpResponse:
        values = {"kind": self.kind.pk, "serial": "L-2", "meter_in_h": "602", "fate": "spent", "out_reason": "dim"}
        return self.sent("relamp/", **{**values, **changes})

    def test_the_relamp_shows_its_cautions_and_stays_open_until_answered(self) -> None:
        page = words(self.client.get(f"{self.at}relamp/"))
        for told in CAUTIONS:
            assert told in page, told
        assert self.relamped().status_code == 302
        entry = self.unit.log.get(meter_h=602)
        assert entry.is_open
        assert LampKind.objects.get(pk=self.kind.pk).spares == 1
        new = Lamp.objects.get(serial="L-2")
        assert (burned(self.lamp), burned(new)) == (h("102.00"), h("0.00"))
        assert Lamp.objects.get(pk=self.lamp.pk).ended_reason.endswith("dim")

    def test_an_answered_relamp_is_closed(self) -> None:
        said = dict.fromkeys(("isolated", "cooled", "protected", "aligned"), "yes")
        assert self.relamped(by="Hollis Varga", **said).status_code == 302
        entry = self.unit.log.get(meter_h=602)
        assert (entry.is_open, entry.by) == (False, "Hollis Varga")

    def test_a_lower_reading_at_a_relamp_wants_a_tick_that_the_meter_was_reset(self) -> None:
        assert "meter_in_h" in errors_of(self.relamped(meter_in_h="3"))
        assert self.unit.fittings.count() == 1
        assert self.relamped(meter_in_h="3", was_reset="on", meter_out_h="603").status_code == 302
        assert (burned(self.lamp), burned(Lamp.objects.get(serial="L-2"))) == (h("103.00"), h("0.00"))

    def test_a_relamp_names_what_is_missing_and_keeps_what_was_typed(self) -> None:
        shelf = a_lamp(self.kind, "L-9")
        for field, changes in {
            "lamp": {"kind": "", "serial": ""},
            "serial": {"serial": ""},
            "fate": {"fate": ""},
            "meter_in_h": {"meter_in_h": ""},
            "meter_out_h": {"meter_out_h": "601"},
            "at": {"at": "2027-01-01T10:00"},
        }.items():
            sent = self.relamped(**changes)
            assert field in errors_of(sent), field
            assert shown_values(sent.context["form"])["out_reason"] == "dim"
        assert "lamp" in errors_of(self.relamped(lamp=shelf.pk))
        assert "serial" in errors_of(self.relamped(serial="L-9"))
        assert self.unit.fittings.count() == 1

    def test_a_lamp_is_taken_out_put_on_the_shelf_and_off_the_books(self) -> None:
        assert self.sent("lamp-out/", meter_out_h="600", fate="shelf", out_reason="checked").status_code == 302
        again = self.sent("lamp-out/", meter_out_h="601", fate="shelf")
        assert "No lamp is in FS-01" in errors_of(again)["at"][0]
        lamp_page = f"{self.top}lamps/{self.lamp.ref}/"
        assert "on the shelf" in words(self.client.get(lamp_page))
        assert "fate" in errors_of(send(self.client, f"{lamp_page}end/", fate=""))
        assert send(self.client, f"{lamp_page}end/", fate="broken", reason="dropped").status_code == 302
        assert "dropped" in words(self.client.get(lamp_page))

    def test_a_decision_needs_a_name_a_source_and_a_reason(self) -> None:
        path = f"{self.top}lamps/{self.lamp.ref}/decide/"
        said = {"by": "Hollis Varga", "makers_source": "sheet, page 4", "reason": "spare is late", "until_h": "1100"}
        for field in said:
            assert field in errors_of(send(self.client, path, **{**said, field: ""})), field
        assert "until_h" in errors_of(send(self.client, path, **{**said, "until_h": "50"}))
        assert send(self.client, path, **said).status_code == 302
        assert "Hollis Varga: until 1100.0 h" in words(self.client.get(f"{self.top}lamps/{self.lamp.ref}/"))

    def test_using_one_of_two_spares_of_which_two_are_to_be_kept_asks_to_order(self) -> None:
        assert "Enough: 2 on the shelf, 0 on order, 2 to keep." in words(self.client.get(f"{self.top}lamps/"))
        self.relamped()
        assert "Order now: 1 on the shelf, 0 on order, 2 to keep." in words(self.client.get(f"{self.top}lamps/"))

    def test_spares_are_counted_and_a_stale_count_is_refused(self) -> None:
        path = f"{self.top}lamps/kinds/{self.kind.ref}/count/"
        assert "Until an order arrives, in 14 days" in words(self.client.get(path))
        assert send(self.client, path, spares="5", on_order="1").status_code == 302
        stale = self.client.post(path, {"spares": "1", "on_order": "0", "version": "1"})
        assert "Somebody else changed this" in words(stale)
        assert LampKind.objects.get(pk=self.kind.pk).spares == 5
        assert {"spares", "on_order"} <= errors_of(send(self.client, path, spares="-1", on_order="many")).keys()

    def test_kinds_are_added_changed_and_ended(self) -> None:
        new = f"{self.top}lamps/kinds/new/"
        assert send(self.client, new, name="575 W", source="metal halide", rated_h="750").status_code == 302
        assert "already" in words(send(self.client, new, name="575 w"))
        assert "rated_h" in errors_of(send(self.client, new, name="X", rated_h="0.5"))
        assert "no later than the stop" in words(send(self.client, new, name="X", warn_at="1.2", stop_at="1.0"))
        kind = LampKind.objects.get(name="575 W")
        path = f"{self.top}lamps/kinds/{kind.ref}/"
        assert send(self.client, f"{path}edit/", rated_h="500").status_code == 302
        assert send(self.client, f"{path}end/", reason="not bought any more").status_code == 302
        held = send(self.client, f"{self.top}lamps/kinds/{self.kind.ref}/end/", reason="old")
        assert "end or move that first" in words(held)

    def test_a_lamp_is_put_on_the_shelf_from_the_spares(self) -> None:
        path = f"{self.top}lamps/new/"
        assert send(self.client, path, kind=self.kind.pk, serial="L-7", is_from_spares="on").status_code == 302
        assert LampKind.objects.get(pk=self.kind.pk).spares == 1
        assert "serial" in errors_of(send(self.client, path, kind=self.kind.pk, serial="l-7"))
        assert {"kind", "serial"} <= errors_of(send(self.client, path)).keys()

    # A file

    def test_a_file_with_problems_comes_back_as_text_with_every_line_named(self) -> None:
        text = "unit,at,meter_h\nFS-01,2026-03-20 12:00,700\nFS-77,2026-03-20 12:00,5\n"
        file = SimpleUploadedFile("readings.csv", text.encode())
        sent = self.client.post(f"{self.top}readings/upload/", {"file": file})
        told = words(sent)
        assert "2 problems" in told
        assert "Line 2:" in told
        assert "Line 3: unit: “FS-77” is no unit of this house." in told
        assert sent.context["form"]["text"].value() == text
        good = text.replace("700", "580").replace("FS-77,2026-03-20 12:00,5\n", "")
        assert self.client.post(f"{self.top}readings/upload/", {"text": good}).status_code == 302
        assert Reading.objects.filter(cause="file").count() == 1

    def test_a_file_that_is_none_is_told(self) -> None:
        path = f"{self.top}readings/upload/"
        assert "file" in errors_of(self.client.post(path, {"text": ""}))
        binary = SimpleUploadedFile("a.csv", b"\x00\x01\x02")
        assert "file" in errors_of(self.client.post(path, {"file": binary}))
        large = SimpleUploadedFile("a.csv", b"x" * (2 * 1024 * 1024 + 1))
        assert "larger than 2 MB" in errors_of(self.client.post(path, {"file": large}))["file"][0]

    def test_lines_that_are_odd_are_loaded_after_a_yes(self) -> None:
        path, text = f"{self.top}readings/upload/", "unit,at,meter_h\nFS-01,2026-04-01 07:00,614\n"
        asked = self.client.post(path, {"text": text})
        assert "1 line is odd" in words(asked)
        assert Reading.objects.count() == 3
        assert self.client.post(path, {"text": text, "confirmed": "on"}).status_code == 302
        assert burned(self.lamp) == h("114.00")
