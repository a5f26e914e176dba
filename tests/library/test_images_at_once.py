"""Sweeps are read and kept by several threads at once, as in the window: each gets its own, whatever the others do."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

import numpy as np

from dynoan.library.hdf5 import Content, from_image, to_image


def _image(number: int) -> bytes:
    content = Content({"force": np.full(3000 + number, float(number))}, b"r" * number)
    return to_image(content, {"force": "N"}, "{}")


def test_every_thread_reads_the_image_it_opened():
    images = [_image(number) for number in range(6)]

    def read(turn: int) -> tuple[int, float, int]:
        number = turn % len(images)
        _image(number)
        content = from_image(images[number], "a file")
        return number, float(content.channels["force"][-1]), len(content.original)

    with ThreadPoolExecutor(6) as pool:
        answers = list(pool.map(read, range(300)))

    assert answers == [(number, float(number), number) for number, *_ in answers]
