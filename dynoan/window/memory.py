"""Memory given back to the system.

What the window holds stays as it is over days, but by its own rules the C library keeps what was freed: each thread
takes from a pool of its own, and once a large array was freed all arrays up to its size are cut from those pools,
which then cannot shrink. Measured over 140 requests of the Car screen: 420 MB, of which 64 MB were in use; held to the
rules below 270 MB.
"""

from __future__ import annotations

import ctypes
import platform
import sys

#: numbers of glibc's `mallopt` (malloc.h), and what is asked: two pools, arrays from 1 MiB on straight from the system
#: and straight back to it, and no more than 8 MiB kept free at the end of a pool
RULES = ((-8, 2), (-3, 1 << 20), (-1, 8 << 20))


def keep_small() -> bool:
    """Ask the C library to give memory back; return whether it is one that can be asked (glibc)."""
    library = _glibc()
    return library is not None and all(library.mallopt(number, value) == 1 for number, value in RULES)


def give_back() -> None:
    """Give back to the system what is free; nothing happens where the C library has no such call."""
    library = _glibc()
    if library is not None:
        library.malloc_trim(0)


def _glibc() -> ctypes.CDLL | None:
    if sys.platform != "linux" or platform.libc_ver()[0] != "glibc":
        return None
    return ctypes.CDLL(None)
