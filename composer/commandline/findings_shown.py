"""Findings as lines of text and as JSON."""

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from composer.findings import sentences
from composer.findings.cache import FindingsCache
from composer.model import Finding, Picture, Project
from composer.paper.unprintable import unprintable
from composer.texts import say

if TYPE_CHECKING:
    from composer.projectfile.pictures_read import Read


def found(project: Project, folder: Path, arrangement: str | None = None) -> tuple[Finding, ...]:
    """All findings, those that need the paper's typeface and the pictures' files included."""
    if all(piece.current_use is None for piece in project.pieces):
        return FindingsCache(unprintable).check(project, arrangement)
    from composer.projectfile.pictures_read import read_pictures

    return found_in(read_pictures(project, folder), arrangement)


def found_in(read: "Read", arrangement: str | None = None) -> tuple[Finding, ...]:
    """All findings of a project whose pictures' files have been looked into."""

    def state(picture: Picture) -> str:
        seen = read.found[picture.key]
        if seen.state == "bad":
            return seen.refused
        return seen.state if seen.state in ("missing", "changed") else ""

    return FindingsCache(unprintable, state).check(read.project, arrangement)


def lines_of(findings: Iterable[Finding], project: Project) -> list[str]:
    """``LEVEL code #1,#4 text — do``, one line each."""
    style = project.length_style
    lines = []
    for finding in findings:
        pieces = ",".join(f"#{number}" for number in finding.pieces)
        line = " ".join(part for part in (finding.level, finding.code, pieces, sentences.text(finding, style)) if part)
        line += f" — {sentences.do(finding, style)}"
        if finding.overridden is not None:
            line += " " + say("(overridden: {reason})", reason=finding.overridden)
        lines.append(" ".join(line.split("\n")))
    return lines


def as_plain(findings: Iterable[Finding], project: Project) -> list[dict[str, Any]]:
    """The findings as JSON has them."""
    style = project.length_style
    plain = []
    for finding in findings:
        record: dict[str, Any] = {
            "level": finding.level,
            "code": finding.code,
            "pieces": list(finding.pieces),
            "text": sentences.text(finding, style),
            "do": sentences.do(finding, style),
        }
        if finding.overridden is not None:
            record["overridden"] = finding.overridden
        plain.append(record)
    return plain
