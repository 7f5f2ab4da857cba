"""The window: the only layer that knows Qt.

What needs no Qt is imported before it: once the binding is loaded, it reads the source of every module
that is imported after it, to see whether that one uses Qt (measured: a tenth of a start).
"""

import composer.editing.edits
import composer.findings.readiness
import composer.geometry.nosing
import composer.model
import composer.projectfile.lock
import composer.projectfile.store  # noqa: F401 (all of these for the order alone)
