"""A drawing written as SVG with classes and attributes only: a page's policy may forbid style attributes."""

from html import escape

from venue.core.drawing.shapes import Box, Drawing, Ellipse, Line, Mark, Shape, Text, Trail

_BASELINE = 0.35  # from the middle of a line of text down to its baseline, in sizes


def as_svg(drawing: Drawing, *, title: str, identity: str = "plan", family: str = "plan") -> str:
    """The SVG element; `title` is what is read aloud for the whole, `identity` is unique on its page.

    `family` is its class, and begins the class of every shape in it.
    """
    body = "".join(_element(shape, family) for shape in drawing.shapes)
    return (
        f'<svg class="{family}" viewBox="0 0 {drawing.width:.0f} {drawing.height:.0f}" width="{drawing.width:.0f}"'
        f' height="{drawing.height:.0f}" role="img" aria-labelledby="{escape(identity)}-title">'
        f'<title id="{escape(identity)}-title">{escape(title)}</title>{body}</svg>'
    )


def _element(shape: Shape, family: str) -> str:
    look = f'class="{family}-{shape.kind}"'
    if isinstance(shape, Line):
        ends = f'x1="{shape.x1:.1f}" y1="{shape.y1:.1f}" x2="{shape.x2:.1f}" y2="{shape.y2:.1f}"'
        return f"<line {look} {ends}/>"
    if isinstance(shape, Box):
        left, top, _right, _bottom = shape.bounds
        size = f'width="{shape.width:.1f}" height="{shape.height:.1f}" rx="{shape.radius:.1f}"'
        return f'<rect {look} x="{left:.1f}" y="{top:.1f}" {size}/>'
    if isinstance(shape, Trail):
        points = " ".join(f"{x:.1f},{y:.1f}" for x, y in shape.points)
        return f'<{"polygon" if shape.is_closed else "polyline"} {look} points="{points}"/>'
    if isinstance(shape, Ellipse):
        return _ellipse(shape, look)
    if isinstance(shape, Mark):
        inner = "".join(_element(each, family) for each in shape.shapes)
        return f"<g {look}><title>{escape(shape.words)}</title>{inner}</g>"
    return _text(shape, look)


def _text(text: Text, look: str) -> str:
    at = f'x="{text.x:.1f}" y="{text.y + _BASELINE * text.size:.1f}" font-size="{text.size:.1f}"'
    return f'<text {look} {at} text-anchor="{text.anchor}">{escape(text.text)}</text>'


def _ellipse(ellipse: Ellipse, look: str) -> str:
    at = f'cx="{ellipse.x:.1f}" cy="{ellipse.y:.1f}" rx="{ellipse.along / 2:.1f}" ry="{ellipse.across / 2:.1f}"'
    turned = f' transform="rotate({ellipse.turn_deg:.1f} {ellipse.x:.1f} {ellipse.y:.1f})"' if ellipse.turn_deg else ""
    return f"<ellipse {look} {at}{turned}/>"
