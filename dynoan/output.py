"""Writing a file that was asked for by name: whole or not at all, and never over what somebody may miss.

A file that exists is replaced only where it is an earlier output of the same kind, which a mark in its content tells:
what pictures name as their software, what pages name as their generator. Text and CSV carry no mark, since people fill
them in, and neither does anything that another program made: there the caller must say so (`force`). A file of a
library is never replaced, and none is put among a library's own, whatever the caller says.
"""

from __future__ import annotations

import os
import re
import stat
import unicodedata
from collections.abc import Iterable, Iterator
from contextlib import suppress
from pathlib import Path

from dynoan.errors import CallError, DynoanError
from dynoan.library import files, marker

#: a library's own folders, and what lies beside them
OWN_FOLDERS = frozenset({*marker.FOLDERS, "cache"})
OWN_FILES = frozenset({marker.NAME, files.LOCK})
MAX_OUTPUT = 256 << 20  #: a file that is larger is no earlier output [bytes]
#: how an output of this program begins or ends, and what kind it is; the kind of a page stands in its generator
_MARKS = (
    (re.compile(rb"\x89PNG\r\n\x1a\n.{0,4096}?tEXtSoftware\x00dynoan", re.DOTALL), "PNG picture"),
    (re.compile(rb"<\?xml .{0,4096}?<dc:title>dynoan</dc:title>", re.DOTALL), "SVG picture"),
    (re.compile(rb"%PDF-.*/Creator \(dynoan\)", re.DOTALL), "PDF picture"),
    (re.compile(rb"(?:\[Desktop Entry\]\n|#!/bin/sh\n|@echo off\r\n)(?:#|rem) dynoan shortcut\r?\n"), "shortcut"),
    (re.compile(rb'\s*<!doctype html>.{0,4096}?<meta name="generator" content="dynoan ([a-z]{1,20})">', re.DOTALL), ""),
)


def kind_of(body: bytes) -> str | None:
    """Return the kind of output that a file's bytes are, None where they bear no mark of this program."""
    for mark, kind in _MARKS:
        if found := mark.match(body):
            return kind or found[1].decode()
    return None


def judge(target: Path, *, force: bool = False, at_hand: Iterable[Path] = (), new_in: str = "") -> Path:
    """Return the file that would be written, links followed, before anything is reckoned for it.

    Parameters
    ----------
    target
        The file as it was named.
    force
        Whether any file may be replaced that is not a library's.
    at_hand
        Libraries whose files are spared wherever they lie, beside those found above the target and above here.
    new_in
        The library's folder, such as "cars", that may get a new file.

    Raises
    ------
    CallError
        If it is, or would be, a file of a library; no regular file; or a file that is no output of this program.
    """
    real = Path(os.path.realpath(target))
    _refuse_owned(target, real, at_hand, new_in)
    if _exists(target, real) and not force and kind_of(_content(real)) is None:
        raise _in_the_way(target)
    return real


def write(
    target: Path, body: bytes, *, force: bool = False, at_hand: Iterable[Path] = (), new_in: str = ""
) -> Path:  # fmt: skip
    """Write a file whole or not at all, as `judge` allows, and return where it was named.

    Raises
    ------
    CallError
        If `judge` refuses it, an output of another kind is in the way, or its folder does not exist.
    LibraryError
        If the disk refuses it; nothing was changed.
    """
    real = judge(target, force=force, at_hand=at_hand, new_in=new_in)
    if not real.parent.is_dir():
        raise CallError(
            f"there is no folder {target.parent}", where=target, hint="name a file in a folder that is there"
        )
    if not _exists(target, real):
        if not files.write_new(real, body):
            raise _in_the_way(target)
        return target
    if not force and kind_of(_content(real)) != kind_of(body):
        raise _in_the_way(target)
    files.replace(real, body)
    return target


def _in_the_way(target: Path) -> CallError:
    return CallError(
        "there is such a file, and it is no earlier output of this kind",
        where=target,
        hint="name another",
        need="force",
    )


def _exists(target: Path, real: Path) -> bool:
    try:
        status = os.stat(real)
    except (FileNotFoundError, NotADirectoryError):
        return False
    except (OSError, ValueError) as error:
        raise CallError(f"cannot be written ({getattr(error, 'strerror', None) or error})", where=target) from None
    if not stat.S_ISREG(status.st_mode):
        raise CallError("not a regular file", where=target, hint="name another")
    return True


def _content(real: Path) -> bytes:
    with suppress(DynoanError):
        return files.read_bounded(real, MAX_OUTPUT)
    return b""


def _refuse_owned(target: Path, real: Path, at_hand: Iterable[Path], new_in: str) -> None:
    for folder, place in _owners(real, at_hand):
        if not (len(place) == 2 and place[0] == new_in and not real.exists()):
            raise CallError(
                f"one of the files of the library {folder}, which no output replaces",
                where=target,
                hint="name another place, or move that file away first",
            )
    if _folded(real.name) in OWN_FILES:
        raise CallError("a name that only a library's own file has", where=target, hint="name another")


def _owners(real: Path, at_hand: Iterable[Path]) -> Iterator[tuple[Path, tuple[str, ...]]]:
    """Yield each library that a file belongs to or would belong to, and its place inside."""
    above = [folder for folder in real.parents if (folder / marker.NAME).is_file()]
    for folder in dict.fromkeys([*above, *_near(at_hand)]):
        place = _place(real, Path(os.path.realpath(folder)))
        if (place and place[0] in OWN_FOLDERS | OWN_FILES) or (place and place[0].startswith(files.TEMPORARY)):
            yield folder, place
        elif _same_file(real, folder) or _in_linked_folder(real, folder):
            yield folder, ()


def _near(at_hand: Iterable[Path]) -> Iterator[Path]:
    for folder in at_hand:
        if (folder / marker.NAME).is_file():
            yield folder
    with suppress(DynoanError):
        yield marker.find()


def _place(real: Path, folder: Path) -> tuple[str, ...]:
    """Return where inside a folder a file lies, empty where it lies elsewhere; in one spelling, as disks compare."""
    parts, root = [_folded(p) for p in real.parts], [_folded(p) for p in folder.parts]
    return tuple(parts[len(root) :]) if parts[: len(root)] == root else ()


def _folded(name: str) -> str:
    """Return a name as a disk that knows no case, and drops blanks and dots at the end, has it."""
    return unicodedata.normalize("NFC", name).casefold().rstrip(" .") or name


def _in_linked_folder(real: Path, library: Path) -> bool:
    """Tell whether a file lies in a folder that a library only links to."""
    return any(_place(real, Path(os.path.realpath(library / name))) for name in OWN_FOLDERS)


def _same_file(real: Path, library: Path) -> bool:
    """Tell whether a file is one of a library's by another name: a hard link, or the end of a soft one."""
    try:
        status = os.stat(real)
    except (OSError, ValueError):
        return False
    wanted = (status.st_dev, status.st_ino)
    return any(_identity(path) == wanted for path in _own_files(library))


def _own_files(library: Path) -> Iterator[str]:
    yield from (str(library / name) for name in OWN_FILES)
    for name in OWN_FOLDERS:
        for folder, _, names in os.walk(library / name):
            yield from (f"{folder}{os.sep}{n}" for n in names)


def _identity(path: str) -> tuple[int, int] | None:
    with suppress(OSError):
        status = os.stat(path)
        return status.st_dev, status.st_ino
    return None
