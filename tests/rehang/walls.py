"""Walls that are up, and what they shall become."""

from typing import Any

import msgspec

from composer.editing.rehang_edits import record_up
from composer.model import Arrangement, Frame, Hanger, HardwareChoice, Piece, Placement, Project, Wall
from composer.units import Length, Mass

THEN, NOW = "2026-01-10T15:00:00Z", "2026-09-12T10:00:00Z"


def mm(value: float) -> Length:
    return Length.of_mm(value)


def nail(number: int, width: float, height: float, drop: float, **more: Any) -> Piece:
    """A piece with a sawtooth, on a bare nail that sits where it bears."""
    return Piece(
        key=f"p{number}",
        number=number,
        name=f"Piece {number}",
        frame=Frame(width=mm(width), height=mm(height), face=mm(20), lip=mm(6), glazing="acrylic"),
        hanger=Hanger(kind="sawtooth", drop=mm(drop)),
        weight=Mass.of_kg(0.9),
        hardware=HardwareChoice(fixing="hook-slim", hook_offset=mm(0)),
        owned=True,
        **more,
    )


def rings(number: int, width: float, height: float, drop: float, spacing: float) -> Piece:
    """A piece with two D-rings on two nails."""
    made = nail(number, width, height, drop)
    return msgspec.structs.replace(
        made,
        hanger=Hanger(kind="d-rings", drop=mm(drop), spacing=mm(spacing)),
        hardware=HardwareChoice(fixing="hook-slim", count=2, hook_offset=mm(0)),
    )


def strips(number: int, width: float, height: float) -> Piece:
    """A piece on two pairs of medium strips: flat 30 − 6 = 24 mm, 16 mm strips need 19."""
    made = nail(number, width, height, 0)
    frame = msgspec.structs.replace(made.frame, face=mm(30))
    return msgspec.structs.replace(
        made, frame=frame, hanger=Hanger(kind="strips", strip_size="medium"), hardware=None, weight=Mass.of_kg(0.7)
    )


Places = dict[int, tuple[float, float]]


def wall_of(pieces: list[Piece], first: Places, second: Places | None = None, gap: float = 50) -> Project:
    """A wall 4 × 2.5 m; ``first`` is up since January, ``second`` is planned and current (None = only the first)."""

    def placed(places: Places) -> tuple[Placement, ...]:
        return tuple(
            Placement(piece=f"p{number}", wall="w901", left=float(left), bottom=float(bottom))
            for number, (left, bottom) in places.items()
        )

    project = Project(
        title="Landing",
        next_key=1000,
        next_number=1 + max(piece.number for piece in pieces),
        walls=(Wall(key="w901", name="sofa wall", width=mm(4000), height=mm(2500)),),
        pieces=tuple(pieces),
        arrangements=(
            Arrangement(key="h902", name="winter", gap=mm(gap), placements=placed(first)),
            *(
                []
                if second is None
                else [Arrangement(key="h903", name="summer", gap=mm(gap), placements=placed(second))]
            ),
        ),
        current_arrangement="h902",
    )
    hung = record_up(project, [f"p{number}" for number in first], THEN).run(project)
    return hung if second is None else msgspec.structs.replace(hung, current_arrangement="h903")


def nine_to_eleven() -> Project:
    """Nine pieces in three rows of three; seven of them stay in a wall of eleven, two make room.

    Each is 300 wide, its nail 20 under the top edge in its middle. Column lefts 1000, 1350, 1700; rows
    1300, 1000, 700, heights 250. The new wall has a row more of two pieces at the bottom and moves
    single pieces by a millimetre or two, as an arranger that levels gaps does. Piece 9's place goes to
    10, of the same drop; 9 itself moves to the new row, and 8 comes down for 12, whose drop differs.
    """
    pieces = [nail(number, 300, 250, 20) for number in range(1, 12)]
    pieces.append(nail(12, 300, 250, 35))
    first = {n: (1000.0 + 350 * ((n - 1) % 3), 1300.0 - 300 * ((n - 1) // 3)) for n in range(1, 10)}
    second = {n: first[n] for n in range(1, 8)}
    second |= {2: (1351.5, 1301.0), 5: (1349.0, 999.0), 10: (1700.0, 701.0), 12: first[8]}
    second |= {9: (1000.0, 400.0), 11: (1350.0, 400.0)}
    return wall_of(pieces, first, second)
