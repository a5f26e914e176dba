"""Taking back what changed a library: the files as they were before, put back where nobody changed them since."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import PurePosixPath
from typing import TYPE_CHECKING

from dynoan.errors import CallError
from dynoan.library import files, marker
from dynoan.library.names import file_name
from dynoan.library.sweep_file import MAX_FILE

if TYPE_CHECKING:
    from dynoan.library import Library

#: the content of files by their place in the library; None where there is none
Contents = Mapping[str, bytes | None]
#: SHA-256 of the content of files by their place; None where there is none
Marks = Mapping[str, str | None]


@dataclass(frozen=True)
class LibraryChange:
    """What was changed, in words, the files it touched as they were before, and marks of them as they were after."""

    words: str
    before: Contents
    after: Marks = field(repr=False)

    @property
    def size(self) -> int:
        """What it takes to be remembered. [bytes]"""
        return sum(len(data or b"") for data in self.before.values())


def sweep_place(sweep_id: str) -> str:
    """Return where in a library a sweep lies, from its whole id."""
    return f"sweeps/{sweep_id}.h5"


def text_place(folder: str, name: str) -> str:
    """Return where in a library a car, shock or setup lies."""
    return f"{folder}/{file_name(name, folder[:-1])}.toml"


def contents(library: Library, places: Iterable[str]) -> dict[str, bytes | None]:
    """Return what lies at some places of a library.

    Raises
    ------
    LibraryError
        If a file cannot be read.
    """
    return {place: _content(library, place) for place in places}


def marks(found: Contents) -> dict[str, str | None]:
    """Return what tells contents apart."""
    return {place: None if data is None else hashlib.sha256(data).hexdigest() for place, data in found.items()}


def take_back(library: Library, change: LibraryChange) -> None:
    """Put the files of a change back as they were before.

    Raises
    ------
    CallError
        If one of them was changed since: then none is touched.
    LibraryError
        If a file cannot be written; where the disk has no room for all of them, none is touched.
    """
    with files.locked(library.path / files.LOCK):
        lay, before = marks(contents(library, change.after)), marks(change.before)
        # What lies there as it was before was put back by a window that was ended meanwhile.
        if any(lay[place] not in (mark, before[place]) for place, mark in change.after.items()):
            raise CallError(f"not taken back ({change.words}): it was changed again since, here or elsewhere")
        paths = {library.path / PurePosixPath(place): data for place, data in change.before.items()}
        for folder in {path.parent for path, data in paths.items() if data is not None}:
            marker.make_folder(library.path, folder)
        files.replace_all({path: data for path, data in paths.items() if data is not None})
        for path in (path for path, data in paths.items() if data is None):
            files.remove(path)


def _content(library: Library, place: str) -> bytes | None:
    path = library.path / PurePosixPath(place)
    return files.read_bounded(path, MAX_FILE) if path.is_file() else None
