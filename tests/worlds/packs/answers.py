"""What a program is asked and what it answers, in words that know nothing of any program.

Each is a callable that gets a `Library` and a question, never a `PackWorld`. NaN in a band is "nothing said here".
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from tests.worlds.packs.made import Library
from tests.worlds.packs.tests_of import Run, Setting
from tests.worlds.score import Band
from tests.worlds.valves import FloatArray


@dataclass(frozen=True, eq=False)
class Mapped:
    """What is said of one pack."""

    band: Callable[[Setting, FloatArray, str, float], Band]
    """Damping alone at clicks as written, signed velocities [m/s], in a shock, in a year: value and 95 % band [N]."""
    oddities: frozenset[str] = frozenset()  #: named as in `PackWorld.oddities`
    refused: str | None = None  #: reason for giving nothing


@dataclass(frozen=True)
class Named:
    """What is said of an unlabelled run."""

    pack: str | None  #: None: none of these
    probability: float
    told: bool = True  #: False: "cannot tell"


@dataclass(frozen=True)
class Ordered:
    """Which runs are asked for, one after the other, and the error expected once they are in."""

    runs: tuple[Setting, ...]
    error_now: float  #: rms share of force over all clicks and speeds
    error_after: float


Verdict = Literal["matched", "not matched", "cannot tell"]
Mapper = Callable[[Library, str], Mapped]
"""Of a library and a pack's name."""
Identifier = Callable[[Library, Run], Named]
Matcher = Callable[[Library, Sequence[Run], Sequence[Run], float], Verdict]
"""Of two shocks' runs and a tolerance; the library's runs tell of scatter."""
Checker = Callable[[Library, Sequence[Run], Sequence[Run]], frozenset[str]]
"""Of a shock's runs so far (also in the library) and today's: what has changed, as in `History.changed`."""
Planner = Callable[[Library, str, int], Ordered]


@dataclass(frozen=True)
class Program:
    """What is tried; rows of a task that it does not have are left out."""

    map: Mapper | None = None
    identify: Identifier | None = None
    match: Matcher | None = None
    health: Checker | None = None
    plan: Planner | None = None  #: with `map`, which says how large the error is in truth
