"""The ten files of a dyno shop that the guide's first hour begins with: invented data, in US units."""

from __future__ import annotations

from pathlib import Path

from dynoan.errors import CallError, LibraryError
from dynoan.library.disk_faults import fault_of
from dynoan.library.files import write_new
from dynoan.library.marker import refuse_inside, take_away

NAME = "from-the-shop"


def leave_files(folder: Path) -> tuple[Path, ...]:
    """Put the files into a folder, which is made where it is not there, and return their paths.

    A file that is there as it should be stays; so does everything else in the folder.

    Raises
    ------
    CallError
        If another file has the name of one of them.
    LibraryError
        If the files are missing, the folder cannot be written, or is one that a library keeps its own files in.
    """
    source = _source()
    refuse_inside(folder)
    made = [path for path in (folder, *folder.parents) if not path.exists()]
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise fault_of(error, folder) from None
    try:
        return tuple(_left(path, folder / path.name) for path in sorted(source.glob("*.csv")))
    except LibraryError:
        take_away(made)
        raise


def _left(path: Path, there: Path) -> Path:
    data = path.read_bytes()
    if not write_new(there, data) and not _same(there, data):
        raise CallError("another file has this name", where=there, hint="name another folder", need="demo folder")
    return there


def _same(path: Path, data: bytes) -> bool:
    try:
        return path.is_file() and path.stat().st_size == len(data) and path.read_bytes() == data
    except OSError as error:
        raise fault_of(error, path) from None


def _source() -> Path:
    here = Path(__file__).parents[2]
    for folder in (here / "first_files", here.parent / "fixtures" / "first" / NAME):
        if folder.is_dir():
            return folder
    raise LibraryError("the files are missing", where=here / "first_files", hint="install dynoan again")
