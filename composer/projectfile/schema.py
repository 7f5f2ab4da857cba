"""What a project file holds: a named, numbered envelope around one project, as readable JSON.

Lengths and weights are strings as the person wrote them, money is a string of digits, positions
are numbers in millimetres. Reading is strict: an unknown field, a wrong type or a record that
cannot be is refused with its place in the file, because a guess would be saved over the truth.
"""

import re
from typing import Any, Final, Literal

import msgspec

from composer import __version__
from composer.model import Project
from composer.projectfile.errors import BadProject, NewerFormat, NotAProject
from composer.projectfile.migrations import FORMAT_VERSION, migrate
from composer.texts import say
from composer.units import Length, Mass

FORMAT: Final = "wallwright-project"
LARGEST_BYTES = 32 * 1024 * 1024
"""A larger file is not read. A project of 1 000 pieces is below 2 MB; reading takes twelve times the file's size."""


class Envelope(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A project file as a whole. ``program`` is the version that wrote it, for information only."""

    format: Literal["wallwright-project"]
    version: Literal[1]
    program: str
    project: Project


def encode(project: Project) -> bytes:
    """The project's file: UTF-8 JSON indented by two spaces, with a last line end.

    Reading the bytes and encoding the project again gives the same bytes.
    """
    envelope = Envelope(format=FORMAT, version=FORMAT_VERSION, program=__version__, project=project)
    return msgspec.json.format(msgspec.json.encode(envelope, enc_hook=_plain), indent=2) + b"\n"


def decode(data: bytes, name: str) -> Project:
    """The project in a file's bytes.

    Args:
        data: the bytes.
        name: of the file, for the sentence.

    Raises:
        NotAProject: it is something else.
        NewerFormat: a newer program wrote it.
        BadProject: it is a project with something impossible in it.
    """
    raw = _envelope(data, name)
    version = raw.get("version")
    if isinstance(version, bool) or not isinstance(version, int) or version < 1:
        raise BadProject(name, "version", say("a whole number from 1 up is expected."))
    if version > FORMAT_VERSION:
        raise NewerFormat(name, version, FORMAT_VERSION)
    unknown = sorted(set(raw) - {"format", "version", "program", "project"})
    if unknown:
        raise BadProject(name, "", say("there is no field “{field}” in this format.", field=unknown[0][:60]))
    project = raw.get("project")
    if not isinstance(project, dict):
        raise BadProject(name, "project", say("the project itself is missing."))
    try:
        return msgspec.convert(migrate(project, version), Project, dec_hook=_typed)
    except msgspec.ValidationError as error:
        where, what = _place_and_sentence(str(error))
        raise BadProject(name, where, what) from None
    except RecursionError:
        raise BadProject(name, "", say("it is nested too deeply.")) from None


def looks_like_project(start: bytes) -> bool:
    """Whether a file beginning with these bytes claims to be a project, be it whole or cut off."""
    return re.match(rb'\s*\{\s*"format"\s*:\s*"wallwright-project"', start.removeprefix(b"\xef\xbb\xbf")) is not None


def json_schema() -> dict[str, Any]:
    """The JSON Schema (draft 2020-12) of project files, without the records' own explanations.

    These are written for readers of the program and change without the format.
    """
    schema: dict[str, Any] = msgspec.json.decode(
        msgspec.json.encode(msgspec.json.schema(Envelope, schema_hook=_schema_of))
    )
    for record in schema["$defs"].values():
        record.pop("description", None)
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}


def _envelope(data: bytes, name: str) -> dict[str, Any]:
    if len(data) > LARGEST_BYTES:
        raise NotAProject(
            say("“{file}” is larger than {most} MB; no project is.", file=name, most=LARGEST_BYTES // 1024**2)
        )
    try:
        raw = msgspec.json.decode(data.removeprefix(b"\xef\xbb\xbf"))
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
        if not looks_like_project(data):
            raise NotAProject(say("“{file}” is not a Wallwright project.", file=name)) from None
        if isinstance(error, RecursionError):
            raise BadProject(name, "", say("it is nested too deeply.")) from None
        raise BadProject(
            name,
            say("byte {position}", position=_broken_at(data, error)),
            say("it breaks off or is not JSON from there on."),
        ) from None
    if not isinstance(raw, dict) or raw.get("format") != FORMAT:
        raise NotAProject(say("“{file}” is not a Wallwright project.", file=name))
    return raw


def _broken_at(data: bytes, error: Exception) -> int:
    """Where the bytes stop being JSON; the reader counts from the start of a text where it is not UTF-8."""
    if isinstance(error, UnicodeDecodeError):
        try:
            data.decode()
        except UnicodeDecodeError as first:
            return first.start
    found = re.search(r"byte (\d+)", str(error))
    return int(found[1]) if found else len(data)


def _plain(value: object) -> str:
    if isinstance(value, Length | Mass):
        return value.text
    raise NotImplementedError(type(value).__name__)


def _typed(wanted: type, found: object) -> object:
    if wanted is Length or wanted is Mass:
        if not isinstance(found, str):
            raise ValueError(say("a text such as “61.5 cm” is expected, not {found}.", found=repr(found)[:40]))
        return Length.from_text(found) if wanted is Length else Mass.from_text(found)
    raise NotImplementedError(wanted.__name__)


def _schema_of(wanted: type) -> dict[str, Any]:
    if wanted is Length:
        return {"type": "string", "description": "A length with its unit, as typed: 23 5/8 in, 61.5 cm."}
    if wanted is Mass:
        return {"type": "string", "description": "A mass with its unit, as typed: 1.2 kg, 1 lb 4 oz."}
    raise NotImplementedError(wanted.__name__)


_LONGEST = 300
"""Characters of the reader's own words that are passed on; it quotes whatever the file holds."""


def _place_and_sentence(message: str) -> tuple[str, str]:
    """Place and sentence from the reader's own words: ``Expected `str`, got `int` - at `$.pieces[0].name```."""
    words, _, place = message.rpartition(" - at `")
    if not words:
        words, place = message, ""
    where = place.removesuffix("`").removeprefix("$").removeprefix(".")
    if found := re.fullmatch(r"Object contains unknown field `(.*)`", words, re.DOTALL):
        return where, say("there is no field “{field}” in this format.", field=found[1][:60])
    if found := re.fullmatch(r"Object missing required field `(.*)`", words):
        return where, say("the field “{field}” is missing.", field=found[1])
    if found := re.fullmatch(r"Expected (.*), got (.*)", words):
        expected, got = (part.replace("`", "") for part in found.groups())
        return where, say("{expected} is expected, not {found}.", expected=expected, found=got)
    if found := re.fullmatch(r"Invalid (?:enum )?value (.*)", words, re.DOTALL):
        return where, say("{found} is not one of the words allowed there.", found=found[1][:60])
    plain = words.replace("`", "").rstrip(".")
    return where, (plain if len(plain) <= _LONGEST else f"{plain[:_LONGEST]}…") + "."
