"""One command line whose answer is held."""

from __future__ import annotations

import shlex
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any


@dataclass(frozen=True)
class Line:
    """A command line, where it runs, and how its answer is compared."""

    slug: str
    text: str  #: as typed, without the program's name
    ground: str  #: the folder it runs in, by name: see grounds.py
    json: bool = True  #: whether it is held with --json
    plain: bool = True  #: whether the text for people is held
    before: tuple[str, ...] = ()  #: lines that run first, in the same folder
    fresh: bool = False  #: runs in a copy of the ground of its own, because it changes what is there
    leaves: tuple[str, ...] = ()  #: files it leaves, held beside the text
    today: bool = False  #: the day it runs on stands in the answer
    tolerance: float = 1e-9  #: of numbers, as a share of the largest number beside it
    why: str = ""  #: why the tolerance is not the usual

    @property
    def words(self) -> list[str]:
        """The words as a shell passes them."""
        return shlex.split(self.text)


def lines(ground: str, prefix: str, texts: Mapping[str, str], **settings: Any) -> tuple[Line, ...]:
    """Return the lines of one ground, their slugs under one prefix."""
    return tuple(Line(f"{prefix}-{slug}", text, ground, **settings) for slug, text in texts.items())


def leaving(line: Line, *files: str, **settings: Any) -> Line:
    """Return a line with the files it leaves."""
    return replace(line, leaves=files, **settings)
