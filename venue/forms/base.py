"""What the forms of the house have in common: the version that was shown, refusals, sections."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, ClassVar

from django import forms
from django.forms.boundfield import BoundField
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.core.lengths import UnitSystem
from venue.errors import DomainError, Invalid, StaleVersion
from venue.models import Versioned
from venue.wording_positions import length_words

NOT_RECORDED = ("", gettext_lazy("not recorded"))
Section = tuple[str | Promise, Sequence[str]]


class RefusedForm(forms.Form):
    """A form that shows what a verb refused, at its field where there is one, and loses nothing typed.

    `sections` group the fields under headings; a field in no section stands in the first. `at_field` says
    which field a column came from, `asked` which fields one of the choices needs: of those no page says that
    they may stay empty.
    """

    sections: ClassVar[Sequence[Section]] = ()
    at_field: ClassVar[Mapping[str, str]] = {}
    asked: ClassVar[Sequence[str]] = ()
    stale: StaleVersion | None = None

    def refuse(self, refusal: DomainError) -> None:
        """Show the refusal."""
        if not isinstance(refusal, Invalid):
            self.add_error(None, str(refusal))
            return
        for column, messages in refusal.problems.items():
            field = self.at_field.get(column, column)
            for message in messages:
                self.add_error(field if field in self.fields else None, message)

    def shown_sections(self) -> Iterator[tuple[str | Promise, list[BoundField]]]:
        """Each heading with its fields, those that no section names first and without one."""
        named = {name for _title, names in self.sections for name in names}
        rest = [field for field in self.visible_fields() if field.name not in named]
        if rest:
            yield "", rest
        for title, names in self.sections:
            fields = [self[name] for name in names if name in self.fields]
            if fields:
                yield title, fields


class VersionedForm(RefusedForm):
    """A form about a stored row, which carries the version that it showed."""

    system: UnitSystem = "metric"
    version = forms.IntegerField(widget=forms.HiddenInput, min_value=1, max_value=2**31 - 1)

    def __init__(self, *args: Any, row: Versioned, **options: Any) -> None:
        options["initial"] = {"version": row.version, **(options.get("initial") or {})}
        super().__init__(*args, **options)
        self.row = row
        self.fields["version"].error_messages["required"] = _("Load the page anew, then send it again.")

    def get_initial_for_field(self, field: forms.Field, field_name: str) -> Any:
        """A whole number without its ".0"."""
        value = super().get_initial_for_field(field, field_name)
        return int(value) if isinstance(value, float) and value.is_integer() else value

    @property
    def seen(self) -> int:
        """The version that the user was shown."""
        return int(self.cleaned_data["version"])

    def refuse(self, refusal: DomainError) -> None:
        """Show the refusal; a stale form takes over the stored version, so that sending it again stores it."""
        super().refuse(refusal)
        if isinstance(refusal, StaleVersion):
            self.stale = refusal
            now = str(refusal.stored.version)  # type: ignore[attr-defined]
            data = self.data.copy()  # type: ignore[attr-defined]
            data[self.add_prefix("version")] = now
            self.data = data

    def both(self) -> list[tuple[str, str, str]]:
        """For a stale form: each value that differs, as (name, stored now, sent just now)."""
        if self.stale is None:
            return []
        stored, sent = self.stale.stored, self.stale.submitted
        fields = {field.attname: field for field in stored._meta.concrete_fields}
        return [
            (str(field.verbose_name), self._shown(field, getattr(stored, name)), self._shown(field, sent[name]))
            for name, field in fields.items()
            if name in sent and field.editable and not name.endswith("_text")  # told by its length
            if getattr(stored, name) != sent[name]
        ]

    def _shown(self, field: Any, value: Any) -> str:
        if value is None or value == "":
            return _("not recorded")
        if field.is_relation:
            return str(field.related_model._base_manager.filter(pk=value).first() or value)
        if field.name.endswith("_m"):
            return length_words(field.name, value, self.system)
        return str(dict(field.flatchoices).get(value, value))


class EndForm(VersionedForm):
    """Why a row ends."""

    reason = forms.CharField(label=gettext_lazy("Why does it end?"), max_length=200)
    at_field: ClassVar[Mapping[str, str]] = {"ended_reason": "reason"}
