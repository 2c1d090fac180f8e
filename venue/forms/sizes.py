"""The house's own diameter of a usual size."""

from collections.abc import Mapping
from typing import Any, ClassVar

from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from venue.core.lengths import Length
from venue.forms.base import VersionedForm
from venue.forms.lengths import LengthField, require_within, use_units, written_back
from venue.models import PickUpSize
from venue.models.optics import DIAMETER
from venue.sizes import default_of


class SizeForm(VersionedForm):
    """How wide the pool of a size is across the beam. Empty: the default again."""

    diameter = LengthField(label=gettext_lazy("Diameter across the beam"))
    at_field: ClassVar[Mapping[str, str]] = {"diameter_m": "diameter", "diameter_text": "diameter"}

    def __init__(self, *args: Any, row: PickUpSize, **options: Any) -> None:
        system = row.house.unit_system
        is_own = row.diameter_text or row.diameter_m != default_of(row.size)
        shown = written_back(row.diameter_m, row.diameter_text, system) if is_own else ""
        super().__init__(*args, row=row, initial={"diameter": shown}, **options)
        use_units(self, system)
        if row._state.adding:
            del self.fields["version"]

    def clean(self) -> dict[str, Any]:
        """A diameter that a beam may have."""
        cleaned = super().clean() or {}
        require_within(self, "diameter", DIAMETER, _("A pool is from 4 inches (0.1 m) to 65 feet (20 m) wide."))
        return cleaned

    @property
    def seen(self) -> int:
        """The version that the user was shown; that of a new row where nothing is stored yet."""
        return int(self.cleaned_data.get("version") or self.row.version)

    @property
    def typed(self) -> Length | None:
        """What was written; None: the default."""
        length: Length | None = self.cleaned_data["diameter"]
        return length
