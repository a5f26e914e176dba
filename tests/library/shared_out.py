"""What the tests share out to other processes, in a file that these import at once."""

from __future__ import annotations

import os

from dynoan.batch import iterate
from dynoan.errors import QuantityError


def squared(number: int) -> int:
    return number * number


def squared_by(number: int) -> tuple[int, int]:
    return number * number, os.getpid()


def whose(_number: int) -> int:
    return os.getpid()


def refuse(number: int) -> int:
    if number == 3:
        raise QuantityError("three is no number")
    return number


def die(number: int) -> int:
    if number == 3:
        os._exit(9)
    return number


def where(_number: int) -> str:
    return os.getcwd()


def map_all(function, items, workers=None, *, cluster=None):
    """The results of all items, made by several workers."""
    return list(iterate(function, items, workers, cluster=cluster))
