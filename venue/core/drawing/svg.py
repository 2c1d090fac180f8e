"""A drawing written as SVG with classes and attributes only: a page's policy may forbid style attributes."""

from html import escape

from venue.core.drawing.shapes import Box, Drawing, Line, Mark, Shape, Text

_BASELINE = 0.35  # from the middle of a line of text down to its baseline, in sizes


def as_svg(drawing: Drawing, *, title: str, identity: str = "plan") -> str:
    """The SVG element; `title` is what is read aloud for the whole, `identity` is unique on its page."""
    body = "".join(map(_element, drawing.shapes))
    return (
        f'<svg class="plan" viewBox="0 0 {drawing.width:.0f} {drawing.height:.0f}" width="{drawing.width:.0f}"'
        f' height="{drawing.height:.0f}" role="img" aria-labelledby="{escape(identity)}-title">'
        f'<title id="{escape(identity)}-title">{escape(title)}</title>{body}</svg>'
    )


def _element(shape: Shape) -> str:
    if isinstance(shape, Line):
        ends = f'x1="{shape.x1:.1f}" y1="{shape.y1:.1f}" x2="{shape.x2:.1f}" y2="{shape.y2:.1f}"'
        return f'<line class="plan-{shape.kind}" {ends}/>'
    if isinstance(shape, Box):
        left, top, _right, _bottom = shape.bounds
        size = f'width="{shape.width:.1f}" height="{shape.height:.1f}" rx="{shape.radius:.1f}"'
        return f'<rect class="plan-{shape.kind}" x="{left:.1f}" y="{top:.1f}" {size}/>'
    if isinstance(shape, Mark):
        inner = "".join(map(_element, shape.shapes))
        return f'<g class="plan-{shape.kind}"><title>{escape(shape.words)}</title>{inner}</g>'
    return _text(shape)


def _text(text: Text) -> str:
    at = f'x="{text.x:.1f}" y="{text.y + _BASELINE * text.size:.1f}" font-size="{text.size:.1f}"'
    return f'<text class="plan-{text.kind}" {at} text-anchor="{text.anchor}">{escape(text.text)}</text>'
