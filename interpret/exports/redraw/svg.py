"""A drawing as SVG 1.1: one file, no style sheet, no script, no font of its own."""

from __future__ import annotations

from collections.abc import Iterator
from xml.sax.saxutils import escape, quoteattr

from .scene import Circle, Colour, Item, Lettering, Line, Scene, Stroke


def svg_of(scene: Scene) -> str:
    """Write a drawing as SVG, its title and description for screen readers with it."""
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(scene.width)}pt" height="{_n(scene.height)}pt" '
        f'viewBox="0 0 {_n(scene.width)} {_n(scene.height)}" role="img" aria-labelledby="title desc" '
        f"xml:lang={quoteattr(scene.language)} font-family=\"Helvetica, Arial, 'Liberation Sans', sans-serif\">"
    )
    body = (line for item in scene.items for line in _item(item))
    return "\n".join(
        (
            '<?xml version="1.0" encoding="UTF-8"?>',
            head,
            f'<title id="title">{escape(scene.title)}</title>',
            f'<desc id="desc">{escape(scene.description)}</desc>',
            f'<rect width="{_n(scene.width)}" height="{_n(scene.height)}" fill="#ffffff"/>',
            *body,
            "</svg>\n",
        )
    )


def _item(item: Item) -> Iterator[str]:
    if isinstance(item, Line):
        points = " ".join(f"{_n(x)},{_n(y)}" for x, y in item.points)
        kind = "polygon" if item.closed else "polyline"
        yield f'<{kind} points="{points}"{_paint(item.stroke, item.fill)}/>'
    elif isinstance(item, Circle):
        place = f'cx="{_n(item.at[0])}" cy="{_n(item.at[1])}" r="{_n(item.radius)}"'
        yield f"<circle {place}{_paint(item.stroke, item.fill)}/>"
    else:
        yield _lettering(item)


def _lettering(item: Lettering) -> str:
    x, y = _n(item.at[0]), _n(item.at[1])
    turned = f' transform="rotate(-90 {x} {y})"' if item.turned else ""
    anchor = f' text-anchor="{item.anchor}"' if item.anchor != "start" else ""
    bold = ' font-weight="bold"' if item.bold else ""
    look = f'font-size="{_n(item.size)}" fill="{_colour(item.colour)}"{anchor}{bold}{turned}'
    return f'<text x="{x}" y="{y}" {look}>{escape(item.text)}</text>'


def _paint(stroke: Stroke | None, fill: Colour | None) -> str:
    told = f' fill="{_colour(fill) if fill else "none"}"'
    if stroke is None:
        return told
    dash = f' stroke-dasharray="{" ".join(map(_n, stroke.dash))}"' if stroke.dash else ""
    ends = ' stroke-linecap="round" stroke-linejoin="round"' if not stroke.dash else ""
    return f'{told} stroke="{_colour(stroke.colour)}" stroke-width="{_n(stroke.width)}"{dash}{ends}'


def _colour(colour: Colour) -> str:
    return "#" + "".join(f"{round(part * 255):02x}" for part in colour)


def _n(number: float) -> str:
    return f"{number:.2f}".rstrip("0").rstrip(".")
