"""Pictures are found wherever a project is saved, and in the sample wall, which has no file of its own."""

from pathlib import Path

import msgspec

from composer.desktop.main_window import MainWindow
from composer.editing.picture_edits import link_pictures
from composer.editing.record_edits import change_piece
from composer.projectfile import store
from composer.resources import sample


def paths(window: MainWindow) -> list[Path]:
    return [window.project_folder() / picture.path for picture in window.opened.project.pictures]


def test_saving_elsewhere_keeps_the_pictures(window: MainWindow, tmp_path: Path) -> None:
    (tmp_path / "scans").mkdir()
    (tmp_path / "walls").mkdir()
    scan = tmp_path / "scans" / "gull.png"
    scan.write_bytes(b"not looked into here")
    key = window.opened.project.pieces[0].key
    for place, expected in ((tmp_path / "walls", "../scans/gull.png"), (tmp_path / "scans", "gull.png")):
        if not window.opened.project.pictures:
            window.opened.apply(link_pictures(window.opened.project, [scan], window.project_folder(), [key]))
        window.files.ask.path = place / "a.wallwright"  # type: ignore[attr-defined]
        assert window.files.save_as()
        assert [picture.path for picture in store.load(place / "a.wallwright").project.pictures] == [expected]
        assert not window.isWindowModified()
        assert [path.resolve() for path in paths(window)] == [scan.resolve()]
        assert window.files.save()


def test_no_step_of_undo_leads_back_to_the_old_folder(window: MainWindow, tmp_path: Path) -> None:
    for name in ("scans", "walls", "walls/deep"):
        (tmp_path / name).mkdir()
    scans = [tmp_path / "scans" / name for name in ("gull.png", "boats.png")]
    for scan in scans:
        scan.write_bytes(b"not looked into here")
    opened, keys = window.opened, [piece.key for piece in window.opened.project.pieces]
    for scan, key in zip(scans, keys, strict=False):
        opened.apply(link_pictures(opened.project, [scan], window.project_folder(), [key]))
    steps = opened.stack.count()
    window.files.ask.path = tmp_path / "walls" / "a.wallwright"  # type: ignore[attr-defined]
    assert window.files.save_as()
    opened.apply(change_piece(keys[0], "Name", lambda piece: msgspec.structs.replace(piece, name="Heron")))
    window.files.ask.path = tmp_path / "walls" / "deep" / "b.wallwright"  # type: ignore[attr-defined]
    assert window.files.save_as()
    assert opened.stack.count() == steps + 1
    assert opened.is_clean
    seen = 0
    while opened.stack.canUndo():
        opened.stack.undo()
        found = [path.resolve() for path in paths(window)]
        assert found == [scan.resolve() for scan in scans[: len(found)]]
        seen += len(found)
    assert seen >= 3  # two pictures after the first step, one after the second
    while opened.stack.canRedo():
        opened.stack.redo()
    assert [path.resolve() for path in paths(window)] == [scan.resolve() for scan in scans]
    assert opened.is_clean
    assert not window.isWindowModified()


def test_the_sample_wall_shows_its_pictures(window: MainWindow) -> None:
    window.files.open_sample()
    assert window.opened.path is None
    assert paths(window)
    shipped = Path(str(sample("pictures")))
    for path in paths(window):
        assert path.is_file()
        assert path.is_absolute()
        assert path.resolve().parent == shipped.resolve()
