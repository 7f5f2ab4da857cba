"""Texts: named parameters, grammatical number, bad translations, the longer pseudo-language."""

import ast
import gettext
import string
from collections.abc import Iterator
from pathlib import Path

import pytest
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po
from hypothesis import given
from hypothesis import strategies as st

from composer import texts
from composer.texts import N_, PSEUDO_LANGUAGE, say, say_many, use_language

COMPOSER = Path(__file__).parents[2] / "composer"


@pytest.fixture(autouse=True)
def _english_again() -> Iterator[None]:
    yield
    use_language(None)


def test_a_text_is_filled_with_its_named_values() -> None:
    assert say("Piece {number} hangs {drop} below.", number=3, drop="2 in") == "Piece 3 hangs 2 in below."
    assert say(N_("no values, {braces} stay")) == "no values, {braces} stay"
    assert say_many("{count} piece", "{count} pieces", 1) == "1 piece"
    assert say_many("{count} piece", "{count} pieces", 0) == "0 pieces"


@pytest.mark.parametrize(
    "slip", ["Stück {nummer}", "Stück {number", "Stück {}", "Stück {number.x.y}", "Stück {number:q}"]
)
def test_a_slip_of_the_translator_falls_back_to_english(slip: str, monkeypatch: pytest.MonkeyPatch) -> None:
    class Bad(gettext.NullTranslations):
        def gettext(self, message: str) -> str:
            return slip

    monkeypatch.setattr(texts, "_translation", lambda: Bad())
    assert say("Piece {number}", number=3) == "Piece 3"


def test_a_real_catalogue_is_read_and_a_broken_one_is_not(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    # The catalogue is written by babel, another program than the one that reads it.
    folder = tmp_path / "locale" / "de" / "LC_MESSAGES"
    folder.mkdir(parents=True)
    source = tmp_path / "de.po"
    source.write_text('msgid "Piece {number}"\nmsgstr "Stück {number}"\n', encoding="utf-8")
    with source.open("rb") as read, (folder / "wallwright.mo").open("wb") as written:
        write_mo(written, read_po(read, locale="de", charset="utf-8"))
    monkeypatch.setattr(texts, "resource", lambda name: tmp_path / name)
    use_language("de")
    assert say("Piece {number}", number=3) == "Stück 3"
    (folder / "wallwright.mo").write_bytes(b"not a catalogue")
    use_language("de")
    assert say("Piece {number}", number=3) == "Piece 3"


def test_english_before_another_language_means_english(monkeypatch: pytest.MonkeyPatch) -> None:
    # GNU gettext manual, "Specifying a Priority List of Languages": LANGUAGE lists them in order.
    monkeypatch.delenv("WALLWRIGHT_LANGUAGE", raising=False)
    monkeypatch.setenv("LANGUAGE", "en_GB:de")
    assert texts._languages() == []
    monkeypatch.setenv("LANGUAGE", "de_AT:en")
    assert texts._languages() == ["de_AT", "de"]


@given(st.text(string.ascii_letters + " ,.", min_size=10), st.sampled_from(["{name}", "{count:.1f}", "{{"]))
def test_the_pseudo_language_is_40_percent_longer_and_keeps_placeholders(words: str, placeholder: str) -> None:
    longer = texts._lengthen(words + placeholder + words)
    assert placeholder in longer
    assert len(longer) - len(placeholder) == pytest.approx(2 * len(words) * 1.4, abs=1)


@pytest.mark.parametrize("smuggled", ["\n", "\r\n", "\x1b[31m", "\x00", "\u2028", "\u202e", "\u2067", "\x85", "\ud800"])
def test_a_line_stays_one_line_whatever_a_file_holds(smuggled: str) -> None:
    """Line ends as Unicode counts them (UAX 14), terminal commands (ECMA-48), marks that turn a line (UAX 9)."""
    line = texts.one_line(f"Piece 3 “a{smuggled}b” has no name.")
    assert line.splitlines() == [line]
    assert line.encode("utf-8")
    assert not set(smuggled.strip("[31m")) & set(line)
    assert texts.one_line("1\u00a0250\u202fmm — “Åse’s”, שלום, 漢字") == "1\u00a0250\u202fmm — “Åse’s”, שלום, 漢字"


def test_the_pseudo_language_speaks() -> None:
    use_language(PSEUDO_LANGUAGE)
    spoken = say("Piece {number} has no name.", number=3)
    assert spoken.startswith("⟦Pîéçé 3 hås")
    assert spoken.endswith("⟧")


def _calls() -> Iterator[tuple[str, ast.Call]]:
    for path in sorted(COMPOSER.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in {"say", "say_many"}:
                yield f"{path.relative_to(COMPOSER)}:{node.lineno}", node


def _placeholders(message: str) -> set[str]:
    return {name.split(".")[0].split("[")[0] for _, name, _, _ in string.Formatter().parse(message) if name is not None}


def test_every_text_gets_exactly_the_values_it_names() -> None:
    wrong = []
    for place, call in _calls():
        messages = [arg for arg in call.args[:2] if isinstance(arg, ast.Constant) and isinstance(arg.value, str)]
        if not messages or any(keyword.arg is None for keyword in call.keywords):
            continue  # looked up in a table of N_ texts, or the values come as one mapping
        passed = {keyword.arg for keyword in call.keywords if keyword.arg}
        many = isinstance(call.func, ast.Name) and call.func.id == "say_many"
        named = set().union(*(_placeholders(str(message.value)) for message in messages))
        if passed - named or named - passed - ({"count"} if many else set()):
            wrong.append((place, passed ^ named))
    assert not wrong


def test_no_text_is_glued_together() -> None:
    glued = [place for place, call in _calls() if isinstance(call.args[0], ast.JoinedStr | ast.BinOp)]
    assert not glued
