"""Makes the sample walls in ``samples/`` through the command line, as a person would.

python tests/make_samples.py        writes them into samples/
python tests/make_samples.py DIR    writes them into DIR

Invented walls. Rules followed (common practice, no source): the middle of a group on the eye line; 15 to 25 cm
between a sofa and the frames above it; along a stair the eye line runs parallel to the nosings.
"""

import contextlib
import io
import shutil
import sys
import tempfile
from fractions import Fraction
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from composer.commandline import main as call  # noqa: E402
from tests.changing_wall import changing_wall  # noqa: E402

OBSTACLES = "kind,name,left,bottom,width,height,depth,margin\n"

SOFA_PIECES = """name,width,height,depth,face,lip,glazing,backing,weight,hanger,owned,note
Low tide,40.5 cm,50.7 cm,18 mm,30 mm,6 mm,acrylic,,1.1 kg,strips,yes,
Three jars,40.5 cm,24.3 cm,18 mm,30 mm,6 mm,acrylic,,650 g,strips,yes,
The long field,61 cm,45 cm,20 mm,32 mm,6 mm,acrylic,,1.5 kg,strips,yes,
Ferry timetable,61 cm,30 cm,20 mm,32 mm,6 mm,acrylic,,1.1 kg,strips,yes,the moulding is chipped at the back only
Moth,29.7 cm,32 cm,16 mm,28 mm,6 mm,styrene,,600 g,strips,yes,
Stairwell,29.7 cm,43 cm,16 mm,28 mm,6 mm,styrene,,800 g,strips,yes,
Postcards,33.4 cm,24.6 cm,15 mm,28 mm,6 mm,styrene,,550 g,strips,yes,not decided where
Grandmother's sampler,28 cm,35.5 cm,,,,,,,,yes,hanger and weight still to measure
"""

SOFA_OBSTACLES = """sofa,sofa,75 cm,0 cm,210 cm,85 cm,92 cm,
switch,light switch,343 cm,105 cm,8 cm,8 cm,1 cm,
"""

STAIR_PIECES = """name,width,height,depth,face,lip,glazing,backing,weight,hanger,drop,drop-right,spacing,wire,ring-drop,hooks,owned
Aunt at the gate,40 cm,50 cm,2 cm,25 mm,6 mm,glass,,2.2 kg,wire,7.5 cm,,28 cm,,,,yes
School photograph,30 cm,40 cm,18 mm,20 mm,6 mm,glass,,1.3 kg,sawtooth,1.1 cm,,,,,,yes
The mill in snow,45 cm,35 cm,22 mm,30 mm,6 mm,glass,,1.9 kg,d-rings,5.8 cm,6.1 cm,36 cm,,,,yes
Map of the valley,35 cm,45 cm,2 cm,25 mm,6 mm,acrylic,,1.4 kg,keyholes,2.4 cm,,26 cm,,,,yes
Wedding,26.3 cm,31.8 cm,18 mm,20 mm,6 mm,glass,,900 g,wire,,,18 cm,19.2 cm,6 cm,,yes
"""

CORRIDOR_PIECES = """name,width,height,depth,face,lip,glazing,backing,weight,hanger,drop,drop-right,spacing,wire,ring-drop,hooks,hook-spacing,owned
Lighthouse,12 1/4 in,16 3/16 in,7/8 in,3/4 in,1/4 in,glass,,2 lb 3 oz,sawtooth,7/16 in,,,,,,,yes
Bridge works,16 3/16 in,12 1/4 in,7/8 in,3/4 in,1/4 in,glass,,2 lb 3 oz,keyholes,7/8 in,,11 1/2 in,,,,,yes
Barn,20 in,24 in,1 in,1 1/4 in,1/4 in,glass,,5 lb 8 oz,wire,,,15 in,16 1/4 in,4 1/2 in,2,7 in,yes
County map,23 5/8 in,31 1/2 in,1 1/8 in,1 1/4 in,1/4 in,acrylic,,6 lb,d-rings,3 1/8 in,3 1/4 in,19 in,,,,,yes
Orchard,15 1/2 in,19 3/4 in,7/8 in,1 in,1/4 in,glass,,3 lb 6 oz,wire,3 in,,11 in,,,,,yes
Railway panorama,40 in,13 in,1 in,1 in,1/4 in,acrylic,,5 lb,cleat,1 3/4 in,,30 in,,,,,yes
Seed packet,9 3/8 in,11 1/4 in,5/8 in,3/4 in,1/4 in,styrene,,14 oz,ledge,,,,,,,,yes
"""

