"""Memory given back to the system, or kept for what comes next.

What the window holds stays as it is over days, but by its own rules the C library keeps what was freed: each thread
takes from a pool of its own, and once a large array was freed all arrays up to its size are cut from those pools,
which then cannot shrink. Measured over 140 requests of the Car screen: 420 MB, of which 64 MB were in use; held to the
first rules below 270 MB.

A worker makes and drops arrays of a megabyte thousands of times for each curve. Where they go back to the system each
time it hands out empty pages 2,000 times a curve, 3 to 7 % of the time; kept, as the second rules have it, 50 times.
"""

from __future__ import annotations

import ctypes
import platform
import sys

#: numbers of glibc's `mallopt` (malloc.h): how many pools, from what size on arrays come straight from the system and
#: go straight back to it, and how much is kept free at the end of a pool
_POOLS, _STRAIGHT, _FREE = -8, -3, -1
SMALL = ((_POOLS, 2), (_STRAIGHT, 1 << 20), (_FREE, 8 << 20))  #: of a process that stays for days [1], [bytes]
READY = ((_STRAIGHT, 16 << 20), (_FREE, 64 << 20))  #: of one that fits curves and then ends [bytes]


def keep_small() -> bool:
    """Ask the C library to give memory back; return whether it is one that can be asked (glibc)."""
    return _asked(SMALL)


def keep_ready() -> bool:
    """Ask the C library to keep what was freed for the next arrays; return whether it is one that can be asked."""
    return _asked(READY)


def _asked(rules: tuple[tuple[int, int], ...]) -> bool:
    library = _glibc()
    return library is not None and all(library.mallopt(number, value) == 1 for number, value in rules)


def give_back() -> None:
    """Give back to the system what is free; nothing happens where the C library has no such call."""
    library = _glibc()
    if library is not None:
        library.malloc_trim(0)


def _glibc() -> ctypes.CDLL | None:
    if sys.platform != "linux" or platform.libc_ver()[0] != "glibc":
        return None
    return ctypes.CDLL(None)
