"""A long print job, against a bare loop that hands the same primitives to the PDF library and nothing else.

python tests/benchmarks/bench_paper.py [PAGES]     5 000 pages where no number is given

It prints how fast templates are laid out and written as a share of the bare loop, which does no
layout at all, and what one page more costs in memory. Both are ratios or differences, so that they
mean the same on any computer.
"""

import json
import resource
import subprocess
import sys
from io import BytesIO
from pathlib import Path
from time import process_time
from typing import Any

ROOT = Path(__file__).resolve().parent.parent.parent
if str(ROOT) not in sys.path:
    sys.path.insert(0, str(ROOT))

from reportlab.pdfbase.pdfmetrics import registerFont  # noqa: E402
from reportlab.pdfbase.ttfonts import TTFont  # noqa: E402
from reportlab.pdfgen.canvas import Canvas  # noqa: E402

from composer.model import Project  # noqa: E402
from composer.paper.kinds import PaperOptions, build  # noqa: E402
from composer.paper.pdf import to_pdf  # noqa: E402
from composer.paper.primitives import MM_PER_PT, Box, Circle, Line, Page, Text  # noqa: E402
from composer.paper.sheets import sheet_named  # noqa: E402
from composer.paper.type_metrics import font_file  # noqa: E402
from tests.paper.sheet_projects import at, hanger, piece, project  # noqa: E402

PER_PIECE = 6
"""A frame of 406 × 508 mm takes six A4 sheets."""

COMPARED_PAGES = 600
"""So many pages are held in memory for the bare loop."""

LEAST_SHARE, MOST_KB = 0.6, 15.0


def many_frames(pages: int) -> Project:
    """Frames for so many pages, rounded up to whole frames."""
    frames = [
        piece(number, f"Frame {number}", 406, 508, hanger("wire", drop=97, spacing=342, hooks=2, hook_spacing=102))
        for number in range(1, -(-pages // PER_PIECE) + 1)
    ]
    places = [at(f.number, 100 + 500.0 * (index % 18), 100 + 600.0 * (index // 18)) for index, f in enumerate(frames)]
    return project(frames, places, wall=(9500, 90_000))


def document_of(pages: int) -> Any:
    """The templates of so many pages, not drawn yet."""
    return build(many_frames(pages), "templates", PaperOptions(sheet_named("a4"))).document


def bare(pages: list[Page]) -> bytes:
    """The same primitives straight to the library: no layout, no memory of the pen, no labels or bookmarks."""
    names = {weight: f"bare-{weight}" for weight in ("regular", "semibold", "bold")}
    for weight, name in names.items():
        registerFont(TTFont(name, str(font_file(weight))))  # type: ignore[arg-type]
    target = BytesIO()
    canvas = Canvas(target, pageCompression=1, invariant=1, initialFontName=names["regular"])
    for page in pages:
        canvas.setPageSize((page.size[0] / MM_PER_PT, page.size[1] / MM_PER_PT))
        for item in page.items:
            _bare_item(canvas, item, names)
        canvas.showPage()
    canvas.save()
    return target.getvalue()


def _bare_item(canvas: Any, item: Any, names: dict[str, str]) -> None:
    pt = 1 / MM_PER_PT
    if isinstance(item, Text):
        canvas.setFont(names[item.weight], item.size_pt)
        canvas.setFillGray(item.grey)
        draw = {
            "left": canvas.drawString,
            "centre": canvas.drawCentredString,
            "right": canvas.drawRightString,
        }[item.align]
        if item.turn:
            canvas.saveState()
            canvas.translate(item.x * pt, item.y * pt)
            canvas.rotate(item.turn)
            draw(0, 0, item.text)
            canvas.restoreState()
        else:
            draw(item.x * pt, item.y * pt, item.text)
        return
    filled = getattr(item, "fill_grey", None)
    if item.width_pt is not None:
        canvas.setLineWidth(item.width_pt)
        canvas.setStrokeGray(item.grey)
        canvas.setDash([part * pt for part in getattr(item, "dash", ())])
    if filled is not None:
        canvas.setFillGray(filled)
    flags = {"stroke": int(item.width_pt is not None), "fill": int(filled is not None)}
    if isinstance(item, Line):
        canvas.line(item.x1 * pt, item.y1 * pt, item.x2 * pt, item.y2 * pt)
    elif isinstance(item, Box):
        canvas.rect(item.left * pt, item.bottom * pt, item.width * pt, item.height * pt, **flags)
    elif isinstance(item, Circle):
        canvas.circle(item.x * pt, item.y * pt, item.radius * pt, **flags)
    else:
        path = canvas.beginPath()
        path.moveTo(*(side * pt for side in item.points[0]))
        for point in item.points[1:]:
            path.lineTo(*(side * pt for side in point))
        if item.closed:
            path.close()
        canvas.drawPath(path, **flags)


def measured(pages: int) -> dict[str, float]:
    """In this process: seconds of computing and pages of one whole job, and the most memory it took, kB."""
    to_pdf(document_of(PER_PIECE))  # what is imported and read once is no part of a page
    start = process_time()
    document = document_of(pages)
    planned = process_time() - start
    size = len(to_pdf(document))
    seconds = process_time() - start
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    peak_kb = peak / 1024 if sys.platform == "darwin" else float(peak)
    return {"pages": len(document.pages), "seconds": seconds, "planned": planned, "peak_kb": peak_kb, "kb": size / 1024}


def _in_child(pages: int) -> dict[str, float]:
    done = subprocess.run([sys.executable, __file__, "--child", str(pages)], check=True, capture_output=True, text=True)
    return dict(json.loads(done.stdout))


def main(pages: int) -> int:
    """Measures and prints; 1 when a bar is missed."""
    few, many = _in_child(max(60, pages // 10)), _in_child(pages)
    drawn = list(document_of(COMPARED_PAGES).pages)
    to_pdf(document_of(60))
    rates = []
    for _ in range(3):
        start = process_time()
        bare(drawn)
        rates.append(len(drawn) / (process_time() - start))
    rate = many["pages"] / many["seconds"]
    share = rate / max(rates)
    a_page = (many["peak_kb"] - few["peak_kb"]) / (many["pages"] - few["pages"])
    print(f"{many['pages']:.0f} template pages, {sum(len(p.items) for p in drawn) / len(drawn):.0f} primitives a page")
    print(
        f"  planned, index and all, before the first page is drawn: {many['planned'] / many['seconds']:.0%} of the job"
    )
    print(f"  page rate, laid out and written, to that of the bare loop: {share:.2f} (bar: at least {LEAST_SHARE})")
    print(
        f"  memory a page more: {a_page:.1f} kB (bar: at most {MOST_KB:.0f}), of it the file {many['kb'] / many['pages']:.1f} kB"
    )
    return int(share < LEAST_SHARE or a_page > MOST_KB)


if __name__ == "__main__":
    if "--child" in sys.argv:
        print(json.dumps(measured(int(sys.argv[-1]))))
        sys.exit(0)
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 5000))
