"""The list of texts for translators, ``resources/locale/wallwright.pot``, taken from the code.

python tests/texts_catalogue.py    writes it anew
"""

import io
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import write_po

ROOT = Path(__file__).resolve().parent.parent
CATALOGUE = ROOT / "resources" / "locale" / "wallwright.pot"
KEYWORDS: dict[str, tuple[int, ...] | None] = {"say": None, "say_many": (1, 2), "N_": None}


def catalogue() -> str:
    """The list as text: sorted, without line numbers, so that only a changed sentence changes it."""
    texts = Catalog(project="Wallwright", charset="utf-8")
    for _, _, message, comments, context in extract_from_dir(ROOT / "composer", keywords=KEYWORDS):
        texts.add(message, auto_comments=comments, context=context)
    out = io.BytesIO()
    write_po(out, texts, no_location=True, omit_header=True, sort_output=True, width=0)
    head = 'msgid ""\nmsgstr ""\n"Content-Type: text/plain; charset=utf-8\\n"\n"Content-Transfer-Encoding: 8bit\\n"\n\n'
    return head + out.getvalue().decode()


if __name__ == "__main__":
    CATALOGUE.parent.mkdir(parents=True, exist_ok=True)
    CATALOGUE.write_text(catalogue(), encoding="utf-8")
