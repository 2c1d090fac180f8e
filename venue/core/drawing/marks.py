"""The two shapes that stand for one light: the show number, large in a pill, and the house label, small in a box."""

from dataclasses import dataclass

from venue.core.drawing.shapes import Box, Text, shortened, text_width

PILL_HEIGHT, LABEL_HEIGHT = 40.0, 19.0
GAP = 4.0
_LONGEST_NUMBER, _LONGEST_LABEL = 8, 9
_ROUND = 2  # so many characters stand in a circle
_LONG_SHARE = 0.8  # of the type's size, for a number that is longer


@dataclass(frozen=True)
class Proportions:
    """How high both shapes are and how large the type in them [drawing units]."""

    pill_height: float
    number_size: float
    label_height: float
    label_size: float


LARGE = Proportions(PILL_HEIGHT, 24.0, LABEL_HEIGHT, 14.0)
"""Where the numbers are what is looked for."""
SMALL = Proportions(28.0, 18.0, 18.0, 13.0)
"""Where they stand on a plan to scale."""


@dataclass(frozen=True)
class Light:
    """One place: its label and tonight's number (None: spare), with what both are called in words."""

    slot: int
    label: str
    number: str | None
    words: str
    proportions: Proportions = LARGE

    @property
    def shown_number(self) -> str:
        return shortened(self.number, _LONGEST_NUMBER) if self.number is not None else "–"

    @property
    def shown_label(self) -> str:
        return shortened(self.label, _LONGEST_LABEL)

    @property
    def number_size(self) -> float:
        size = self.proportions.number_size
        return size if len(self.shown_number) <= _ROUND else size * _LONG_SHARE

    @property
    def pill_width(self) -> float:
        if len(self.shown_number) <= _ROUND:
            return self.proportions.pill_height
        return text_width(self.shown_number, self.number_size) + 14.0

    @property
    def label_width(self) -> float:
        return max(self.proportions.label_height + 3.0, text_width(self.shown_label, self.proportions.label_size) + 8.0)

    def pill(self, x: float, y: float) -> tuple[Box | Text, ...]:
        """The show number about a point."""
        height = self.proportions.pill_height
        shape = "number-shape" if self.number is not None else "spare-shape"
        return (
            Box(x, y, self.pill_width, height, shape, height / 2),
            Text(x, y, self.shown_number, self.number_size, "number" if self.number is not None else "spare"),
        )

    def box(self, x: float, y: float) -> tuple[Box | Text, ...]:
        """The house label about a point."""
        return (
            Box(x, y, self.label_width, self.proportions.label_height, "label-shape", 2.0),
            Text(x, y, self.shown_label, self.proportions.label_size, "label"),
        )
