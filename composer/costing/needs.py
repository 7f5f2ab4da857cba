"""What a wall needs: every thing that must be there, how many, and for which pieces; no prices yet.

Everything counts that hangs or lies on the floor: a piece that is not wanted is deleted, or left out
by its number. Nothing is needed twice: what a piece already has (an owned frame, a print that is
here) is no need; a piece that is up keeps its hooks, and its strips where it stays.
"""

from collections import defaultdict
from collections.abc import Collection, Iterable
from dataclasses import dataclass, field
from decimal import Decimal

from composer.catalogue import catalogue as catalogues
from composer.catalogue.catalogue import Catalogue
from composer.costing.items import BUMPER, FRAME, PAPER, TAPE, WIPE, Group
from composer.costing.need import HAS_ITS_MAT, Need
from composer.costing.prints_and_mats import boards_of, prints_of
from composer.hanging.fixings import count_of
from composer.hanging.points import hang
from composer.hanging.records import PieceHanging
from composer.model import Arrangement, Key, Piece, Project
from composer.rehang.plan import plan_rehang

BUMPERS_A_PIECE = 2
"""At the lower corners of a piece on nails (common practice, no source)."""

WIPES_A_PIECE = 2
"""One for the frame, one for the wall (packets of strips; common practice)."""

HINGES_A_MAT, HINGE_MM = 2, 80
"""Hinges of gummed paper on a mat, and the tape each takes (common practice, no source)."""

HAS_BUMPERS = frozenset({"ready"})


@dataclass(slots=True)
class _Tally:
    """Needs being counted, by what they are and what is asked for one."""

    shares: dict[tuple[Group, str, Decimal | None], dict[int, int]] = field(
        default_factory=lambda: defaultdict(lambda: defaultdict(int))
    )

    def add(self, group: Group, item: str, piece: int, count: int, each: Decimal | None = None) -> None:
        if count:
            self.shares[group, item, each][piece] += count

    def needs(self) -> Iterable[Need]:
        for (group, item, each), shares in self.shares.items():
            yield Need(group, item, sum(shares.values()), tuple(sorted(shares.items())), each)


def needs_of(
    project: Project,
    arrangement: Arrangement | None = None,
    *,
    only: Collection[int] | None = None,
    template_sheets: int | None = None,
) -> tuple[Need, ...]:
    """All needs of a project.

    Args:
        project: the project.
        arrangement: whose turned pieces count; None = the current one.
        only: numbers of the pieces; None = all.
        template_sheets: sheets of paper the templates take; None = not counted.
    """
    chosen = project.arrangement if arrangement is None else arrangement
    known = catalogues.of(project.catalogue)
    places = {placement.piece: placement for placement in chosen.placements}
    pieces = [piece for piece in project.pieces if only is None or piece.number in only]
    tally = _Tally()
    halves: dict[str, dict[int, int]] = defaultdict(dict)
    up, staying = project.up(), _staying(project, chosen)
    for piece in pieces:
        placement = places.get(piece.key)
        hanging = hang(piece, turned=placement is not None and placement.turned, catalogue=known)
        if not piece.owned:
            tally.add("frame", FRAME, piece.number, 1, piece.price)
        if piece.key not in staying:
            _holding(tally, halves, piece, hanging, known, has_fixing=piece.key in up)
    found = [
        *prints_of(project, pieces, chosen),
        *boards_of(project, pieces, chosen),
        *tally.needs(),
        *_glazing(pieces),
    ]
    found = _with_halves(found, halves)
    found += _small(project, pieces, chosen, known)
    if template_sheets:
        found.append(Need("paper", PAPER, template_sheets, handy=True))
    if only is None:
        found += [
            Need("extra", extra.what, extra.count, each=extra.each) for extra in project.money.extras if extra.count > 0
        ]
    return tuple(found)


