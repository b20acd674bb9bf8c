"""A page to SVG, in millimetres, for the README and for the screen; the same bytes every time."""

from __future__ import annotations

import math
from xml.sax.saxutils import escape, quoteattr

from generator.drafting.ink import Arc, Circle, Ink, Line, Outline, Text
from generator.drafting.layers import Pen, pen
from generator.drafting.overlap import flat
from generator.drafting.page import Page, baseline_shift, text_box
from generator.lettering import HELVETICA, typeface
from generator.model.geometry import Point

_ANCHOR = {"left": "start", "centre": "middle", "right": "end"}


def svg_bytes(page: Page) -> bytes:
    """The page as it prints; y is turned over, as SVG counts from the top."""
    size = f'width="{page.width:g}mm" height="{page.height:g}mm" viewBox="0 0 {page.width:g} {page.height:g}"'
    head = f'<svg xmlns="http://www.w3.org/2000/svg" {size} font-family="Helvetica, Arial, sans-serif">'
    paper = f'<rect width="{page.width:g}" height="{page.height:g}" fill="#ffffff"/>'
    body = [line for item in flat(page.ink) for line in _drawn(item, page)]
    title = f"<title>{escape(page.title)}</title>"
    return "\n".join([head, title, paper, *body, "</svg>", ""]).encode("utf-8")


def _drawn(item: Ink, page: Page) -> list[str]:
    height = page.height
    if isinstance(item, Text):
        return _written(item, height)
    line = pen(item.layer, page.practice)
    match item:
        case Line():
            return [f'<path d="{_path((item.start, item.end), height)}" {_stroke(line)}/>']
        case Outline():
            close = " Z" if item.closed else ""
            stroke = _stroke(line, item.fill) if item.edge else f'fill="{_grey(item.fill)}"'
            return [f'<path d="{_path(item.ring, height)}{close}" {stroke}/>']
        case Circle():
            at = f'cx="{_n(item.centre[0])}" cy="{_n(height - item.centre[1])}" r="{_n(item.radius)}"'
            return [f"<circle {at} {_stroke(line, item.fill)}/>"]
        case Arc():
            return [f'<path d="{_arc(item, height)}" {_stroke(line)}/>']
    return []


def _n(value: float) -> str:
    """A number to a thousandth of a mm, without trailing noughts or a negative zero."""
    return f"{round(value, 3) + 0.0:g}"


def _grey(value: float | None) -> str:
    return "none" if value is None else "#" + f"{round(value * 255):02x}" * 3


def _stroke(line: Pen, fill: float | None = None) -> str:
    dash = f' stroke-dasharray="{" ".join(_n(d) for d in line.dash)}"' if line.dash else ""
    return f'fill="{_grey(fill)}" stroke="{_grey(line.grey)}" stroke-width="{_n(line.width)}"{dash}'


def _path(points: tuple[Point, ...], height: float) -> str:
    return "M " + " L ".join(f"{_n(x)} {_n(height - y)}" for x, y in points)


def _arc(item: Arc, height: float) -> str:
    ends = []
    for angle in (item.start, item.end):
        turn = math.radians(angle)
        ends.append((item.centre[0] + item.radius * math.cos(turn), item.centre[1] + item.radius * math.sin(turn)))
    (x0, y0), (x1, y1) = ends
    large = int((item.end - item.start) % 360 > 180)
    r = _n(item.radius)
    return f"M {_n(x0)} {_n(height - y0)} A {r} {r} 0 {large} 0 {_n(x1)} {_n(height - y1)}"


def _written(item: Text, height: float) -> list[str]:
    x, y = item.at[0], height - item.at[1]
    mask = [f'<path d="{_path(text_box(item), height)} Z" fill="#ffffff"/>'] if item.mask else []
    place = f'transform="translate({_n(x)} {_n(y)}) rotate({_n(-item.angle)})" y="{_n(-baseline_shift(item))}"'
    weight = ' font-weight="bold"' if item.bold else ""
    face = typeface(item.text)
    family = "" if face is HELVETICA else f' font-family="{face.family}, sans-serif"'
    look = f'font-size="{_n(item.height / face.capital)}" text-anchor="{_ANCHOR[item.align]}"{weight}{family}'
    grey = quoteattr(_grey(pen(item.layer).grey))
    return [*mask, f"<text {place} {look} fill={grey}>{escape(item.text)}</text>"]
