"""The end of the shopping list: what to look for at home, what would be cheaper, what the rest would still hang."""

from collections.abc import Sequence
from dataclasses import dataclass

from composer.catalogue import catalogue as catalogues
from composer.costing.alternatives import Alternative, alternative_words
from composer.costing.costs import Costs
from composer.costing.items import counted, item_name
from composer.costing.left_over import StillHangs
from composer.costing.need import Need
from composer.costing.shown import show_money, show_numbers
from composer.model import Project
from composer.paper.drawing import Area, Drawing, line_step, lines_of
from composer.paper.figures import Figures
from composer.paper.furniture import write_in_box
from composer.paper.primitives import GREY, HAIR_PT, THIN_PT
from composer.paper.shopping_rows import capital
from composer.texts import say, say_many

_HEAD_MM, _ROW_MM, _BOX_MM, _COLUMN_GAP = 9.0, 6.2, 4.4, 10.0
_BOUGHT_MM = 8.0


@dataclass(frozen=True, slots=True)
class Ends:
    """What stands below the rows: texts, ready to be drawn."""

    drawer: tuple[str, ...]
    cheaper: tuple[tuple[str, str], ...]
    rest: tuple[str, ...]
    currency: str

    def columns_height(self, width: float) -> float:
        """Room for the drawer and, beside it, what would be cheaper, mm."""
        half = (width - _COLUMN_GAP) / 2
        drawer = sum(_rows(words, half - 8) for words in self.drawer)
        cheaper = sum(_rows(words, half - 22) for words, _ in self.cheaper)
        return 3 + _HEAD_MM + max(drawer, cheaper)

    def rest_height(self, width: float) -> float:
        """Room for what the rest would still hang, mm; 0 for nothing."""
        rest = sum(lines_of(words, width, 10) * line_step(10) for words in self.rest)
        return _HEAD_MM + 1.6 + rest if self.rest else 0.0


def _rows(words: str, width: float) -> float:
    return _ROW_MM + (lines_of(words, width, 10) - 1) * line_step(10)


def ends_of(
    project: Project,
    costs: Costs,
    cheaper: Sequence[Alternative],
    rest: Sequence[StillHangs],
    figures: Figures,
) -> Ends:
    """The texts of the list's end."""
    known = catalogues.of(project.catalogue)
    drawer = [
        _at_home(line.need, line.name, line.purchase.from_drawer) for line in costs.lines if line.purchase.from_drawer
    ]
    drawer += [
        _at_home(need, need.label or item_name(need.group, need.item, known), need.count) for need in costs.handy
    ]
    drawer.append(say("Low-tack tape, pencil, tape measure, spirit level"))
    return Ends(
        tuple(drawer),
        tuple((alternative_words(one, project), show_money(-one.saves, costs.currency)) for one in cheaper),
        tuple(_still(one, figures) for one in rest),
        costs.currency,
    )


def _at_home(need: Need, name: str, count: int) -> str:
    amount = counted(need.group, need.item, count)
    if not need.pieces:
        return say("{what}: {count}", count=amount, what=capital(name))
    return say("{what}: {count}, for {pieces}", count=amount, what=capital(name), pieces=show_numbers(need.pieces))


def _still(one: StillHangs, figures: Figures) -> str:
    name = capital(one.name)
    if one.group == "strips":
        assert one.carries_kg is not None
        return say_many(
            "{name}: {pairs} left, for {count} more piece up to {weight} without glass ({on} × {rating} kg, divided by 1.5).",
            "{name}: {pairs} left, for {count} more pieces up to {weight} each without glass ({on} × {rating} kg, divided by 1.5).",
            one.pieces,
            pairs=counted("strips", one.item, one.count),
            name=name,
            weight=figures.mass(one.carries_kg),
            on=one.pairs,
            rating=f"{one.rating_kg:g}",
        )
    if one.group == "board":
        sizes = ", ".join(figures.size(*(float(round(side)) for side in size)) for size in one.sizes[:3])
        return say("{name}: {sizes} left for more mats.", name=name, sizes=sizes)
    if one.carries_kg is None:
        return say("{name}: {count} left for as many hanging points.", count=one.count, name=name)
    return say(
        "{name}: {count} left for as many hanging points, up to {weight} each.",
        count=one.count,
        name=name,
        weight=figures.mass(one.carries_kg),
    )


def draw_columns(drawing: Drawing, area: Area, top: float, ends: Ends) -> float:
    """What to look for at home, and what would be cheaper; returns the y below."""
    top -= 3
    half = (area.width - _COLUMN_GAP) / 2
    right = area.left + half + _COLUMN_GAP
    used = drawing.text(area.left, top - 4.4, say("In the drawer"), 14, "bold", within=half * 0.5)
    drawing.text(area.left + used + 5, top - 4.4, say("nothing to pay; look before you go"), 9, within=half - used - 5)
    low = top - _HEAD_MM
    for words in ends.drawer:
        drawing.box(area.left + 0.3, low - 4.4, _BOX_MM, _BOX_MM, THIN_PT)
        drawing.paragraph(area.left + 8, low - 3.4, words, half - 8, 10)
        low -= _rows(words, half - 8)
    if not ends.cheaper:
        return low
    drawing.text(right, top - 4.4, say("Cheaper, same wall"), 14, "bold", within=half)
    y = top - _HEAD_MM
    for words, saves in ends.cheaper:
        drawing.paragraph(right, y - 3.4, words, half - 22, 10)
        drawing.text(area.right, y - 3.4, saves, 10, "bold", "right", within=20)
        y -= _rows(words, half - 22)
        drawing.line(right, y + 0.8, area.right, y + 0.8, HAIR_PT, GREY)
    return min(low, y)


def draw_rest(drawing: Drawing, area: Area, top: float, ends: Ends) -> float:
    """What the rest would still hang; returns the y below."""
    drawing.text(area.left, top - 7.0, say("What is left over would still hang"), 14, "bold", within=area.width)
    y = top - _HEAD_MM - 3.2
    for words in ends.rest:
        y = drawing.paragraph(area.left, y, words, area.width, 10)
    return y


def draw_also_bought(drawing: Drawing, area: Area, top: float) -> None:
    """Lines to write on, as many as there is room for, two at most."""
    rows = min(2, int((top - 2 - area.bottom) / _BOUGHT_MM))
    if rows < 1:
        return
    y = top - 2
    drawing.text(area.left, y - _BOUGHT_MM + 2, say("Also bought"), 10, "semibold", within=22)
    for _ in range(rows):
        y -= _BOUGHT_MM
        drawing.line(area.left + 24, y + 0.8, area.right - 40, y + 0.8, THIN_PT)
        write_in_box(drawing, area.right - 15, y, 15, 6.4)
