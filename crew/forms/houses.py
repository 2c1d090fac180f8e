"""Opening a house from the browser."""

from collections.abc import Sequence
from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.errors import AlreadyExists, DomainError
from venue.forms.base import RefusedForm
from venue.forms.houses import HouseFacts
from venue.models.setups import Layout

TAKEN_ADDRESSES = {"new"}


class NewHouseForm(RefusedForm, HouseFacts):
    """What a house needs to begin with; the rest is added on its pages."""

    slug = forms.SlugField(
        label=gettext_lazy("Short name in addresses"),
        max_length=60,
        help_text=gettext_lazy("Small letters, digits and hyphens, such as lantern-street. It never changes."),
    )
    layout = forms.ChoiceField(label=gettext_lazy("How is it usually set up?"), choices=Layout.choices)

    class Meta(HouseFacts.Meta):
        fields: ClassVar[Sequence[str]] = ("name", "slug", "time_zone", "unit_system", "day_turns_at")

    def clean_slug(self) -> str:
        slug: str = self.cleaned_data["slug"].lower()
        if slug in TAKEN_ADDRESSES:
            raise forms.ValidationError(_("This short name is an address of its own. Choose another."))
        return slug

    @property
    def facts(self) -> dict[str, Any]:
        """What the verb takes."""
        own = dict(self.cleaned_data)
        return {"setup": {"layout": own.pop("layout")}, **own}

    def refuse(self, refusal: DomainError) -> None:
        """Of a new house only the short name can be another's."""
        if isinstance(refusal, AlreadyExists):
            self.add_error("slug", str(refusal))
        else:
            super().refuse(refusal)
