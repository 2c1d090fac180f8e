"""A file of readings, or its lines pasted; what is wrong with it is kept beside the text, to be corrected there."""

from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.errors import DomainError, ReadingsFileRefused
from venue.forms.base import RefusedForm
from venue.readings_file import MOST_BYTES, JudgedFile, text_of


class ReadingsFileForm(RefusedForm):
    """One of both; the file's lines come back as text, so that nobody has to choose it again."""

    asked = ("file", "text")
    judged: JudgedFile | None = None

    file = forms.FileField(
        label=gettext_lazy("File"), required=False, help_text=gettext_lazy("CSV or text, up to 2 MB.")
    )
    text = forms.CharField(
        label=gettext_lazy("Or its lines"),
        required=False,
        strip=False,
        widget=forms.Textarea(attrs={"rows": 10, "spellcheck": "false", "wrap": "off"}),
        help_text=gettext_lazy(
            "First the columns: unit, at, meter_h, strikes. Then a line for each reading: FS-01, 2026-02-01 23:10, "
            "846.5, 131. Strikes may stay empty. Times are the house's own."
        ),
    )

    @property
    def confirmed(self) -> bool:
        """Whether the sender said that what is odd is right."""
        return self.data.get("confirmed") == "on"

    def clean_file(self) -> Any:
        """Refuse a file before it is read whole."""
        file = self.cleaned_data["file"]
        if file and file.size > MOST_BYTES:
            raise forms.ValidationError(_("The file is larger than 2 MB. Split it."))
        return file

    def clean(self) -> dict[str, Any]:
        """The file's text, if there is a file."""
        cleaned = super().clean() or {}
        file = cleaned.get("file")
        if file:
            cleaned["text"] = text_of(file.read())
            data = self.data.copy()  # type: ignore[attr-defined]
            data["text"] = cleaned["text"]
            self.data = data
        if not (cleaned.get("text") or "").strip() and not self.errors:
            self.add_error("file", _("Choose a file, or paste its lines below."))
        elif "\0" in (cleaned.get("text") or ""):
            self.add_error("file", _("This is no text. Save the list as CSV and send that."))
        return cleaned

    def refuse(self, refusal: DomainError) -> None:
        """Keep what the file says, line by line, for the page."""
        if isinstance(refusal, ReadingsFileRefused):
            self.judged = refusal.judged
            self.add_error("text", str(refusal))
        else:
            super().refuse(refusal)
