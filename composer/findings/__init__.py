"""What is wrong, risky or left to do: checks that read one project and name codes with values.

A check is a plain function whose parameters are exactly what it may read; so its answer can be kept
for as long as those very objects stay in the project.
"""

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from composer.findings.cache import FindingsCache, check
    from composer.findings.quick import Trouble, quick_findings

__all__ = ["FindingsCache", "Trouble", "check", "quick_findings"]


def __getattr__(name: str) -> Any:
    """Loads the checks when one is asked for: a piece's readiness alone needs none of them."""
    from importlib import import_module

    if name in {"FindingsCache", "check"}:
        return getattr(import_module("composer.findings.cache"), name)
    if name in {"Trouble", "quick_findings"}:
        return getattr(import_module("composer.findings.quick"), name)
    raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
