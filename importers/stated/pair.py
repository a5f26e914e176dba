"""A key and its value in a file's text."""

from __future__ import annotations

from typing import NamedTuple


class InQuotes(str):
    """A value that stood in quotes with a comma, which is no mark there."""

    __slots__ = ()


class StatedPair(NamedTuple):
    """A key and its value, as they stood."""

    key: str
    value: str
