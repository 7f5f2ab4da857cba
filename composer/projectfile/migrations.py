"""Steps that bring a project file of an older format up to the one this program writes.

A step takes the raw ``project`` object of format n and returns that of format n + 1. It works on
plain dictionaries, never on today's records, so that it still does the same when they have changed.
"""

from collections.abc import Callable
from typing import Any, Final

FORMAT_VERSION: Final = 1
"""The format this program writes."""

Step = Callable[[dict[str, Any]], dict[str, Any]]

STEPS: dict[int, Step] = {}
"""Step by the version it starts from."""


def step(version: int) -> Callable[[Step], Step]:
    """Registers the step from ``version`` to the next."""

    def register(migrate: Step) -> Step:
        if version in STEPS:
            raise ValueError(f"two steps start from format {version}")
        STEPS[version] = migrate
        return migrate

    return register


def migrate(raw: dict[str, Any], version: int, to: int = FORMAT_VERSION) -> dict[str, Any]:
    """The project object of format ``version`` brought to format ``to``, one registered step after the other."""
    for start in range(version, to):
        raw = STEPS[start](raw)
    return raw
