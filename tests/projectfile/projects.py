"""Projects of every shape for the tests of project files: written down, and made up by hypothesis."""

from decimal import Decimal

from hypothesis import strategies as st

from composer.model import (
    Arrangement,
    AsHung,
    CatalogueChange,
    CatalogueEntry,
    CatalogueNotes,
    Crop,
    CustomBorders,
    EvenBorders,
    Extra,
    Frame,
    Ground,
    Hanger,
    HardwareChoice,
    HoleRecord,
    HungPiece,
    HungStrips,
    InDrawer,
    LevelWith,
    MadeBy,
    Mat,
    MatLayer,
    MoneyNotes,
    Obstacle,
    Override,
    Paid,
    PaperChoice,
    Picture,
    PictureUse,
    Piece,
    Placement,
    Price,
    PrintChoice,
    Project,
    SpacedFrom,
    Wall,
    WeightedBorders,
    position,
)
from composer.units import Length, Mass


def length(text: str) -> Length:
    return Length.from_text(text)


def plain(*, pieces: int = 2, title: str = "Hall") -> Project:
    """A wall and some pieces, nothing else."""
    return Project(
        title=title,
        next_key=10 + pieces,
        next_number=pieces + 1,
        walls=(Wall(key="w1", name="Hall", width=length("3.6 m"), height=length("8 ft 2 1/2 in")),),
        pieces=tuple(
            Piece(
                key=f"p{number + 9}",
                number=number,
                name=f"Frame {number}",
                frame=Frame(width=length("40 cm"), height=length("23 5/8 in")),
            )
            for number in range(1, pieces + 1)
        ),
        arrangements=(Arrangement(key="h2", name="First", gap=length("50 mm")),),
        current_arrangement="h2",
    )


def full() -> Project:
    """A project with something in every record."""
    wall = Wall(
        key="w1",
        name="Stairs",
        width=length("3600 mm"),
        height=length("2500 mm"),
        outline=((0.0, 0.0), (3600.0, 0.0), (3600.0, 1800.0), (2400.0, 2500.0), (0.0, 2500.0)),
        eye_line=length("57 in"),
        nosing=((0.0, 200.0), (2000.0, 1500.0)),
        paint="#F3EEE4",
        obstacles=(
            Obstacle(key="o4", kind="socket", left=100.0, bottom=300.0, width=length("86 mm"), height=length("86 mm")),
        ),
    )
    pieces = (
        Piece(
            key="p5",
            number=1,
            name="Åse’s harbour",
            frame=Frame(width=length("61.5 cm"), height=length("24 1/4 in"), face=length("3/4 in"), glazing="glass"),
            mat=Mat(layers=(MatLayer(board="board"),), borders=WeightedBorders(extra=length("1 cm"))),
            uses=(PictureUse(picture="i6", crop=Crop(zoom=1.25), print=PrintChoice(price=Decimal("3.90"))),),
            current_use=0,
            hanger=Hanger(kind="wire", wire=length("50 cm"), ring_drop=length("8 cm"), hooks=2),
            weight=Mass.from_text("1 lb 4 oz"),
            hardware=HardwareChoice(fixing="hook", hook_offset=length("-5 mm")),
            owned=True,
            price=Decimal("11.40"),
            extra=(("shelf", "=SUM(A1)"),),
            note="two\nlines",
        ),
        Piece(
            key="p7",
            number=3,
            name="Oval",
            frame=Frame(width=length("2 ft"), height=length("30 cm")),
            mat=Mat(
                borders=CustomBorders(
                    top=length("5 cm"), bottom=length("6 cm"), left=length("5 cm"), right=length("5 cm")
                )
            ),
        ),
    )
    return Project(
        title="Up the stairs",
        units="imperial",
        currency="GBP",
        next_key=40,
        next_number=9,
        walls=(wall,),
        pieces=pieces,
        pictures=(Picture(key="i6", path="scans/harbour 1.jpg", sha256="0f" * 32, size_bytes=5, pixels=(30, 20)),),
        arrangements=(
            Arrangement(
                key="h2",
                name="First",
                gap=length("2 in"),
                placements=(
                    Placement(piece="p5", wall="w1", left=position(400 / 3), bottom=1200.5, turned=True, locked=True),
                ),
                floor_order=("p7",),
                relations=(
                    SpacedFrom(axis="x", first="p5", second="p7"),
                    LevelWith(axis="y", edge="centre", first="p5", second="p7"),
                    Ground(axis="y", edge="centre", piece="p5", to="eye-line"),
                ),
                made_by=MadeBy(pattern="salon", seed=4, steps=100),
            ),
        ),
        current_arrangement="h2",
        catalogue=CatalogueNotes(
            changed=(CatalogueChange(entry="strips-large", field="rating_kg", value=3.5),),
            own=(CatalogueEntry(id="my-hook", kind="fixing", name="My hook", fields=(("offset_mm", 12.0),)),),
        ),
        money=MoneyNotes(
            budget=Decimal(150),
            prices=(Price(item="hook", each=Decimal("2.10"), pack=4),),
            in_drawer=(InDrawer(item="hook", count=3),),
            extras=(Extra(what="Plaster", each=Decimal("1.5")),),
            paid=(Paid(item="hook", amount=Decimal("2.10"), when="2026-04-18T14:05:00Z"),),
        ),
        as_hung=AsHung(
            items=(
                HungPiece(
                    piece="p5",
                    wall="w1",
                    when="2026-04-18T14:05:00Z",
                    points=((1.5, 2.5),),
                    strips=HungStrips(size="large", pairs=4),
                ),
            ),
            holes=(HoleRecord(wall="w1", x=10.0, y=20.0, state="filled"),),
        ),
        overrides=(Override(code="overlap", pieces=("p5",), reason="on purpose", when="2026-04-18T14:05:00Z"),),
        paper=PaperChoice(sheet="letter", economy="corners", overlap=length("10 mm")),
        region="uk",
        quake=True,
    )


