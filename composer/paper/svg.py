"""A whole wall as SVG: 1 unit = 1 mm, y down, one group a piece."""

from base64 import b64encode
from collections.abc import Iterable
from xml.sax.saxutils import escape, quoteattr

from composer.paper.primitives import MM_PER_PT, Box, Circle, Dash, Item, Line, Photo, Polygon, Text

_FAMILY = "'Source Sans Pro', 'Source Sans 3', sans-serif"
_WEIGHT = {"regular": 400, "semibold": 600, "bold": 700}
_ANCHOR = {"left": "start", "centre": "middle", "right": "end"}


def to_svg(
    size: tuple[float, float],
    title: str,
    items: Iterable[Item],
    groups: Iterable[tuple[str, Iterable[Item]]] = (),
) -> str:
    """The drawing as the text of an SVG file.

    Args:
        size: width and height, mm.
        title: what the drawing shows.
        items: what lies below, in page mm, y up.
        groups: named groups above that, each an id and its items.
    """
    width, height = size
    parts = [
        '<?xml version="1.0" encoding="UTF-8"?>\n',
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_n(width)}mm" height="{_n(height)}mm" '
        f'viewBox="0 0 {_n(width)} {_n(height)}">\n<title>{escape(title)}</title>\n',
    ]
    parts += [_element(item, height) for item in items]
    for name, members in groups:
        parts.append(f"<g id={quoteattr(name)}>\n")
        parts += [_element(item, height) for item in members]
        parts.append("</g>\n")
    parts.append("</svg>\n")
    return "".join(parts)


def _n(value: float) -> str:
    return f"{round(value, 4) + 0.0:.4f}".rstrip("0").rstrip(".")


def _grey(lightness: float) -> str:
    level = round(255 * lightness)
    return f"#{level:02x}{level:02x}{level:02x}"


def _paint(width_pt: float | None, grey: float, fill_grey: float | None, dash: Dash = ()) -> str:
    fill = "none" if fill_grey is None else _grey(fill_grey)
    if width_pt is None:
        return f'fill="{fill}"'
    dashes = f' stroke-dasharray="{" ".join(_n(part) for part in dash)}"' if dash else ""
    return f'fill="{fill}" stroke="{_grey(grey)}" stroke-width="{_n(width_pt * MM_PER_PT)}"{dashes}'


def _element(item: Item, height: float) -> str:
    if isinstance(item, Line):
        ends = f'x1="{_n(item.x1)}" y1="{_n(height - item.y1)}" x2="{_n(item.x2)}" y2="{_n(height - item.y2)}"'
        return f"<line {ends} {_paint(item.width_pt, item.grey, None, item.dash)}/>\n"
    if isinstance(item, Box):
        corner = f'x="{_n(item.left)}" y="{_n(height - item.bottom - item.height)}"'
        sides = f'width="{_n(item.width)}" height="{_n(item.height)}"'
        return f"<rect {corner} {sides} {_paint(item.width_pt, item.grey, item.fill_grey, item.dash)}/>\n"
    if isinstance(item, Circle):
        middle = f'cx="{_n(item.x)}" cy="{_n(height - item.y)}" r="{_n(item.radius)}"'
        return f"<circle {middle} {_paint(item.width_pt, item.grey, item.fill_grey)}/>\n"
    if isinstance(item, Polygon):
        points = " ".join(f"{_n(x)},{_n(height - y)}" for x, y in item.points)
        shape = "polygon" if item.closed else "polyline"
        return f'<{shape} points="{points}" {_paint(item.width_pt, item.grey, item.fill_grey)}/>\n'
    if isinstance(item, Photo):
        corner = f'x="{_n(item.left)}" y="{_n(height - item.bottom - item.height)}"'
        sides = f'width="{_n(item.width)}" height="{_n(item.height)}" preserveAspectRatio="none"'
        return f'<image {corner} {sides} href="data:image/jpeg;base64,{b64encode(item.jpeg).decode()}"/>\n'
    return _text(item, height)


def _text(item: Text, height: float) -> str:
    x, y = _n(item.x), _n(height - item.y)
    turn = f' transform="rotate({-item.turn} {x} {y})"' if item.turn else ""
    look = (
        f'font-family="{_FAMILY}" font-size="{_n(item.size_pt * MM_PER_PT)}" font-weight="{_WEIGHT[item.weight]}" '
        f'text-anchor="{_ANCHOR[item.align]}" fill="{_grey(item.grey)}"'
    )
    return f'<text x="{x}" y="{y}" {look}{turn}>{escape(item.text)}</text>\n'
