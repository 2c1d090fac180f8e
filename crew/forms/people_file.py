"""A file of people, or its lines pasted; shown before it is stored, and carried along until then."""

from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from crew.people_errors import PeopleFileRefused, PeopleNotStored
from crew.people_file import MOST_BYTES, MOST_PACKED, JudgedPeople, packed, unpacked
from venue.errors import DomainError
from venue.forms.base import RefusedForm
from venue.readings_file import text_of

MOST_IN_FIELD = 500_000
"""Characters of a file that come back as text to be corrected; a longer one is sent anew."""


class PeopleFileForm(RefusedForm):
    """A file or its lines; once they are shown, they are carried back packed, with the print of what was shown."""

    asked = ("file", "text")
    judged: JudgedPeople | None = None

    file = forms.FileField(label=gettext_lazy("File"), required=False, help_text=gettext_lazy("CSV, up to 5 MB."))
    text = forms.CharField(
        label=gettext_lazy("Or its lines"),
        required=False,
        strip=False,
        widget=forms.Textarea(attrs={"rows": 10, "spellcheck": "false", "wrap": "off"}),
        help_text=gettext_lazy(
            "First the columns: name, phone, email, experience, units known, seniority, grade, certifications, notes. "
            "Only the name is needed. Certifications: Climb and harness: 2027-03-31; Arc-lamp handling. A column may "
            "also be named after one of them and hold its last days."
        ),
    )
    carried = forms.CharField(widget=forms.HiddenInput, required=False, max_length=MOST_PACKED)
    shown = forms.CharField(widget=forms.HiddenInput, required=False, max_length=64)

    def clean_file(self) -> Any:
        """Refuse a file before it is read whole."""
        file = self.cleaned_data["file"]
        if file and file.size > MOST_BYTES:
            raise forms.ValidationError(_("The file is larger than 5 MB. Split it."))
        return file

    def clean(self) -> dict[str, Any]:
        """The text: of the file, else of the field, else what was carried along; confirmed is only the last."""
        cleaned = super().clean() or {}
        file, text = cleaned.get("file"), cleaned.get("text") or ""
        if file:
            text = text_of(file.read())
        is_carried = not text.strip() and bool(cleaned.get("carried"))
        if is_carried:
            text = unpacked(cleaned["carried"]) or ""
        cleaned["text"], cleaned["shown"] = text, cleaned.get("shown", "") if is_carried else ""
        if not text.strip() and not self.errors:
            self.add_error("file", _("Choose a file, or paste its lines below."))
        elif "\0" in text:
            self.add_error("file", _("This is no text. Save the list as CSV and send that."))
        self._show(text, is_carried)
        return cleaned

    def _show(self, text: str, is_carried: bool) -> None:
        """The file's lines stand in the field, so that nobody has to choose it again to correct one."""
        data = self.data.copy()  # type: ignore[attr-defined]
        data["text"] = "" if is_carried or len(text) > MOST_IN_FIELD else text
        self.data = data

    def refuse(self, refusal: DomainError) -> None:
        """Keep what came of the file, for the page."""
        if not isinstance(refusal, PeopleNotStored):
            super().refuse(refusal)
            return
        self.judged = refusal.judged
        if isinstance(refusal, PeopleFileRefused):
            self.add_error("text", str(refusal))
        else:
            self._carry(refusal)

    def _carry(self, refusal: PeopleNotStored) -> None:
        carried = packed(self.cleaned_data["text"])
        if len(carried) > MOST_PACKED:
            self.judged = None
            self.add_error("file", _("The file is too large to be shown before it is stored. Split it."))
            return
        data = self.data.copy()  # type: ignore[attr-defined]
        data["carried"], data["shown"] = carried, refusal.judged.fingerprint
        self.data = data
        if self.cleaned_data["shown"]:
            self.add_error(None, str(refusal))