CORRIDOR_OBSTACLES = """door,door,4 in,0 in,32 in,80 in,2 in,
switch,switch,39 in,46 in,3 in,4 1/2 in,1/2 in,
radiator,radiator,240 in,4 in,36 in,24 in,4 in,
"""


def run(*words: str | Path) -> None:
    """One call; what it says goes to the screen only if it fails."""
    said = io.StringIO()
    with contextlib.redirect_stderr(said), contextlib.redirect_stdout(said):
        code = call([str(word) for word in words])
    if code:
        raise SystemExit(f"{' '.join(map(str, words))}: exit {code}\n{said.getvalue()}")


def make(folder: Path) -> list[Path]:
    """Writes the walls and returns their paths."""
    makers = {
        "sofa-wall": sofa_wall,
        "stair-wall": stair_wall,
        "corridor-inches": corridor,
        "empty-wall": empty_wall,
        "changing-wall": changing,
    }
    made = []
    for name, maker in makers.items():
        with tempfile.TemporaryDirectory() as scratch:
            shutil.copytree(ROOT / "samples" / "pictures", Path(scratch) / "pictures")
            work = Path(scratch) / f"{name}.wallwright"
            maker(work, Path(scratch))
            target = folder / work.name
            target.write_bytes(work.read_bytes())
            made.append(target)
    return made


def table(scratch: Path, name: str, text: str) -> Path:
    """A table written where a call can read it."""
    path = scratch / f"{name}.csv"
    path.write_text(text, encoding="utf-8")
    return path


def with_pictures(pieces: str) -> str:
    """The table with a column for pictures, filled for each piece whose name a file in ``samples/pictures`` has."""
    head, *rows = pieces.splitlines()
    made = [f"{head},picture"]
    for row in rows:
        file = f"pictures/{row.partition(',')[0].lower().replace(' ', '-')}.jpg"
        made.append(f"{row},{file if (ROOT / 'samples' / file).is_file() else ''}")
    return "\n".join(made) + "\n"


def sofa_wall(file: Path, scratch: Path) -> None:
    """A rented flat: painted plasterboard, no holes, everything on strips; three columns with 50 mm between."""
    pieces = table(scratch, "pieces", with_pictures(SOFA_PIECES))
    run("new", file, "--wall-width", "3.6m", "--wall-height", "2.5m", "--pieces", pieces, "--title", "Over the sofa")
    run("set", file, "wall.name=Sofa wall", "wall.kind=painted-board", "wall.no-holes=yes", "wall.right-end=door")
    run("set", file, "wall.eye-line=145 cm", "wall.viewing-distance=2.5 m", "gap=50 mm")
    run("add", file, "obstacles", table(scratch, "obstacles", OBSTACLES + SOFA_OBSTACLES))
    run("set", file, "piece.1.mat-border=5 cm", "piece.3.mat-border=6 cm", "piece.4.mat-border=55 mm")
    columns = [((1, 507), (2, 243), 405), ((4, 300), (3, 450), 610), ((5, 320), (6, 430), 297)]
    gap, middle, eye_line = 50, 1800, 1450
    left = middle - (sum(width for *_, width in columns) + gap * 2) / 2
    for (upper, upper_height), (lower, lower_height), width in columns:
        bottom = eye_line - (upper_height + gap + lower_height) / 2
        place(file, lower, left, bottom)
        place(file, upper, left, bottom + lower_height + gap)
        left += width + gap


