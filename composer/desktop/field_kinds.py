"""Every kind of field, by one import."""

from composer.desktop.field_choices import CheckField, ChoiceField
from composer.desktop.field_measures import LengthField, MassField, PositionField, bare_unit, other_unit
from composer.desktop.field_words import MoneyField, NoteField, NumberField, TextField

__all__ = [
    "CheckField",
    "ChoiceField",
    "LengthField",
    "MassField",
    "MoneyField",
    "NoteField",
    "NumberField",
    "PositionField",
    "TextField",
    "bare_unit",
    "other_unit",
]
