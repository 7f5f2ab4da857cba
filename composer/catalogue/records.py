"""What the catalogue holds: classes of strips, fixings, obstacles and materials, each with its source.

Every figure is a default of a generic class. ``status`` says how far it can be trusted, ``source``
where it comes from; the figure printed on the person's own packet always wins.
"""

from typing import ClassVar, Literal

import msgspec

from composer.units import Kg, Mm

Status = Literal["standard", "published", "derived", "common-practice", "judgement", "memory", "own", "packet"]
"""``standard``: in a standard · ``published``: a published source was read · ``derived``: follows by
arithmetic · ``common-practice``: usual in the trade, no source of standing · ``judgement``: ours ·
``memory``: remembered, not looked up · ``own``: the person's own entry · ``packet``: read off the packet."""

StripSizeName = Literal["small", "medium", "large"]
FixingKind = Literal["hook", "nail", "screw", "cleat", "rail"]
Standing = Literal["before", "opening", "device", "on-wall"]

_MOST = 1e6
"""Beyond it a figure is a slip or a damaged file, whatever it counts."""


def _check(record: msgspec.Struct, above: tuple[str, ...], least: tuple[str, ...] = ()) -> None:
    """Figures typed into a project may be anything: these must be above 0, those at least 0, where given.

    Raises:
        ValueError: naming the figure; the record is then not used.
    """
    for name in (*above, *least):
        value = getattr(record, name)
        if value is not None and not (0 <= value <= _MOST and (value or name in least)):
            raise ValueError(f"{name} cannot be {value}")


