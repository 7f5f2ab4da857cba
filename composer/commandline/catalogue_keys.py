"""Keys of ``set`` about the project's own catalogue: ``packet.ENTRY.FIGURE`` and ``own.KIND.ID.FIGURE``."""

import re

from composer.catalogue.catalogue import of
from composer.commandline.answers import Refused
from composer.commandline.near import suggestion
from composer.editing.catalogue_edits import OWN_KINDS, figures_of, own_entry, record_named, type_over
from composer.model import Project
from composer.projectfile.cells import folded, plain_text
from composer.texts import say
from composer.units import read_length, read_mass

_UNITS = ("_mm", "_kg", "_s", "_min", "_h", "_g_m2", "_kg_m3")

_OWN_FIGURES = {
    "fixing": ("load_kg", "offset_mm", "pack", "drill_mm", "plug_mm"),
    "wire": ("breaking_kg",),
}
_MATERIAL_FIGURES = ("specific_gravity", "density_kg_m3", "grammage_g_m2", "usual_mm", "spread")
_OWN_WORDS = ("name", "source", "walls", "kind")


def set_packet(project: Project, key: str, value: str) -> Project:
    """A packet's figure typed over the catalogue's; empty takes it back.

    Raises:
        Refused, EditRefused: for an entry, a figure or a value that cannot be.
    """
    _, _, rest = key.partition(".")
    entry, _, figure = rest.rpartition(".")
    record = record_named(of(project.catalogue), entry)
    if record is None:
        raise Refused(say("the catalogue has no “{entry}”; the manual lists them.", entry=entry[:60]))
    field = _field(figure, figures_of(record))
    return type_over(entry, field, _number(field, value) if value else None).run(project)


def set_own(project: Project, key: str, value: str) -> Project:
    """One figure or word of a class of the person's own; the first one makes it.

    Raises:
        Refused, EditRefused: as above.
    """
    _, _, rest = key.partition(".")
    kind, _, rest = rest.partition(".")
    name, _, figure = rest.rpartition(".")
    if kind not in OWN_KINDS:
        raise Refused(say("KIND is one of {kinds}.", kinds=", ".join(OWN_KINDS)))
    if not re.fullmatch(r"[a-z0-9][a-z0-9-]*", name):
        raise Refused(say("ID is of small letters, digits and “-”, not “{name}”.", name=name[:40]))
    if figure in ("name", "source"):
        words = plain_text(value)
        return own_entry(kind, name, {}, **{figure: words}).run(project)
    if figure in ("walls", "kind") and kind == "fixing":
        return own_entry(kind, name, {figure: plain_text(value)}).run(project)
    field = _field(figure, (*_OWN_FIGURES.get(kind, _MATERIAL_FIGURES), *_OWN_WORDS))
    return own_entry(kind, name, {field: _number(field, value)}).run(project)


def _field(figure: str, known: tuple[str, ...]) -> str:
    """The figure's full name, given with or without its unit: ``load`` is ``load_kg``."""
    for field in known:
        bare = next((field.removesuffix(unit) for unit in _UNITS if field.endswith(unit)), field)
        if folded(figure) in (folded(field), folded(bare)):
            return field
    raise Refused(say("there is no figure “{figure}”. {hint}", figure=figure[:40], hint=suggestion(figure, known)))


def _number(field: str, value: str) -> float:
    if field.endswith("_kg") and re.search(r"[a-z]", value):
        return float(read_mass(value).kg)
    if field.endswith("_mm") and re.search(r"[a-z\"″]", value):
        return float(read_length(value, bare="mm", zero=True, minus=True).mm)
    bare = re.sub(r"\s*(kg/m3|kg/m³|g/m2|g/m²|min|s|h)$", "", value.strip()).replace(",", ".")
    try:
        return float(bare)
    except ValueError:
        raise Refused(say("a number is expected, not “{found}”.", found=value[:40])) from None
