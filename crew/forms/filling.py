"""One form for a whole call: a person on each number, on one told at the spot talk, or beside the numbers."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from django import forms
from django.utils.text import capfirst
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy as _lazy

from crew.actions.filling import Seat
from crew.core.call_sheet import SheetLine
from crew.fill_marks import FillMarks
from crew.models import CallLine, Person
from crew.models.calls import LineRole
from crew.wording.people import apart_words, name_apart
from venue.core.labels import label_key
from venue.forms.base import VersionedForm

NOT_WANTED = "not-wanted"
WHY_PASSED = _lazy("The list is strict: why somebody earlier on it is passed over")


@dataclass(frozen=True)
class Row:
    """One choice of the form: its field, the light that it is for (None at the spot talk)."""

    field: forms.BoundField
    light: SheetLine | None

    @property
    def is_to_fill(self) -> bool:
        return not self.field.value()


class FillForm(VersionedForm):
    """A select a light and a select an operator at the spot talk, with one more of these to add somebody."""

    def __init__(
        self,
        *args: Any,
        lights: Sequence[SheetLine],
        standing: Iterable[CallLine],
        persons: Iterable[Person],
        marks: FillMarks,
        is_strict: bool = False,
        **kw: Any,
    ) -> None:
        super().__init__(*args, **kw)
        self.persons = {str(person.ref): person for person in persons}
        self.apart = apart_words(self.persons.values())
        self.marks = marks
        on = {(line.number_key, line.seat): line for line in standing}
        self.lights = {f"on-{label_key(light.number)}-{light.seat}": light for light in lights}
        for name, light in self.lights.items():
            seat = (label_key(light.number), light.seat)
            self._add(name, _light_label(light), [("", _("to fill")), *self._people(seat)], on.get(seat))
        bare = [line for line in on.values() if not line.number_key]
        self._add_talk([line for line in bare if line.role == LineRole.OPERATOR])
        self._add_hands([line for line in bare if line.role != LineRole.OPERATOR])
        if is_strict:
            self.fields["reason"] = forms.CharField(label=WHY_PASSED, max_length=200, required=False)

    def _people(self, seat: Seat) -> list[tuple[str, str]]:
        """Everybody on the roster, with what keeps them off the seat."""
        off = self.marks.at(seat)
        return [
            (ref, f"{name} — {off[person.pk]}" if person.pk in off else name)
            for ref, person in self.persons.items()
            for name in (name_apart(person, self.apart),)
        ]

    def _add_talk(self, lines: Sequence[CallLine]) -> None:
        label = _("Number told at the spot talk, operator %(seat)s")
        choices = [(NOT_WANTED, _("not wanted")), ("", _("to fill")), *self._people(("", 0))]
        for seat, line in enumerate(lines, start=1):
            self._add(f"talk-{seat}", label % {"seat": seat}, choices, line)
        more = len(lines) + 1
        self._add(f"talk-{more}", label % {"seat": more}, choices, None, initial=NOT_WANTED)

    def _add_hands(self, lines: Sequence[CallLine]) -> None:
        self.hand_lines = {f"hand-{line.seat}": line for line in lines}
        for name, line in self.hand_lines.items():
            self._add(
                name, capfirst(line.get_role_display()), [("", _("to fill")), *self._people(("", line.seat))], line
            )

    def _add(
        self, name: str, label: str, choices: list[tuple[str, str]], line: CallLine | None, initial: str = ""
    ) -> None:
        """The field; whoever is on the line may stay there even after leaving the roster."""
        person = line.person if line else None
        if person is not None:
            initial = str(person.ref)
            if initial not in self.persons:
                self.persons[initial] = person
                choices = [*choices, (initial, person.name)]
        self.fields[name] = forms.ChoiceField(label=label, choices=choices, initial=initial, required=False)

    @property
    def light_rows(self) -> list[Row]:
        return [Row(self[name], light) for name, light in self.lights.items()]

    @property
    def talk_rows(self) -> list[Row]:
        return [Row(self[name], None) for name in self.fields if name.startswith("talk-")]

    def clean(self) -> dict[str, Any]:
        """Nobody is in two places."""
        data: dict[str, Any] = super().clean() or {}
        first: dict[str, str] = {}
        for name, ref in list(data.items()):
            if ref not in self.persons or name == "version":
                continue
            if ref in first:
                told = {"name": self.persons[ref].name, "where": self.fields[first[ref]].label}
                self.add_error(name, _("%(name)s is on this call already: %(where)s.") % told)
            first.setdefault(ref, name)
        return data

    @property
    def hand_rows(self) -> list[Row]:
        return [Row(self[name], None) for name in self.hand_lines]

    @property
    def hands(self) -> dict[int, Person | None]:
        """Who is chosen as head spot, spare or runner, by the seat of the line."""
        return {line.seat: self.persons.get(self.cleaned_data[name]) for name, line in self.hand_lines.items()}

    @property
    def people(self) -> dict[Seat, Person | None]:
        """Who is chosen for each light."""
        chosen = self.cleaned_data
        return {(light.number, light.seat): self.persons.get(chosen[name]) for name, light in self.lights.items()}

    @property
    def at_spot_talk(self) -> list[Person | None]:
        """Who is chosen at the spot talk, None for one still to fill."""
        chosen = [self.cleaned_data[name] for name in self.fields if name.startswith("talk-")]
        return [self.persons.get(ref) for ref in chosen if ref != NOT_WANTED]


def _light_label(light: SheetLine) -> str:
    told = {"number": light.number, "label": light.label, "position": light.position}
    if not light.label:
        return _("show %(number)s, no place yet") % told
    return _("show %(number)s / house %(label)s, %(position)s") % told