def stair_wall(file: Path, scratch: Path) -> None:
    """A stair up to the right under a sloping ceiling; five nailed pieces, middles 1 450 mm above the nosings."""
    pieces = table(scratch, "pieces", with_pictures(STAIR_PIECES))
    run("new", file, "--wall-width", "3.9m", "--wall-height", "4.5m", "--pieces", pieces, "--title", "Up the stairs")
    run("set", file, "wall.outline=0,0 900,0 3900,2100 3900,4000 3000,4500 0,4500", "wall.nosing=900,180 3600,2070")
    run("set", file, "wall.name=Stair wall", "wall.kind=plaster", "gap=60 mm")
    fix(file, "hook-one-nail", "nail-board", "hook-slim", "plug-masonry", "hook-slim")
    gap, slope, left = 60, 0.7, 1100.0
    for number, (width, height) in enumerate(((400, 500), (300, 400), (450, 350), (350, 450), (263, 318)), start=1):
        nosing = 180 + slope * (left + width / 2 - 900)
        place(file, number, left, nosing + 1450 - height / 2)
        left += width + gap


def corridor(file: Path, scratch: Path) -> None:
    """A long corridor measured in inches: seven pieces in a row, middles at 57 in, 6 in between."""
    pieces = table(scratch, "pieces", with_pictures(CORRIDOR_PIECES))
    run(
        "new", file, "--units", "imperial", "--wall-width", "24 ft", "--wall-height", "8 ft", "--pieces", pieces,
        "--title", "The corridor", "--currency", "USD",
    )  # fmt: skip
    run("set", file, "wall.name=Corridor", "wall.kind=painted-board", "wall.eye-line=57 in", "gap=6 in")
    run("set", file, "wall.stud-first=8 in", "wall.stud-spacing=16 in", "wall.left-end=corner", "wall.right-end=free")
    run("set", file, "piece.3.mat-border=2 1/2 in", "piece.5.mat-border=2 in", "piece.5.mat-bottom=2 1/2 in")
    run("add", file, "obstacles", table(scratch, "obstacles", OBSTACLES + CORRIDOR_OBSTACLES))
    fix(file, "nail-board", "", "hook-one-nail", "hook-slim", "hook-slim", "cleat-rail", "")
    left = Fraction(52)
    sizes = ("12 1/4x16 3/16", "16 3/16x12 1/4", "20x24", "23 5/8x31 1/2", "15 1/2x19 3/4", "40x13", "9 3/8x11 1/4")
    for number, size in enumerate(sizes, start=1):
        width, height = (sum(map(Fraction, side.split())) for side in size.split("x"))
        bottom = 57 - height / 2
        run("place", file, str(number), f"--left={inches(left)}", f"--bottom={inches(Fraction(bottom))}")
        left += width + 6


def empty_wall(file: Path, scratch: Path) -> None:
    """Nothing on it yet."""
    run("new", file, "--wall-width", "4.2m", "--wall-height", "2.6m", "--title", "An empty wall")


def changing(file: Path, scratch: Path) -> None:
    """Nine pieces that have hung since January, and the eleven they shall become."""
    changing_wall(file, scratch, run)


def fix(file: Path, *fixings: str) -> None:
    """What holds each piece, by number; empty = not chosen yet."""
    chosen = [f"piece.{number}.fixing={fixing}" for number, fixing in enumerate(fixings, start=1) if fixing]
    run("set", file, *chosen)


def place(file: Path, number: int, left_mm: float, bottom_mm: float) -> None:
    """One piece at a place in millimetres."""
    run("place", file, str(number), f"--left={left_mm:g}mm", f"--bottom={bottom_mm:g}mm")


def inches(value: Fraction) -> str:
    """A length as a tape shows it: ``43 7/8 in``."""
    whole, part = divmod(value, 1)
    return f"{whole} {part} in" if part else f"{whole} in"


if __name__ == "__main__":
    for path in make(Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "samples"):
        print(path.name)
