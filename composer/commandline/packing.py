"""The calls ``pack`` and ``unpack``: a project and its pictures in one archive, and out of it again."""

from composer.commandline.answers import Exit, Refused, answer, tell
from composer.commandline.files import expect_folder_for, opened, path_of
from composer.commandline.parsing import Given
from composer.projectfile import packed, store
from composer.texts import say


def pack(given: Given) -> int:
    """``pack FILE -o OUT.zip``: what is missing is told, the rest packed."""
    target = path_of("-o", given.options["-o"])
    expect_folder_for(target)
    if target.exists() and store.is_project(target):
        raise Refused(say("{option}: “{file}” is a Wallwright project; it stays as it is.", option="-o", file=target))
    file = opened(given.words[0])
    made = packed.pack(file.project, file.path.parent, target)
    for picture in made.missing:
        tell(say("The picture “{path}” is missing; it is not in the packed copy.", path=picture.path))
    return Exit.DONE


def unpack(given: Given) -> int:
    """``unpack ARCHIVE -o DIR``: into a new folder; the project's path is the answer."""
    folder = path_of("-o", given.options["-o"])
    if not folder.parent.is_dir():
        raise Refused(
            say("there is no folder “{folder}” for “{file}”.", folder=folder.parent, file=folder.name), Exit.FILES
        )
    answer(f"{packed.unpack(path_of('ARCHIVE', given.words[0]), folder)}\n")
    return Exit.DONE
