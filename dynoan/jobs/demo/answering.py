"""The demo's library: invented data, made anew each time."""

from __future__ import annotations

import shutil
from contextlib import suppress
from pathlib import Path

from dynoan.errors import CallError, LibraryError
from dynoan.jobs.demo.earlier import file_of_somebody
from dynoan.library import Library
from dynoan.library.disk_faults import fault_of
from dynoan.workbench import Workbench

MARK = "THIS IS A DEMO.txt"
_SAID = "Invented data. dynoan demo makes this folder anew each time it runs, while there is nothing of yours in it.\n"
FOLDERS = ("cars", "shocks", "dyno", "travel", "trials")


def make_library(folder: Path) -> Library:
    """Make the demo's folder anew, with cars, shocks and the rigs' files beside an empty library, and return that.

    Raises
    ------
    CallError
        If the folder holds something that is not an earlier demo, or something of somebody's in one.
    LibraryError
        If the demo's files are missing, or the folder cannot be written.
    """
    source = data_folder()
    if folder.exists() and any(folder.iterdir()):
        if not (folder / MARK).exists():
            raise CallError(
                "not empty, and no earlier demo", where=folder, hint="name another folder", need="demo folder"
            )
        if (own := file_of_somebody(folder, source, MARK)) is not None:
            raise CallError(
                f"holds {own.as_posix()}, which is not as the demo made it", where=folder,
                hint="move what is yours away, or name another folder", need="demo folder",
            )  # fmt: skip
        shutil.rmtree(folder)
    new = [path for path in (folder, *folder.parents) if not path.exists()]
    library = Library.create(folder, team="Kestrel (invented)")
    try:
        _lay(source, folder)
    except OSError as error:
        for path in folder.iterdir():  # all in it is the demo's
            shutil.rmtree(path, ignore_errors=True) if path.is_dir() else path.unlink()
        for path in new:
            with suppress(OSError):
                path.rmdir()
        raise fault_of(error, folder) from None
    return library


def _lay(source: Path, folder: Path) -> None:
    """Copy the demo's files; the mark comes first, so that a demo that was cut short is known as one."""
    (folder / MARK).write_text(_SAID, encoding="utf-8")
    for part in FOLDERS:
        for path in sorted((source / part).rglob("*")):
            if path.is_file():
                there = folder / path.relative_to(source)
                there.parent.mkdir(parents=True, exist_ok=True)
                shutil.copyfile(path, there)
    shutil.copyfile(source / "unlabelled.csv", folder / "unlabelled.csv")


def fit_packs(folder: Path) -> None:
    """Fit the click maps of all packs of a library, so that they are in its cache when they are asked for."""
    bench = Workbench(Library(folder))
    bench.click_maps(bench.library.packs())


def data_folder() -> Path:
    """Return the folder of the demo's files: inside the installed package, else the source tree's fixtures.

    Raises
    ------
    LibraryError
        If it is in neither.
    """
    here = Path(__file__).parents[2]
    for folder in (here / "demo_data", here.parent / "fixtures" / "demo"):
        if (folder / "dyno").is_dir():
            return folder
    raise LibraryError("the demo's files are missing", where=here / "demo_data", hint="install dynoan again")
