"""Three short hints at the first start, one after the other; each that is answered never comes again."""

from __future__ import annotations

from typing import TYPE_CHECKING

from composer.texts import N_, say

if TYPE_CHECKING:
    from composer.desktop.main_window import MainWindow

ABOUT = "hint"

HINTS = (
    (
        "hang",
        N_("Drag a frame from the floor to the wall. Or press Space, move it with the arrow keys, and press Enter."),
    ),
    (
        "card",
        N_("The card at the right is that of whatever is selected: a frame's tells where its hooks go, and why there."),
    ),
    (
        "paper",
        N_("Findings at the foot say what is still wrong; Templates prints every hanging point at full size."),
    ),
)
"""Name in the settings, and what is said."""


class Hints:
    """Shows in the notice bar what was not closed yet."""

    def __init__(self, window: MainWindow) -> None:
        self._window = window

    def show_next(self) -> None:
        """The first hint that was not answered; nothing once all were."""
        for number, (name, words) in enumerate(HINTS, 1):
            if not self._window.settings.hint_closed(name):
                self._window.notices.show_notice(
                    ABOUT,
                    say("{number} of {count}. {hint}", number=number, count=len(HINTS), hint=say(words)),
                    [(say("Next Hint"), self._next), (say("No More Hints"), self._no_more)][number == len(HINTS) :],
                    can_close=False,
                )
                return

    def _next(self) -> None:
        settings = self._window.settings
        settings.close_hint(next(name for name, _ in HINTS if not settings.hint_closed(name)))
        self.show_next()

    def _no_more(self) -> None:
        for name, _ in HINTS:
            self._window.settings.close_hint(name)
