"""What is wrong, risky or left to do: checks that read one project and name codes with values.

A check is a plain function whose parameters are exactly what it may read; so its answer can be kept
for as long as those very objects stay in the project.
"""

from composer.findings.cache import FindingsCache, check
from composer.findings.quick import Trouble, quick_findings

__all__ = ["FindingsCache", "Trouble", "check", "quick_findings"]
