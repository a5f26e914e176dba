"""Throw damaged HDF5 images at the reader, under an alarm and a limit on memory.

``python -m tests.faults.fuzz_hdf5 SEED COUNT``: an image that hangs, or kills the process, ends it with its number.
"""

from __future__ import annotations

import random
import resource
import signal
import sys
import time

from dynoan.errors import LibraryError
from dynoan.library import hdf5
from tests.library.made import made_sweep

MEMORY = 3 << 30
PATIENCE = 10  #: [s]


def damaged(whole: bytes, choose: random.Random) -> bytes:
    """Return an image with a few bytes, words or its tail changed, mostly where HDF5 keeps its structures."""
    data = bytearray(whole)
    for _ in range(choose.choice((1, 1, 2, 4, 8))):
        kind, place = choose.random(), choose.randrange(min(len(data), choose.choice((200, 2000, 8000, len(data)))))
        if kind < 0.5:
            data[place] ^= 1 << choose.randrange(8)
        elif kind < 0.8:
            data[place] = choose.choice((0, 1, 127, 128, 255, choose.randrange(256)))
        elif kind < 0.95:
            size = choose.choice((0, 2**64 - 1, 2**63, 2**32, len(data), 1 << 40))
            data[place : place + 8] = size.to_bytes(8, "little")
        else:
            del data[max(9, place) :]
    return bytes(data)


def main(seed: int, count: int) -> None:
    """Read `count` damaged images and print how many were refused and how long the slowest took."""
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    sweep, original = made_sweep(1, samples=300)
    units = dict.fromkeys(sweep.channels, "N")
    whole = hdf5.to_image(hdf5.Content(sweep.channels, original), units, '{"some": "record"}')
    choose, refused, slowest = random.Random(seed), 0, 0.0
    for number in range(count):
        image, started = damaged(whole, choose), time.process_time()
        signal.alarm(PATIENCE)
        try:
            hdf5.from_image(image, f"image {number}")
        except LibraryError:
            refused += 1
        slowest = max(slowest, time.process_time() - started)
    signal.alarm(0)
    print(f"{count} images, {refused} refused, slowest {slowest * 1e3:.0f} ms")


if __name__ == "__main__":
    main(*map(int, sys.argv[1:]))
