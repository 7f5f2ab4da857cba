"""Pictures are found wherever a project is saved, and in the sample wall, which has no file of its own."""

from pathlib import Path

from composer.desktop.main_window import MainWindow
from composer.editing.picture_edits import link_pictures
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


def test_the_sample_wall_shows_its_pictures(window: MainWindow) -> None:
    window.files.open_sample()
    assert window.opened.path is None
    assert paths(window)
    shipped = Path(str(sample("pictures")))
    for path in paths(window):
        assert path.is_file()
        assert path.is_absolute()
        assert path.resolve().parent == shipped.resolve()
