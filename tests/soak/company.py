"""Several processes on one project: each change lands whole or is refused by name, none is lost."""

import os
import shutil
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

from composer.projectfile import store
from tests.soak.disks import SAMPLE
from tests.soak.hindrance import Broken, Done, Program


def two_processes(tries: int) -> str:
    """Processes add walls of different names at once: those that were told 0 are all there, and no others."""
    folder = Path(os.environ["WALLWRIGHT_SOAK_FOLDER"]) / "shared"
    folder.mkdir()
    file = folder / "wall.wallwright"
    file.write_bytes(SAMPLE.read_bytes())
    there = {wall.name for wall in store.load(file).project.walls}
    said = ""

    def add(number: int) -> Done:
        return Program().call("add", file, "wall", f"Wall {number}", "--width=2m", "--height=2m")

    try:
        with ThreadPoolExecutor(4) as several:
            ended = list(several.map(add, range(tries)))
        landed = {done.words[3] for done in ended if done.code == 0}
        for done in ended:
            if done.code:
                said = done.refused(3, "is open in")
        found = {wall.name for wall in store.load(file).project.walls}
        if found != there | landed:
            raise Broken(f"lost {sorted(landed - found)}, unasked for {sorted(found - landed - there)}")
        store.load(file.with_name("wall.wallwright.bak"))
        if not landed or (tries >= 20 and not said):
            raise Broken("the processes never met")
    finally:
        shutil.rmtree(folder)
    return said