class StripClass(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A class of removable interlocking strips; two strips make a pair.

    Attributes:
        width_mm, length_mm: of one strip without its tab. Measure your packet's.
        rating_kg: what a pair carries by its packet.
        largest_short_mm, largest_long_mm: sides of the largest frame the packets allow.
        most_pairs: on one frame.
        press_s, wait_min, full_h: how long each half is pressed, how long the wall's halves rest before the
            frame hangs, and when they have their full strength.
        status, size_status: how far the rating and the measures can be trusted.
    """

    id: str
    size: StripSizeName
    width_mm: float
    length_mm: float
    rating_kg: float
    largest_short_mm: float
    largest_long_mm: float
    most_pairs: int
    status: Status
    size_status: Status
    source: str
    press_s: float = 30.0
    wait_min: float = 60.0
    full_h: float = 24.0
    name: str = ""

    kind: ClassVar[str] = "strips"

    def __post_init__(self) -> None:
        _check(
            self,
            ("width_mm", "length_mm", "rating_kg", "largest_short_mm", "largest_long_mm", "most_pairs"),
            ("press_s", "wait_min", "full_h"),
        )

    @property
    def entry(self) -> str:
        """The id by which a project changes or pins this record."""
        return self.id

    def takes(self, width: Mm, height: Mm) -> bool:
        """Whether a frame of this size, mm, is within what the packets allow; either way up."""
        short, long = sorted((width, height))
        return short <= self.largest_short_mm and long <= self.largest_long_mm


class StripRules(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """How many pairs and where.

    Attributes:
        margin, margin_glass: rating ÷ weight wanted, without and with glass.
        inset_mm, least_inset_mm: from the frame's outer edge to the strip, wanted and at least.
        four_above_side_mm, four_above_depth_mm: a longer side or a deeper frame takes four pairs.
        four_for_glass_above_share: with glass, four pairs where the weight exceeds this share of
            what two pairs carry.
        lower_height_share: height of the lower strips' middle, as a share of the frame's height.
        apart_mm: least distance between two strips on one side.
    """

    margin: float
    margin_glass: float
    inset_mm: float
    least_inset_mm: float
    four_above_side_mm: float
    four_above_depth_mm: float
    four_for_glass_above_share: float
    lower_height_share: float
    apart_mm: float
    status: Status
    source: str


class Fixing(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Something in the wall that holds a hanging point.

    Attributes:
        offset_mm: from the seat up to the hole; negative where the hole's middle lies lower
            (a ring bears on a screw's upper side). Measure your own hook.
        load_kg: working load of one, None = its screws decide.
        walls: kinds of wall it holds in.
        pack: how many are sold together as a rule; the person's own pack is noted with its price.
        size: of nail or screw, mm, as sold; ``drill_mm``, ``plug_mm``: what goes with it.
    """

    id: str
    offset_mm: float
    load_kg: float | None
    status: Status
    source: str
    walls: tuple[str, ...] = ()
    fixing_kind: FixingKind = msgspec.field(default="hook", name="kind")
    offset_status: Status = "memory"
    name: str = ""
    pack: int = 1
    size: str = ""
    drill_mm: float | None = None
    plug_mm: float | None = None

    kind: ClassVar[str] = "fixing"

    def __post_init__(self) -> None:
        _check(self, ("load_kg", "pack", "drill_mm", "plug_mm"))
        if not abs(self.offset_mm) <= _MOST:
            raise ValueError(f"offset_mm cannot be {self.offset_mm}")

    @property
    def entry(self) -> str:
        """The id by which a project changes or pins this record."""
        return self.id


class WireClass(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Picture wire by the load at which it breaks; packets print a quarter of it, cables a third."""

    id: str
    breaking_kg: float
    status: Status
    source: str
    name: str = ""

    kind: ClassVar[str] = "wire"

    def __post_init__(self) -> None:
        _check(self, ("breaking_kg",))

    @property
    def entry(self) -> str:
        """The id by which a project changes or pins this record."""
        return self.id


class ObstacleClass(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A kind of obstacle: what to keep free around it, and where it stands.

    ``stands``: ``before`` the wall (furniture), an ``opening`` in it, a ``device`` that must stay
    reachable, or something else ``on-wall``.
    """

    id: str = msgspec.field(name="kind")
    margin_mm: float
    stands: Standing
    status: Status
    source: str
    name: str = ""

    kind: ClassVar[str] = "obstacle"

    def __post_init__(self) -> None:
        _check(self, (), ("margin_mm",))

    @property
    def entry(self) -> str:
        """The id by which a project changes or pins this record."""
        return f"obstacle:{self.id}"


MaterialKind = Literal["moulding", "glazing", "backing", "board", "paper"]

MATERIAL_WEIGHTS = ("specific_gravity", "density_kg_m3", "grammage_g_m2")
"""The three ways to say what a material weighs; a record has one of them."""

WOOD_MOISTURE = 0.12
"""Moisture at which wood's specific gravity is tabled; indoors it is nearer 0.08, so this is heavy."""


class Material(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What a part of a piece is made of; exactly one of the three weights is given.

    Attributes:
        specific_gravity: of wood, oven-dry mass over volume at 12 % moisture.
        density_kg_m3: of anything else that is cut to a thickness.
        grammage_g_m2: of board and paper that come in one thickness.
        usual_mm: thickness taken when nobody measured it.
        spread: how far single samples lie from the figure, as a share of it.
    """

    id: str
    status: Status
    source: str
    specific_gravity: float | None = None
    density_kg_m3: float | None = None
    grammage_g_m2: float | None = None
    usual_mm: float | None = None
    spread: float = 0.15
    name: str = ""
    kind: MaterialKind = "moulding"

    def __post_init__(self) -> None:
        given = [
            value for value in (self.specific_gravity, self.density_kg_m3, self.grammage_g_m2) if value is not None
        ]
        if len(given) != 1:
            raise ValueError("a material has one of specific_gravity, density_kg_m3, grammage_g_m2")
        _check(self, (*MATERIAL_WEIGHTS, "usual_mm"), ("spread",))

    @property
    def entry(self) -> str:
        """The id by which a project changes or pins this record."""
        return f"{self.kind}:{self.id}"

    def kg_per_m3(self) -> float | None:
        """Density, kg/m³; None for what is sold by grammage.

        Wood: 1000 · G · (1 + M/100), USDA Wood Handbook FPL-GTR-190, chapter 4.
        """
        if self.specific_gravity is not None:
            return 1000 * self.specific_gravity * (1 + WOOD_MOISTURE)
        return self.density_kg_m3


class HardwareMass(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What rings, wire and tabs of a frame weigh; ``up_to_side_mm`` is its longer side, None = any."""

    id: str
    mass_kg: float
    up_to_side_mm: float | None
    status: Status
    source: str
    name: str = ""

    kind: ClassVar[str] = "hardware"

    def __post_init__(self) -> None:
        _check(self, ("up_to_side_mm",), ("mass_kg",))

    @property
    def entry(self) -> str:
        """The id by which a project changes or pins this record."""
        return f"hardware:{self.id}"

    @property
    def mass(self) -> Kg:
        """Its mass, kg."""
        return Kg(self.mass_kg)
