"""The order as it is read at the counter: by size and paper, with count and price."""

from collections.abc import Sequence
from decimal import Decimal

from composer.costing.shown import show_money
from composer.paper.drawing import line_step, lines_of
from composer.paper.furniture import not_needed, write_in_box
from composer.paper.primitives import GREY, HAIR_PT, THICK_PT, THIN_PT
from composer.paper.print_flow import PrintFlow
from composer.paper.print_rows import OrderLine, PrintRow
from composer.prints.stock import shown_size
from composer.texts import say, say_many

_ROW_MM = 7.2


def draw_order(flow: PrintFlow, lines: Sequence[OrderLine]) -> None:
    pen, area = flow.drawing, flow.area
    words = say(
        "Actual size. No enlarging, no fitting, not borderless, no correction. "
        "The white strip at the edges belongs to it."
    )
    flow.y = pen.paragraph(area.left, flow.y - 5.2, words, area.width, 10, "bold", most=2) + line_step(10) - 3.0
    pen.line(area.left, flow.y, area.right, flow.y, HAIR_PT, GREY)
    _order_heads(flow)
    sums: list[Decimal] = []
    for line in lines:
        files = ", ".join(_short_name(row) for row in line.rows)
        if line.sheets is not None:
            files = say("shared, folder multi-up: {files}", files=files)
        height = max(_ROW_MM, lines_of(files, 60 * flow.share, 9) * line_step(9) + 3.4)
        if flow.y - height < area.bottom:
            flow.room(height)
            _order_heads(flow)
        _order_row(flow, line, files, height)
        if line.each is not None:
            sums.append(line.each * line.count)
    _total(flow, lines, sums)


def _order_heads(flow: PrintFlow) -> None:
    pen = flow.drawing
    base = flow.y - 5.0
    heads = (
        (0, "left", say("count")),
        (14, "left", say("size")),
        (40, "left", say("sheet")),
        (70, "left", say("paper")),
        (102, "right", say("each")),
        (122, "right", say("together")),
        (130, "left", say("files")),
    )
    for x, align, words in heads:
        pen.text(flow.x(x), base, words, 9, "semibold", align, within=(17 if align == "right" else 24) * flow.share)  # type: ignore[arg-type]
    flow.y -= 7.0
    pen.line(flow.area.left, flow.y, flow.area.right, flow.y, THIN_PT)


def _order_row(flow: PrintFlow, line: OrderLine, files: str, height: float) -> None:
    pen = flow.drawing
    base = flow.y - _ROW_MM / 2 - 1.6
    pen.text(flow.x(4.4), base, str(line.count), 14, "bold", "centre", within=9)
    name = say("to measure") if line.stock is None else shown_size(line.stock)
    pen.text(flow.x(14), base, name, 14, "bold", within=24.5 * flow.share)
    pen.text(flow.x(40), base + 0.3, _millimetres(*line.size_mm), 9, within=28 * flow.share)
    pen.text(flow.x(70), base + 0.3, line.paper or say("any"), 9, within=18 * flow.share)
    if line.each is None:
        for x in (98.0, 118.0):
            not_needed(pen, flow.x(x), base + 1.4)
    else:
        each, both = (show_money(sum_, flow.project.currency) for sum_ in (line.each, line.each * line.count))
        pen.text(flow.x(102), base + 0.3, each, 10, align="right", within=15 * flow.share)
        pen.text(flow.x(122), base + 0.3, both, 10, align="right", within=17 * flow.share)
    pen.paragraph(flow.x(130), base + 0.3, files, 60 * flow.share, 9)
    flow.y -= height
    pen.line(flow.area.left, flow.y, flow.area.right, flow.y, HAIR_PT, GREY)


def _total(flow: PrintFlow, lines: Sequence[OrderLine], sums: Sequence[Decimal]) -> None:
    flow.room(9.5)
    pen = flow.drawing
    base = flow.y - 6.1
    count = sum(line.count for line in lines)
    pen.text(flow.x(4.4), base, str(count), 14, "bold", "centre")
    pen.text(flow.x(14), base, say_many("print", "prints", count), 10)
    unpriced = sum(line.count for line in lines if line.each is None)
    if unpriced:
        words = say_many("{count} without a price", "{count} without a price", unpriced)
        pen.text(flow.x(40), base, words, 9, within=45 * flow.share)
    if sums:
        total = show_money(sum(sums, Decimal(0)), flow.project.currency)
        pen.text(flow.x(122), base, total, 14, "bold", "right", within=32 * flow.share)
    pen.text(flow.x(130), base, say("paid"), 10, within=9 * flow.share)
    write_in_box(pen, flow.x(139), flow.y - 7.9, 22)
    flow.y -= 9.3
    pen.line(flow.area.left, flow.y, flow.area.right, flow.y, THICK_PT)


def _millimetres(width: float, height: float) -> str:
    """A sheet's sides in millimetres whatever the project's units: that is what a lab is asked about."""
    return say("{width} × {height} mm", width=f"{width:.1f}", height=f"{height:.1f}")


def _short_name(row: PrintRow) -> str:
    if not row.name:
        return say("{number} (no file)", number=f"{row.piece.number:02d}")
    start, _, rest = row.name.removesuffix(".jpg").split("_", 2)
    return f"{start}_…{rest}"
