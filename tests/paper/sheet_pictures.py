"""Pictures of every kind of paper, drawn from the finished PDF by a reader that is not ours (PDFium)."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pypdfium2

from composer.model import Project
from composer.paper.kept_sheets import Economy
from composer.paper.kinds import KINDS, NothingToPrint, PaperOptions, build
from composer.paper.pdf import to_pdf
from composer.paper.sheet_request import SheetTooSmall
from composer.paper.sheets import sheet_named
from composer.projectfile import store
from composer.texts import PSEUDO_LANGUAGE, use_language
from tests.paper.sheet_projects import LONG_NAMES, nine
from tests.paper.twelve_frames import twelve

DPI = 100
LONGEST_PX = 2400
SAMPLES = Path(__file__).resolve().parents[2] / "samples"
FULL_SIZE = ("templates", "wall")


@dataclass(frozen=True)
class Look:
    """One set of paper to be looked at."""

    name: str
    project: Project
    kinds: tuple[str, ...] = KINDS
    sheet: str | None = None
    economy: Economy = "full"
    language: str | None = None
    folder: Path | None = None


def looks() -> Iterator[Look]:
    """All samples as they come; then every economy, every shape of paper, long names and longer words."""
    for path in sorted(SAMPLES.glob("*.wallwright")):
        yield Look(path.stem, store.load(path).project, folder=path.parent)
    for economy in ("outline", "corners", "points"):
        yield Look(f"nine-{economy}", nine(), FULL_SIZE[:1], economy=economy)
    yield Look("nine-letter-inches", nine("imperial"), sheet="letter")
    yield Look("nine-roll", nine(), FULL_SIZE, sheet="roll-24in")
    yield Look("nine-a3", nine(), sheet="a3")
    yield Look("nine-long-words", nine(names=LONG_NAMES), language=PSEUDO_LANGUAGE)
    yield Look("twelve", twelve(), FULL_SIZE[:1])


def take(folder: Path) -> Iterator[Path]:
    """Writes the pictures, a file a page, and yields their paths."""
    for look in looks():
        use_language(look.language)
        try:
            for kind in look.kinds:
                yield from take_one(folder, look, kind)
        finally:
            use_language(None)


def take_one(folder: Path, look: Look, kind: str) -> Iterator[Path]:
    """Writes the pictures of one kind of paper; none where there is nothing to print."""
    usual = PaperOptions.usual(look.project)
    sheet = sheet_named(look.sheet) if look.sheet else usual.sheet
    options = PaperOptions(sheet, economy=look.economy, folder=look.folder)
    try:
        made = to_pdf(build(look.project, kind, options).document)
    except (NothingToPrint, SheetTooSmall):
        return
    pages = pypdfium2.PdfDocument(made)
    for number in range(len(pages)):
        page = pages[number]
        scale = min(DPI / 72, LONGEST_PX / max(page.get_size()))
        target = folder / f"{look.name}-{kind}-{number + 1:02}.png"
        page.render(scale=scale, grayscale=True).to_pil().save(target)
        yield target
