"""What a disk says when it refuses, in words: what is wrong, and what to do."""

from __future__ import annotations

import errno
import os
import shutil
from contextlib import suppress
from pathlib import Path

from dynoan.errors import LibraryError

LEAST_ROOM = 1 << 20  #: with less free a disk counts as full: a run takes half of it, a curve's cache less [bytes]
MOST_LOOKED_OVER = 5000  #: names of a folder among which one that is near to a wrong one is sought

_WORDS = {
    errno.ENOSPC: ("the disk is full", "nothing was changed: free some space and try again"),
    errno.EDQUOT: ("your disk quota is used up", "nothing was changed: free some space and try again"),
    errno.EROFS: ("the disk is read-only", "nothing was changed: make it writable, or use another folder"),
    errno.EACCES: ("no permission to write here", "nothing was changed: change the permissions, or use another folder"),
    errno.EPERM: (
        "writing here is not permitted",
        "nothing was changed: change the permissions, or use another folder",
    ),
    errno.ENOENT: ("the folder is gone (unplugged, or moved?)", "nothing was changed: bring it back and try again"),
    errno.ENOTDIR: ("a file is in the way where a folder should be", "nothing was changed: move it away"),
    errno.EIO: ("the disk reports a fault", "nothing was changed: copy the library elsewhere and check the disk"),
    errno.EFBIG: ("the file is too large for this disk", "nothing was changed"),
    errno.ENAMETOOLONG: ("the name is too long for this disk", "nothing was changed: use a shorter one"),
}


def said_of(error: OSError) -> tuple[str, str]:
    """Return what an operating system's error says in words, and what to do."""
    return _WORDS.get(error.errno or 0, (str(error.strerror or error), "nothing was changed"))


def fault_of(error: OSError, path: Path) -> LibraryError:
    """Return an operating system's error as one line: which file, what is wrong, what to do."""
    what, hint = said_of(error)
    return LibraryError(what, where=path, hint=hint)


def is_full(folder: Path) -> bool:
    """Return whether the disk that a folder is on says that it has no room left for a file of ours."""
    with suppress(OSError):
        room = shutil.disk_usage(folder)
        return room.total > 0 and room.free < LEAST_ROOM  # some shares tell no sizes
    return False


def way_to(path: str | os.PathLike[str]) -> str:
    """Return what to do about a file that is not there: the name that was meant, where one of its folder is near."""
    import difflib
    from itertools import islice

    folder, name = os.path.split(os.path.abspath(path))
    if os.path.islink(path):
        return "it is a link to what is gone: take it away, or bring that back"
    if not os.path.isdir(folder):
        return f"there is no folder {folder} either: check its name"
    there: list[str] = []
    with suppress(OSError), os.scandir(folder) as entries:
        there = [entry.name for entry in islice(entries, MOST_LOOKED_OVER)]
    by_fold = {entry.casefold(): entry for entry in there if entry.isprintable()}
    near = difflib.get_close_matches(name.casefold(), by_fold, n=1, cutoff=0.85)
    return f"did you mean {by_fold[near[0]]}?" if near else f"check the name; it was looked for in {folder}"
