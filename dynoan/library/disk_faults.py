"""What a disk says when it refuses, in words: what is wrong, and what to do."""

from __future__ import annotations

import errno
from pathlib import Path

from dynoan.errors import LibraryError

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