def _staying(project: Project, arrangement: Arrangement) -> frozenset[Key]:
    """Pieces that are up and are not touched; those that are up and lie on the floor here come down: no need."""
    if not project.up():
        return frozenset()
    stay = set(project.up())
    for wall in project.walls:
        plan = plan_rehang(project, wall, arrangement)
        stay -= {change.piece.key for change in (*plan.of("move"), *plan.of("up"))}
    return frozenset(stay)


def _holding(
    tally: _Tally,
    halves: dict[str, dict[int, int]],
    piece: Piece,
    hanging: PieceHanging,
    known: Catalogue,
    *,
    has_fixing: bool,
) -> None:
    """Strips or fixings of one piece; a strip cut lengthwise makes two."""
    if hanging.strips is not None:
        item = known.strip_classes[hanging.strips.size].id
        if hanging.strips.half:
            halves[item][piece.number] = hanging.strips.pairs
        else:
            tally.add("strips", item, piece.number, hanging.strips.pairs)
    elif piece.hardware is not None and not has_fixing and hanging.kind not in {"strips", "ledge"}:
        fixing = known.fixings.get(piece.hardware.fixing)
        count = piece.hardware.count if fixing is None else count_of(piece.hardware, fixing)
        tally.add("fixing", piece.hardware.fixing, piece.number, count)


def _with_halves(found: list[Need], halves: dict[str, dict[int, int]]) -> list[Need]:
    for item, shares in halves.items():
        whole = next((need for need in found if need.group == "strips" and need.item == item), None)
        listed = tuple(sorted(shares.items()))
        count = -(-sum(shares.values()) // 2)
        if whole is None:
            found.append(Need("strips", item, count, listed))
        else:
            # Shares are weights: a whole strip weighs as two halves.
            doubled = tuple((number, 2 * pairs) for number, pairs in whole.shares)
            found[found.index(whole)] = Need(
                "strips", item, whole.count + count, tuple(sorted((*doubled, *listed))), whole.each
            )
    return found


def _glazing(pieces: Iterable[Piece]) -> Iterable[Need]:
    """Sheets cut to size for frames that are still to be bought; needed only where they have a price.

    A frame usually comes with its glazing; a price for it says that it does not.
    """
    sheets: dict[str, list[tuple[int, tuple[float, float] | None]]] = defaultdict(list)
    for piece in pieces:
        if not piece.owned and piece.frame.glazing in ("glass", "acrylic", "styrene"):
            sheets[piece.frame.glazing].append((piece.number, piece.frame.glass_mm))
    for item, cut in sheets.items():
        yield Need(
            "glazing",
            item,
            len(cut),
            tuple((number, 1) for number, _ in cut),
            handy=True,
            cut=tuple(size for _, size in cut if size is not None),
        )


def _small(project: Project, pieces: Iterable[Piece], arrangement: Arrangement, known: Catalogue) -> Iterable[Need]:
    places = {placement.piece: placement for placement in arrangement.placements}
    bumpers, wipes, hinges = _Tally(), _Tally(), _Tally()
    up = project.up()
    for piece in pieces:
        placement = places.get(piece.key)
        turned = placement is not None and placement.turned
        hanger = piece.hanger_turned if turned and piece.hanger_turned else piece.hanger
        if piece.mat is not None and piece.stage not in HAS_ITS_MAT:
            hinges.add("small", TAPE, piece.number, HINGES_A_MAT * HINGE_MM)
        if piece.key in up:
            continue
        if hanger.kind == "strips":
            wipes.add("small", WIPE, piece.number, WIPES_A_PIECE)
        elif hanger.kind not in (None, "ledge") and piece.stage not in HAS_BUMPERS:
            bumpers.add("small", BUMPER, piece.number, BUMPERS_A_PIECE)
    for need in (*bumpers.needs(), *wipes.needs(), *hinges.needs()):
        count = -(-need.count // 1000) if need.item == TAPE else need.count
        yield Need(need.group, need.item, count, need.shares, handy=True)