lengths = st.one_of(
    st.builds(lambda mm: length(f"{mm} mm"), st.integers(20, 99_999)),
    st.builds(lambda cm, rest: length(f"{cm}.{rest} cm"), st.integers(2, 9_999), st.integers(0, 999)),
    st.builds(lambda whole, top: length(f"{whole} {top}/32 in"), st.integers(1, 3_900), st.integers(1, 31)),
    st.builds(lambda feet, inches: length(f"{feet} ft {inches} in"), st.integers(1, 300), st.integers(0, 11)),
)
words = st.text(st.characters(exclude_categories=("Cc", "Cs")), min_size=1, max_size=30).map(str.strip)
names = words.filter(bool)
positions = st.floats(-1e5, 1e5).map(position)
money = st.integers(0, 10**8).map(lambda cents: Decimal(cents).scaleb(-2))


@st.composite
def projects(draw: st.DrawFn) -> Project:
    """Walls, pieces and places of any size and name."""
    import unicodedata

    def name() -> str:
        return unicodedata.normalize("NFC", draw(names)).strip()[:200] or "x"

    count = draw(st.integers(0, 6))
    pieces = tuple(
        Piece(
            key=f"p{number + 20}",
            number=number,
            name=name(),
            frame=Frame(width=draw(lengths), height=draw(lengths), depth=draw(st.none() | lengths)),
            mat=draw(st.none() | st.builds(lambda border: Mat(borders=EvenBorders(border=border)), lengths)),
            price=draw(st.none() | money),
            owned=draw(st.booleans()),
            hanger=draw(st.just(Hanger()) | st.builds(lambda drop: Hanger(kind="sawtooth", drop=drop), lengths)),
            extra=((name(), name()),) if draw(st.booleans()) else (),
        )
        for number in range(1, count + 1)
    )
    placements = tuple(
        Placement(
            piece=piece.key,
            wall="w1",
            left=draw(positions),
            bottom=draw(positions),
            turned=draw(st.booleans()),
            locked=draw(st.booleans()),
        )
        for piece in pieces
        if draw(st.booleans())
    )
    return Project(
        title=name(),
        units=draw(st.sampled_from(("metric", "imperial"))),
        next_key=40,
        next_number=count + 1,
        walls=(Wall(key="w1", name=name(), width=draw(lengths), height=draw(lengths)),),
        pieces=pieces,
        arrangements=(Arrangement(key="h2", name=name(), gap=draw(lengths), placements=placements),),
        current_arrangement="h2",
    )
