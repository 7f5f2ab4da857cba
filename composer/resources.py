"""Finds the files the program ships, in an installed wheel or in a checkout."""

from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path


def resource(name: str) -> Traversable:
    """A file or folder below ``resources/``; it need not exist."""
    return _find("_resources", "resources") / name


def sample(name: str) -> Traversable:
    """A file below ``samples/``; it need not exist."""
    return _find("_samples", "samples") / name


def _find(packed: str, beside: str) -> Traversable:
    """In a wheel the folder lies in the package; in a checkout or an editable install, beside it."""
    found = files("composer") / packed
    return found if found.is_dir() else Path(__file__).resolve().parent.parent / beside
