"""Reads what ships in ``resources/catalogue/``, each file once and only when first asked for."""

from functools import lru_cache

import msgspec

from composer.catalogue.records import Fixing, HardwareMass, Material, ObstacleClass, StripClass, StripRules, WireClass
from composer.resources import resource


class StripsFile(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """``strips.json``."""

    classes: tuple[StripClass, ...]
    rules: StripRules


class FixingsFile(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """``fixings.json``."""

    fixings: tuple[Fixing, ...]


class WiresFile(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """``wires.json``."""

    wires: tuple[WireClass, ...]


class ObstaclesFile(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """``obstacles.json``."""

    kinds: tuple[ObstacleClass, ...]


class MaterialsFile(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """``materials.json``; the list a material stands in is its kind."""

    mouldings: tuple[Material, ...]
    glazing: tuple[Material, ...]
    backings: tuple[Material, ...]
    boards: tuple[Material, ...]
    papers: tuple[Material, ...]
    hardware: tuple[HardwareMass, ...]


@lru_cache(maxsize=1)
def strips() -> StripsFile:
    """The classes of strips and the rules for placing them."""
    return msgspec.json.decode(resource("catalogue/strips.json").read_bytes(), type=StripsFile)


@lru_cache(maxsize=1)
def fixings() -> FixingsFile:
    """The fixings."""
    return msgspec.json.decode(resource("catalogue/fixings.json").read_bytes(), type=FixingsFile)


@lru_cache(maxsize=1)
def wires() -> WiresFile:
    """Picture wires."""
    return msgspec.json.decode(resource("catalogue/wires.json").read_bytes(), type=WiresFile)


@lru_cache(maxsize=1)
def obstacles() -> ObstaclesFile:
    """The kinds of obstacles."""
    return msgspec.json.decode(resource("catalogue/obstacles.json").read_bytes(), type=ObstaclesFile)


@lru_cache(maxsize=1)
def materials() -> MaterialsFile:
    """Mouldings, glazing, backings, mat boards, papers and hanging hardware."""
    read = msgspec.json.decode(resource("catalogue/materials.json").read_bytes(), type=MaterialsFile)
    return MaterialsFile(
        mouldings=read.mouldings,
        glazing=tuple(msgspec.structs.replace(material, kind="glazing") for material in read.glazing),
        backings=tuple(msgspec.structs.replace(material, kind="backing") for material in read.backings),
        boards=tuple(msgspec.structs.replace(material, kind="board") for material in read.boards),
        papers=tuple(msgspec.structs.replace(material, kind="paper") for material in read.papers),
        hardware=read.hardware,
    )
