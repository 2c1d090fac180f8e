"""A drawing on paper: every word of it, inside its box, in ink that tells kinds apart."""

from collections.abc import Callable
from dataclasses import replace
from io import BytesIO

import pytest
from pypdf import PdfReader

from crew.sheets.drawn import CHART_FACES, FACES, LOOKS, draw
from crew.sheets.pen import A4, LETTER, Pen
from tests.shows.numbering_cases import even_ring, row_house
from tests.shows.test_drawing import drawn as compared
from tests.venue.drawn_houses import PLAN_WORDS, PROSCENIUM, row, texts
from tests.venue.test_bowl_plan import bowl, by_bearing, oval
from tests.venue.test_charts import CHARTS
from tests.venue.test_house_plan import AISLE, PIT, POOLS, plan, sides_and_booth
from tests.venue.test_section import BOOTH, WORDS, along, placed
from venue.core.drawing.house_plan import house_plan
from venue.core.drawing.section import center_section
from venue.core.drawing.shapes import Box, Drawing, Ellipse, Text, Trail

BOX = (40.0, 60.0, 300.0, 500.0)

DRAWINGS: dict[str, Callable[[], Drawing]] = {
    "house plan": lambda: plan(sides_and_booth(), pools=POOLS, areas=[PIT, AISLE]),
    "from the stage": lambda: plan(row(24, -30.0, 1.5), view="stage"),
    "bowl": lambda: bowl(oval(12)),
    "ring": lambda: bowl(by_bearing(20.0, 140.0, 300.0)),
    "throw": lambda: along(placed(BOOTH, has_glass=True)),
    "center line": lambda: center_section([placed(BOOTH)], PROSCENIUM, WORDS),
    "compared rows": lambda: compared(row_house(["1", "2", "3", "4"])),
    "compared ring": lambda: compared(even_ring(8)),
}


def sheet(drawing: Drawing, faces: object = FACES) -> bytes:
    pen = Pen(LETTER, "Drawing")
    draw(pen, drawing, *BOX, faces=faces)  # type: ignore[arg-type]
    pen.next_page()
    return pen.finished()


def read(content: bytes) -> list[tuple[str, float, float]]:
    """Every piece of text with where it begins: points from the left and from the top."""
    found: list[tuple[str, float, float]] = []

    def visit(text: str, cm: list[float], tm: list[float], _font: object, _size: float) -> None:
        if text.strip():
            x = tm[4] * cm[0] + tm[5] * cm[2] + cm[4]
            y = tm[4] * cm[1] + tm[5] * cm[3] + cm[5]
            found.append((text.strip(), x, LETTER.height - y))

    (page,) = PdfReader(BytesIO(content)).pages
    page.extract_text(visitor_text=visit)
    return found


@pytest.mark.parametrize("name", DRAWINGS)
def test_every_word_is_on_one_page_inside_its_box(name: str) -> None:
    drawing = DRAWINGS[name]()
    pieces = read(sheet(drawing))
    said = " ".join(piece for piece, _x, _y in pieces)
    assert sorted(said.split()) == sorted(" ".join(texts(drawing)).split())
    left, top, width, height = BOX
    assert all(left <= x <= left + width and top <= y <= top + height for _piece, x, y in pieces)


@pytest.mark.parametrize("name", CHARTS)
def test_charts_are_written_too(name: str) -> None:
    drawing = CHARTS[name]()
    said = " ".join(piece for piece, _x, _y in read(sheet(drawing, CHART_FACES)))
    assert sorted(said.split()) == sorted(" ".join(texts(drawing)).split())


def test_house_left_stays_at_the_left_and_the_top_at_the_top() -> None:
    at = {piece: (x, y) for piece, x, y in read(sheet(plan(row(4))))}
    assert at["HOUSE LEFT ·"][0] < at["HOUSE RIGHT ·"][0]
    assert at["HOUSE LEFT ·"][1] < at["STAGE"][1] < at["YOU, facing the stage"][1]


def test_the_drawing_is_as_large_as_its_box_lets_it_and_says_where_it_ends() -> None:
    drawing = plan(row(4))
    tall, flat = 9000.0, 100.0
    assert draw(Pen(A4, ""), drawing, 10.0, 20.0, 180.0, tall) == pytest.approx(
        20.0 + 180.0 * drawing.height / drawing.width
    )
    assert draw(Pen(A4, ""), drawing, 10.0, 20.0, 180.0, flat) == pytest.approx(120.0)


def test_the_same_drawing_gives_the_same_bytes() -> None:
    assert sheet(plan(row(12))) == sheet(plan(row(12)))


def test_every_kind_has_its_ink_or_its_face() -> None:
    shapes = [shape for make in (*DRAWINGS.values(), *CHARTS.values()) for shape in make().flat()]
    assert {shape.kind for shape in shapes if isinstance(shape, Text)} <= set(FACES)
    assert {shape.kind for shape in shapes if not isinstance(shape, Text)} <= set(LOOKS)
    named = set(LOOKS) | set(FACES)
    assert named - {shape.kind for shape in shapes} <= {"light", "change"}  # two strokes of charts


@pytest.mark.parametrize(
    "kinds",
    [
        ("throw", "plaster", "center", "leader", "wall", "stage-edge"),
        ("throw", "cone", "horizon", "deck", "deck-pool", "level"),
        ("number-shape", "spare-shape", "label-shape", "slot"),
        ("warn", "stop", "mates", "hours", "ahead"),
    ],
)
def test_what_stands_together_differs_without_color(kinds: tuple[str, ...]) -> None:
    inks = [(LOOKS[kind].weight, LOOKS[kind].gray, LOOKS[kind].dash) for kind in kinds]
    assert len(set(inks)) == len(kinds)


def test_text_that_runs_wide_in_our_face_is_set_smaller_to_keep_its_room() -> None:
    """W and M are wider than the room that a drawing reckons for a letter."""
    wide = Text(10.0, 20.0, "WWWWMMMM", 12.0, "note", "start")
    after = Text(wide.bounds[2], 20.0, "after", 12.0, "note", "start")
    drawing = Drawing(300.0, 500.0, (wide, after))
    reader = PdfReader(BytesIO(sheet(drawing)))
    sizes: dict[str, float] = {}
    reader.pages[0].extract_text(
        visitor_text=lambda text, _cm, tm, _font, size: sizes.__setitem__(text.strip(), size * tm[0])
    )
    assert sizes["WWWWMMMM"] < sizes["after"] == pytest.approx(12.0)


def test_shapes_at_the_edge_of_sense_are_drawn_without_harm() -> None:
    odd = (Trail((), "throw"), Box(5, 5, 0, 0, "slot", 4), Ellipse(5, 5, 0, 0, 30, "pool"), Text(5, 5, "", 12, "new"))
    assert read(sheet(Drawing(300.0, 500.0, odd))) == []


def test_characters_that_the_fonts_lack_do_not_stop_the_sheet() -> None:
    words = replace(PLAN_WORDS, stage="\N{SNOWMAN} \N{CJK UNIFIED IDEOGRAPH-4E00}")
    pieces = [piece for piece, _x, _y in read(sheet(house_plan(row(2), PROSCENIUM, words)))]
    assert "HOUSE LEFT ·" in pieces
