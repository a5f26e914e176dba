"""``dynoan.toml``: the file that makes a folder a library, and what the library remembers of its team."""

from __future__ import annotations

import os
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from dynoan.errors import LibraryError, LookupFault
from dynoan.library import files
from dynoan.library.disk_faults import fault_of
from dynoan.library.tables import TomlTable
from dynoan.library.text_seals import read_held
from dynoan.library.toml_text import parse_toml
from dynoan.units import Shown
from dynoan.version import __version__

NAME = "dynoan.toml"
FORMAT = 1
FOLDERS = ("sweeps", "cars", "shocks", "setups", "trials", "layouts")
VARIABLE = "DYNOAN_LIBRARY"
_HOW = "make one of a new or an empty folder with: dynoan add FILE --library NEW, or try: dynoan demo"


@dataclass(frozen=True)
class Marker:
    """What ``dynoan.toml`` says."""

    units: Shown = "metric"
    team: str = ""


def read(folder: Path) -> Marker:
    """Return what a library's marker says.

    Raises
    ------
    LookupFault
        If the folder is no library.
    LibraryError
        If the library is of a later format.
    QuantityError
        If the marker cannot be understood.
    """
    path = folder / NAME
    if not path.is_file():
        state = "is no library (it has no dynoan.toml)" if folder.is_dir() else "no such folder"
        raise LookupFault(state, where=folder, hint=_HOW)
    return _understood(read_held(path, str(path), folder / "cache"), str(path))


def _understood(text: str, path: str) -> Marker:
    data = parse_toml(text, path)
    version = data.get("format")
    if isinstance(version, int) and version > FORMAT:
        raise LibraryError(
            f"this library has format version {version}, but dynoan {__version__} reads up to {FORMAT}: update dynoan",
            where=path,
        )
    table = TomlTable(data, path, ("format", "units", "team"))
    if table.whole("format", 1, FORMAT) is None:
        raise table.fault("format", "missing", hint=f"write format = {FORMAT}")
    units: Any = table.choice("units", ("metric", "us")) or "metric"
    return Marker(units, table.text("team") or "")


def find(given: Path | None = None) -> Path:
    """Return the library's folder: the given one, else DYNOAN_LIBRARY, else the nearest at or above the current one."""
    if given is not None:
        return given
    if named := os.environ.get(VARIABLE, "").strip():
        return Path(named)
    try:
        here = Path.cwd()
    except OSError:
        raise LibraryError("the current folder is gone", hint="change to another") from None
    for folder in (here, *here.parents):
        if (folder / NAME).is_file():
            return folder
    raise LookupFault(f"no library at or above {here}", hint=f"name one with --library or {VARIABLE}, or {_HOW}")


def create(folder: Path, marker: Marker) -> bool:
    """Make a library of a new or empty folder; False where another process has just made it one."""
    import tomli_w

    if folder.exists() and not folder.is_dir():
        raise LibraryError("a file, not a folder", where=folder, hint="name another place")
    refuse_inside(folder)
    if not is_free(folder):
        raise LibraryError("not empty, and no library", where=folder, hint="name a new or an empty folder")
    text = (
        "# A library of shock dyno sweeps, kept by dynoan. Cars, shocks and setups beside this file are yours.\n"
        + tomli_w.dumps({"format": FORMAT, "units": marker.units, "team": marker.team})
    )
    _understood(text, str(folder / NAME))  # what is written can be read again
    made = [path for path in (*(folder / name for name in FOLDERS), folder, *folder.parents) if not path.exists()]
    try:
        for name in FOLDERS:
            files.make_folder(folder / name)
        return files.write_new(folder / NAME, text.encode())
    except LibraryError:
        if not (folder / NAME).exists():
            take_away(made)
        raise


def take_away(folders: Iterable[Path]) -> None:
    """Take folders away that are empty."""
    for folder in folders:
        with suppress(OSError):
            folder.rmdir()


def hold_there(folder: Path) -> None:
    """Raise `LibraryError` where a library is not there any more: what were written then would lie in no library."""
    if not (folder / NAME).is_file():
        raise LibraryError(
            "the library is gone (unplugged, or moved?)", where=folder, hint="bring it back and try again"
        )


def make_folder(library: Path, folder: Path) -> None:
    """Make a folder of a library that is there, unless it is made already."""
    hold_there(library)
    files.make_folder(folder)


def refuse_inside(folder: Path) -> None:
    """Refuse a folder that is among the files of a library: what is put there would hide them, or be taken for one."""
    real = Path(os.path.realpath(folder))
    for inner, outer in zip((real, *real.parents), real.parents, strict=False):
        if inner.name.casefold() in (*FOLDERS, "cache") and (outer / NAME).is_file():
            raise LibraryError(
                f"inside the folder '{inner.name}' of the library {outer}",
                where=folder,
                hint=f"name another place, or that library itself: {outer}",
            )


def is_free(folder: Path) -> bool:
    """Tell whether a folder is missing, empty, or holds no more than a library's making that was cut short."""
    try:
        names = os.listdir(folder)
    except FileNotFoundError:
        return True
    except OSError as error:
        raise fault_of(error, folder) from None
    return all(name.startswith(files.TEMPORARY) or _is_bare(folder / name) for name in names)


def _is_bare(folder: Path) -> bool:
    """Tell whether this is one of a library's own folders with nothing in it."""
    if folder.name not in FOLDERS or not folder.is_dir():
        return False
    return all(name.startswith(files.TEMPORARY) for name in os.listdir(folder))
