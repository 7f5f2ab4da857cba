"""What was read off the scale check, and what follows for the printer; kept for this printer and sheet."""

from __future__ import annotations

from datetime import date

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from composer.desktop import field_look as look
from composer.desktop.field_measures import LengthField
from composer.desktop.field_row import FieldRow, LinkButton, Words
from composer.desktop.printing.correction import Correction, correct
from composer.desktop.printing.proposals import SHEET_NAMES
from composer.desktop.settings import Settings
from composer.desktop.units_shown import number
from composer.paper.kinds import PaperOptions
from composer.paper.scale_check import rulers
from composer.texts import say
from composer.units import Length, LengthStyle


class ScaleFields(QWidget):
    """Two readings and the sentence of what is done with them.

    Signals:
        corrected: carries the draw factors across and up.
        wanted: the scale check is to be shown.
    """

    corrected = Signal(float, float)
    wanted = Signal()

    def __init__(
        self, settings: Settings | None, printer: str, *, imperial: bool, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._settings, self._printer, self._imperial = settings, printer, imperial
        self._options: PaperOptions | None = None
        self._nominal = (180.0, 250.0)
        self._when = ""
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(look.px(6))
        heading = say("Scale correction, by what you read off the scale check")
        column.addWidget(Words(heading, 12, "pencil", semibold=True))
        bare = "in" if imperial else "mm"
        self.across = LengthField(say("Ruler across reads"), bare=bare)
        self.up = LengthField(say("Ruler up reads"), bare=bare)
        for field in (self.across, self.up):
            field.committed.connect(self._on_read)
        column.addWidget(FieldRow(*((field.accessibleName(), field) for field in (self.across, self.up))))
        self.words = Words("", 12, "pencil")
        column.addWidget(self.words)
        show = LinkButton(say("Show the scale check"))
        show.clicked.connect(self.wanted)
        column.addWidget(show)

    def show_paper(self, options: PaperOptions) -> None:
        """Other paper has other rulers, and its own readings."""
        self._options = options
        request = options.request()
        found = rulers(request.area, imperial=self._imperial, scale=(1.0, 1.0))
        self._nominal = (found.across, found.up)
        kept = None if self._settings is None else self._settings.printer_reading(self._printer, options.sheet.name)
        across, up, self._when = kept or ("", "", "")
        style = LengthStyle("in") if self._imperial else LengthStyle("mm")
        for field, text, nominal in ((self.across, across, found.across), (self.up, up, found.up)):
            field.set_value(Length.from_text(text) if text else None)
            field.set_placeholder(number(nominal, style))
        self._follow()

    def _on_read(self, _: object) -> None:
        self._when = date.today().isoformat()
        if self._settings is not None and self._options is not None:
            across, up = ("" if field.value is None else field.value.text for field in (self.across, self.up))
            self._settings.keep_printer_reading(self._printer, self._options.sheet.name, across, up, self._when)
        self._follow()

    def _follow(self) -> None:
        if self._options is None:
            return
        sheet = self._options.sheet
        size = (sheet.width_mm, sheet.height_mm or sheet.width_mm)
        name = SHEET_NAMES.get(sheet.name, sheet.name)
        found = [
            Correction(1.0, "") if field.value is None else correct(nominal, float(field.value.mm), name, size)
            for field, nominal in ((self.across, self._nominal[0]), (self.up, self._nominal[1]))
        ]
        refused = any(one.refused for one in found)
        sentences = [one.sentence for one in found if one.sentence and (one.refused or not refused)]
        words = " ".join(dict.fromkeys(sentences))
        if not words:
            words = say("Print the scale check once for this printer and paper, and type what a steel ruler says.")
        elif self._when:
            words = say("{words} Read on {when}, {sheet}.", words=words, when=self._when, sheet=name)
        self.words.set_shade("stop" if refused else "pencil")
        self.words.setText(words)
        factors = (1.0, 1.0) if refused else (found[0].factor, found[1].factor)
        self.corrected.emit(*factors)
