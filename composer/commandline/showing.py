"""The calls ``report`` and ``check``."""

import json

from composer.commandline.answers import Exit, answer
from composer.commandline.files import opened
from composer.commandline.findings_shown import as_plain, found, found_in, lines_of
from composer.commandline.lookup import arrangement_named
from composer.commandline.parsing import Given
from composer.commandline.report import build


def report(given: Given) -> int:
    """``report FILE``: everything known and computed, as JSON."""
    file = opened(given.words[0])
    arrangement = arrangement_named(file.project, given.option("--arrangement"))
    project, folder = file.project, file.path.parent
    if any(piece.current_use is not None for piece in project.pieces):
        from composer.projectfile.pictures_read import read_pictures

        read = read_pictures(project, folder)
        project, findings = read.project, found_in(read, arrangement.key)
    else:
        findings = found(project, folder, arrangement.key)
    answer(_json(build(project, arrangement, as_plain(findings, project), more=given.has("--more"))))
    return Exit.DONE


def check(given: Given) -> int:
    """``check FILE``: findings, most serious first; the answer is no while a stop stands without an override."""
    file = opened(given.words[0])
    findings = found(file.project, file.path.parent)
    if given.has("--json"):
        answer(_json(as_plain(findings, file.project)))
    else:
        answer("".join(f"{line}\n" for line in lines_of(findings, file.project)))
    standing = any(finding.level == "stop" and finding.overridden is None for finding in findings)
    return Exit.NO if standing else Exit.DONE


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, allow_nan=False, indent=1) + "\n"
