"""What of a text paper cannot print, told without reading the font where the font surely has all of it."""


def unprintable(text: str) -> str:
    """The signs of ``text`` the sheets' font lacks, each once, in order."""
    if all(" " <= sign <= "~" or "\u00a0" <= sign <= "\u017e" for sign in text):
        return ""
    from composer.paper.type_metrics import missing_glyphs

    return "".join(missing_glyphs(text))
