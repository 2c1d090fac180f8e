"""The two shapes that stand for one light: the show number, large in a pill, and the house label, small in a box."""

from dataclasses import dataclass

from venue.core.drawing.shapes import Box, Text, shortened, text_width

PILL_HEIGHT, LABEL_HEIGHT = 40.0, 19.0
NUMBER_SIZE, LABEL_SIZE = 24.0, 14.0
GAP = 4.0
_LONGEST_NUMBER, _LONGEST_LABEL = 8, 9
_ROUND = 2  # so many characters stand in a circle


@dataclass(frozen=True)
class Light:
    """One place: its label and tonight's number (None: spare), with what both are called in words."""

    slot: int
    label: str
    number: str | None
    words: str

    @property
    def shown_number(self) -> str:
        return shortened(self.number, _LONGEST_NUMBER) if self.number is not None else "–"

    @property
    def shown_label(self) -> str:
        return shortened(self.label, _LONGEST_LABEL)

    @property
    def number_size(self) -> float:
        return NUMBER_SIZE if len(self.shown_number) <= _ROUND else NUMBER_SIZE - 5.0

    @property
    def pill_width(self) -> float:
        if len(self.shown_number) <= _ROUND:
            return PILL_HEIGHT
        return text_width(self.shown_number, self.number_size) + 14.0

    @property
    def label_width(self) -> float:
        return max(LABEL_HEIGHT + 3.0, text_width(self.shown_label, LABEL_SIZE) + 8.0)

    def pill(self, x: float, y: float) -> tuple[Box | Text, ...]:
        """The show number about a point."""
        shape = "number-shape" if self.number is not None else "spare-shape"
        return (
            Box(x, y, self.pill_width, PILL_HEIGHT, shape, PILL_HEIGHT / 2),
            Text(x, y, self.shown_number, self.number_size, "number" if self.number is not None else "spare"),
        )

    def box(self, x: float, y: float) -> tuple[Box | Text, ...]:
        """The house label about a point."""
        return (
            Box(x, y, self.label_width, LABEL_HEIGHT, "label-shape", 2.0),
            Text(x, y, self.shown_label, LABEL_SIZE, "label"),
        )
