"""What catalogue records, kinds of obstacles, hangers and walls are called on screen and paper."""

from composer.catalogue.records import Fixing, HardwareMass, Material, ObstacleClass, Status, StripClass, WireClass
from composer.texts import N_, say

_RECORDS = {
    "strips-small": N_("strips, small"),
    "strips-medium": N_("strips, medium"),
    "strips-large": N_("strips, large"),
    "hook-slim": N_("slim nail hook"),
    "hook-one-nail": N_("one-nail hook"),
    "hook-two-nails": N_("two-nail hook"),
    "hook-three-nails": N_("three-nail hook"),
    "nail": N_("bare nail, 2 mm, in timber"),
    "nail-board": N_("bare nail, 2 mm"),
    "plug-board": N_("screw in a plastic plug, plasterboard"),
    "anchor-self-drilling": N_("screw in a self-drilling anchor, plasterboard"),
    "toggle": N_("toggle bolt, hollow wall"),
    "plug-masonry": N_("screw in a 6 mm plug, masonry"),
    "screw-stud": N_("screw in a stud"),
    "cleat-rail": N_("wall rail of a cleat"),
    "rail-cord": N_("hook and cord on a picture rail"),
    "wire-number-3": N_("braided wire, number 3"),
    "wire-5": N_("braided wire for 5 kg"),
    "wire-10": N_("braided wire for 10 kg"),
    "wire-20": N_("braided wire for 20 kg"),
    "cable-coated": N_("coated steel cable"),
    "obstacle:sofa": N_("sofa"),
    "obstacle:bed": N_("bed"),
    "obstacle:cot": N_("cot"),
    "obstacle:seat": N_("seat"),
    "obstacle:table": N_("table"),
    "obstacle:door": N_("door"),
    "obstacle:window": N_("window"),
    "obstacle:switch": N_("switch"),
    "obstacle:socket": N_("socket"),
    "obstacle:tap": N_("tap"),
    "obstacle:radiator": N_("radiator"),
    "obstacle:thermostat": N_("thermostat"),
    "obstacle:grille": N_("air grille"),
    "obstacle:detector": N_("detector"),
    "obstacle:shelf": N_("shelf"),
    "obstacle:stair-rail": N_("handrail"),
    "obstacle:other": N_("obstacle"),
    "moulding:pine": N_("pine"),
    "moulding:pine-white": N_("white pine"),
    "moulding:spruce": N_("spruce"),
    "moulding:fir": N_("Douglas fir"),
    "moulding:basswood": N_("basswood (lime)"),
    "moulding:poplar": N_("poplar"),
    "moulding:alder": N_("alder"),
    "moulding:cherry": N_("cherry"),
    "moulding:walnut": N_("walnut"),
    "moulding:birch": N_("birch"),
    "moulding:beech": N_("beech"),
    "moulding:ash": N_("ash"),
    "moulding:maple": N_("maple"),
    "moulding:oak": N_("oak"),
    "moulding:oak-white": N_("white oak"),
    "moulding:mdf": N_("fibreboard (MDF)"),
    "moulding:foam": N_("polystyrene foam moulding"),
    "moulding:aluminium": N_("aluminium"),
    "moulding:steel": N_("steel"),
    "glazing:glass": N_("glass"),
    "glazing:acrylic": N_("acrylic"),
    "glazing:styrene": N_("styrene"),
    "backing:mdf": N_("thin fibreboard (MDF)"),
    "backing:mdf-3mm": N_("fibreboard (MDF), 3 mm"),
    "backing:hardboard": N_("hardboard"),
    "backing:plywood": N_("softwood plywood"),
    "backing:plywood-birch": N_("birch plywood"),
    "backing:foam-board": N_("foam board"),
    "backing:corrugated": N_("corrugated board"),
    "backing:mat-board": N_("mat board"),
    "backing:grey-board": N_("grey board"),
    "board:mat-4-ply": N_("mat board, 4-ply"),
    "board:mat-8-ply": N_("mat board, 8-ply"),
    "paper:photo": N_("photo paper"),
    "paper:cotton": N_("cotton paper"),
    "hardware:small": N_("hanging hardware, small frame"),
    "hardware:medium": N_("hanging hardware, medium frame"),
    "hardware:large": N_("hanging hardware, large frame"),
}

HANGERS = {
    "wire": N_("wire"),
    "sawtooth": N_("sawtooth"),
    "d-rings": N_("D-rings"),
    "keyholes": N_("keyholes"),
    "strips": N_("strips"),
    "cleat": N_("cleat"),
    "ledge": N_("ledge"),
}

SURFACES = {
    "painted-board": N_("painted plasterboard"),
    "plaster": N_("plaster"),
    "lath": N_("plaster on lath"),
    "masonry": N_("masonry"),
    "wallpaper": N_("wallpaper"),
    "textured": N_("textured coating"),
    "tile": N_("tiles"),
    "timber": N_("timber"),
    "unknown": N_("unknown wall"),
}

_STATUS = {
    "standard": N_("from a standard"),
    "published": N_("from a published source"),
    "derived": N_("follows by arithmetic"),
    "common-practice": N_("common practice, no source of standing"),
    "judgement": N_("our judgement"),
    "memory": N_("from memory, unverified"),
    "own": N_("your own entry"),
    "packet": N_("off your packet"),
}


def name_of(record: StripClass | Fixing | WireClass | ObstacleClass | Material | HardwareMass) -> str:
    """What the record is called: the person's own name for it, else the program's."""
    return record.name or say(_RECORDS.get(record.entry, record.entry))


def hanger_name(kind: str) -> str:
    """What a hanger is called."""
    return say(HANGERS.get(kind, kind))


def surface_name(kind: str) -> str:
    """What a kind of wall is called."""
    return say(SURFACES.get(kind, kind))


def obstacle_name(kind: str, own_name: str = "") -> str:
    """What an obstacle is called: the name the person gave it, else its kind."""
    return own_name or say(_RECORDS.get(f"obstacle:{kind}", kind))


def status_words(status: Status) -> str:
    """How far a figure can be trusted, in words."""
    return say(_STATUS[status])


def strip_measures_note() -> str:
    """What stands beside every width and length of strips."""
    return say("Measure your packet's strips: width and length are defaults.")
