"""Makes the sample wall that has been up since January and becomes another one: nine pieces, then eleven.

An invented wall. The new pieces hang on old holes where that is possible; see tests/rehang/test_sample.py
for the sums.
"""

from collections.abc import Callable
from decimal import Decimal
from pathlib import Path

from composer.editing.money_edits import set_price
from composer.editing.placing import Spot, put
from composer.editing.project_edits import add_arrangement, change_arrangement_fields
from composer.editing.rehang_edits import record_up
from composer.model import Price
from composer.projectfile import store

PIECES = """name,width,height,depth,face,lip,glazing,weight,hanger,drop,spacing,wire,ring-drop,hooks,hook-spacing,owned,price
Estuary map,500 mm,400 mm,20 mm,25 mm,6 mm,acrylic,2.2 kg,d-rings,72 mm,420 mm,,,,,yes,
Harbour,406 mm,508 mm,20 mm,25 mm,6 mm,acrylic,2.6 kg,wire,97 mm,342 mm,374 mm,161 mm,2,102 mm,yes,
Slipway,330 mm,430 mm,18 mm,25 mm,6 mm,acrylic,1.6 kg,wire,85 mm,250 mm,,,,,yes,
Boats,306 mm,305 mm,18 mm,22 mm,6 mm,acrylic,1.2 kg,d-rings,38 mm,240 mm,,,,,yes,
Grandmother,204 mm,254 mm,15 mm,20 mm,6 mm,acrylic,600 g,sawtooth,12 mm,,,,,,yes,
Crane,254 mm,203 mm,15 mm,20 mm,6 mm,acrylic,650 g,sawtooth,14 mm,,,,,,yes,
Lighthouse,178 mm,229 mm,15 mm,28 mm,6 mm,acrylic,400 g,strips,,,,,,,yes,
Tide table,272 mm,203 mm,15 mm,28 mm,6 mm,acrylic,500 g,strips,,,,,,,yes,
Gulls,210 mm,297 mm,15 mm,28 mm,6 mm,acrylic,700 g,strips,,,,,,,yes,
Rope,254 mm,305 mm,15 mm,20 mm,6 mm,acrylic,950 g,sawtooth,12 mm,,,,,,,4.00
Ferry,350 mm,229 mm,15 mm,20 mm,6 mm,acrylic,1.3 kg,wire,58 mm,230 mm,,,,,,4.00
Rain,350 mm,254 mm,15 mm,20 mm,6 mm,acrylic,1.4 kg,wire,61 mm,230 mm,,,,,,4.00
"""

OBSTACLES = "kind,name,left,bottom,width,height,depth,margin\nsofa,sofa,60 cm,0 cm,230 cm,84 cm,90 cm,\n"

FIXINGS = ("plug-board", "hook-two-nails", "hook-one-nail", "hook-slim", "nail-board", "nail-board", "", "", "",
           "nail-board", "hook-one-nail", "hook-one-nail")  # fmt: skip

PRICES = "item,each,pack,in-drawer\nstrips-medium,4.95,4,2\nhook-one-nail,1.90,5,4\n8x10in,1.49,,\nfiller,3.20,,\n"

JANUARY = {
    1: (1436, 1372), 2: (1986, 1223), 3: (1056, 1262), 4: (2442, 1502), 5: (802, 1502), 6: (752, 1249),
    7: (1436, 1093), 8: (1664, 1119), 9: (2442, 1155),
}  # fmt: skip
"""Lower left corners, mm; gaps 50, the middle of the group at 1 750 and 1 450."""

SEPTEMBER = JANUARY | {
    6: (448, 1249), 10: (752, 1147), 11: (2442, 1502), 12: (2442, 1198), 9: (2842, 1155),
}  # fmt: skip


def changing_wall(file: Path, scratch: Path, run: Callable[..., None]) -> None:
    """Nine are up since January; the arrangement of September wants eleven and is the current one."""
    tables = {"pieces": PIECES, "obstacles": OBSTACLES, "prices": PRICES}
    paths = {}
    for name, text in tables.items():
        paths[name] = scratch / f"{name}.csv"
        paths[name].write_text(text, encoding="utf-8")
    run(
        "new",
        file,
        "--wall-width",
        "364 cm",
        "--wall-height",
        "2.5m",
        "--pieces",
        paths["pieces"],
        "--title",
        "Quayside flat",
    )
    run("set", file, "wall.name=Sofa wall", "wall.kind=painted-board", "wall.eye-line=145 cm", "gap=50 mm")
    run("add", file, "obstacles", paths["obstacles"])
    run("add", file, "prices", paths["prices"])
    run("set", file, *(f"piece.{n}.fixing={fixing}" for n, fixing in enumerate(FIXINGS, 1) if fixing))
    for number, (left, bottom) in JANUARY.items():
        run("place", file, str(number), f"--left={left}mm", f"--bottom={bottom}mm")
    project = store.load(file).project
    keys = {piece.number: piece.key for piece in project.pieces}
    first, wall = project.current_arrangement, project.walls[0].key
    project = change_arrangement_fields(project, first, name="January").run(project)
    project = record_up(project, [keys[n] for n in JANUARY], "2026-01-10T15:00:00Z").run(project)
    project = add_arrangement("September", first).run(project)
    spots: dict[str, Spot | None] = {keys[n]: Spot(wall, float(x), float(y)) for n, (x, y) in SEPTEMBER.items()}
    spots[keys[4]] = None
    project = put(project, spots).run(project)
    project = set_price("bumper", [Price(item="bumper", each=Decimal("1.80"), pack=16)]).run(project)
    store.save(file, project)
