"""The piece: frame, picture, mat and hanger, one thing on the wall."""

from typing import Literal

import msgspec

from composer.model.frame import Frame
from composer.model.hanger import Hanger, HardwareChoice
from composer.model.mat import Mat
from composer.model.picture import PictureUse
from composer.model.scalars import BadRecord, Key, Money, check_key, check_money, check_text
from composer.texts import say
from composer.units import Mass

Stage = Literal["to-measure", "print-ordered", "print-here", "framed", "ready"]


class Piece(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """One piece, whether it hangs or still lies on the floor.

    Attributes:
        number: what it is called on paper and screen; from 1, never used again.
        uses, current_use: pictures the frame may show, and which of them it shows now.
        hanger: the back as measured for the upright piece.
        hanger_turned: the back as measured for the piece turned a quarter.
        weight: as weighed, frame with everything in it; None = estimated where possible.
        hardware: what was chosen to hold it on the wall; None = nothing chosen.
        owned: already paid for.
        price: of the frame.
        stage: how far the work has come; None = not noted. "Up" is not a stage but a record of what hangs.
        extra: columns of the person's own table that mean nothing here, kept and written back.
    """

    key: Key
    number: int
    name: str
    frame: Frame
    note: str = ""
    mat: Mat | None = None
    uses: tuple[PictureUse, ...] = ()
    current_use: int | None = None
    hanger: Hanger = Hanger()
    hanger_turned: Hanger | None = None
    weight: Mass | None = None
    hardware: HardwareChoice | None = None
    owned: bool = False
    price: Money | None = None
    stage: Stage | None = None
    extra: tuple[tuple[str, str], ...] = ()

    def __post_init__(self) -> None:
        check_key(self.key, "p")
        if not 1 <= self.number <= 1_000_000:
            raise BadRecord(say("A piece's number is 1 to 1 000 000, not {number}.", number=self.number))
        check_text(self.name)
        if not self.name.strip():
            raise BadRecord(say("Piece {number} needs a name.", number=self.number))
        check_text(self.note, most=5000, lines=True)
        if self.current_use is not None and not 0 <= self.current_use < len(self.uses):
            raise BadRecord(say("Piece {number} shows a picture it does not have.", number=self.number))
        if self.weight is not None and self.weight.kg <= 0:
            raise BadRecord(
                say(
                    "Piece {number} must weigh more than nothing: {weight}.",
                    number=self.number,
                    weight=self.weight.text,
                )
            )
        if self.price is not None:
            check_money(self.price)
        for name, value in self.extra:
            check_text(name)
            check_text(value, most=5000, lines=True)

    def size_mm(self, *, turned: bool = False) -> tuple[float, float]:
        """Width and height as hung, mm; a turned piece has them swapped."""
        width, height = float(self.frame.width.mm), float(self.frame.height.mm)
        return (height, width) if turned else (width, height)
