"""Paperwork in: a file, or text pasted."""

from pathlib import PurePath
from typing import Any

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from shows.core.paperwork import MAX_BYTES
from shows.models import Media
from shows.workbooks import is_workbook
from venue.forms.base import RefusedForm


class PaperworkForm(RefusedForm):
    """One of both: the file as the tour sent it, or its lines pasted."""

    asked = ("file", "text")

    file = forms.FileField(
        label=gettext_lazy("File"), required=False, help_text=gettext_lazy("CSV, XLSX or text, up to 5 MB.")
    )
    text = forms.CharField(
        label=gettext_lazy("Or paste the lines here"),
        required=False,
        max_length=MAX_BYTES // 4,
        strip=False,
        widget=forms.Textarea(attrs={"rows": 8, "spellcheck": "false"}),
        help_text=gettext_lazy(
            "One spot a line, its number first. A line such as “Numbering: stage right to stage left” says how "
            "it counts."
        ),
    )

    def clean_file(self) -> Any:
        """Refuse a file before it is read whole."""
        file = self.cleaned_data["file"]
        if file and file.size > MAX_BYTES:
            raise forms.ValidationError(_("The file is larger than 5 MB. Save the list of spots only."))
        return file

    def clean(self) -> dict[str, Any]:
        """Exactly one of both."""
        cleaned = super().clean() or {}
        has_text = bool((cleaned.get("text") or "").strip())
        if cleaned.get("file") and has_text:
            self.add_error("text", _("There is a file and a pasted text. Send one of them."))
        elif not cleaned.get("file") and not has_text and not self.errors:
            self.add_error("file", _("Choose a file, or paste the lines below."))
        return cleaned

    def received(self) -> dict[str, Any]:
        """Content, media and file name for the verb."""
        file = self.cleaned_data.get("file")
        if not file:
            return {"content": self.cleaned_data["text"].encode(errors="replace"), "media": Media.TEXT}
        content = file.read()
        media = Media.XLSX if is_workbook(content) else Media.CSV
        return {"content": content, "media": media, "file_name": PurePath(file.name).name}


class StatementForm(forms.Form):
    """How the show counts, in somebody's own words."""

    statement = forms.CharField(
        label=gettext_lazy("How does the show count?"),
        required=False,
        max_length=600,
        help_text=gettext_lazy("Such as: stage right to stage left; clockwise from 12 o'clock; odd house left."),
    )
    version = forms.IntegerField(widget=forms.HiddenInput, min_value=1, max_value=2**31 - 1)
