"""Sets of expectations: how strong each effect of a record may be before its force is looked at."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from dynoan.analysis.conditioning import assumptions as a
from dynoan.analysis.conditioning.forces.effects import Effect
from dynoan.model.arrays import BoolArray, FloatArray

Mark = tuple[str, str, bool]  #: name, kind and lateness of an effect: all that a set of expectations asks of it


@dataclass(frozen=True)
class Kind:
    """One set of expectations."""

    friction: float = a.FRICTION_SPREAD  #: of all laws together, standard deviation [N]
    usual: float = a.USUAL_FRICTION  #: and mean [N]
    yields: bool = True  #: whether the fluid may yield
    early: bool = False  #: whether friction laws that can look like lag are left out
    laws: tuple[str, ...] = ("turn", "slide")  #: what turns friction around, by name or kind
    breakaway: float = a.BREAKAWAY_SCALE  #: standard deviation of each such law [N]
    away: tuple[str, ...] = ("breakaway",)  #: laws of breakaway, by name or kind
    level: float = a.USUAL_FRICTION  #: about how strong friction is [N]
    side: bool = True  #: whether a guide may rub under side load
    even: float = a.EVEN_SHARE  #: how alike both directions are near zero speed, standard deviation, a share


@dataclass(frozen=True)
class Listed:
    """Effects as arrays, one entry an effect, in their order."""

    marks: tuple[Mark, ...]
    prior: FloatArray  #: their own standard deviations
    mean: FloatArray
    positive: BoolArray
    rub: FloatArray  #: 1 where it is friction
    away: FloatArray  #: 1 where it is breakaway

    def priors(self, kind: Kind) -> FloatArray:
        """Return standard deviations under a set of expectations, zero where left out, (effects,). [as each]"""
        own, fixed = _shares(self.marks, kind)
        return own * self.prior + fixed


def listed(effects: Sequence[Effect]) -> Listed:
    """Return effects as arrays."""
    marks = tuple((e.name, e.kind, e.late) for e in effects)
    rub, away = _flags(marks)
    return Listed(marks, np.array([e.prior for e in effects]), np.array([e.mean for e in effects]),
                  np.array([e.positive for e in effects], dtype=bool), rub, away)  # fmt: skip


@lru_cache(maxsize=64)
def _flags(marks: tuple[Mark, ...]) -> tuple[FloatArray, FloatArray]:
    rub, away = (np.array([kind == what for _, kind, _ in marks], float) for what in ("friction", "breakaway"))
    return rub, away


@lru_cache(maxsize=256)
def _shares(marks: tuple[Mark, ...], kind: Kind) -> tuple[FloatArray, FloatArray]:
    """Return by how much each effect's own standard deviation counts [1], and what it is beside that [its unit]."""
    both = np.array([_share(*mark, kind) for mark in marks], float).reshape(-1, 2)
    return both[:, 0].copy(), both[:, 1].copy()


def _share(name: str, what: str, late: bool, kind: Kind) -> tuple[float, float]:
    """Return the same of one effect, both zero where it is left out."""
    left_out, own = (0.0, 0.0), (1.0, 0.0)
    if (what == "yield" and not kind.yields) or (kind.early and late):
        return left_out
    if what == "side" and not kind.side:
        return left_out
    if what in ("tilt", "travel"):
        # By a share of friction, of which there may be hardly any; nor does a valve that holds pass for a lot of it.
        level = min(kind.level, kind.usual + min(kind.friction, a.FRICTION_SPREAD))
        return (level / a.USUAL_FRICTION, 0.0) if _differs(name, what, kind.laws) else left_out
    if what == "friction" and not _among(name, kind.laws):
        return left_out
    if what == "breakaway":
        return (own if kind.early else (0.0, kind.breakaway)) if _among(name, kind.away) else left_out
    if what == "flex":
        return (0.0, a.BRISTLE * kind.level) if _among(name.replace("flex", "slide"), kind.laws) else left_out
    return own


def _differs(name: str, what: str, laws: tuple[str, ...]) -> bool:
    """Return whether friction by some laws may differ between directions, or over travel, as an effect has it."""
    if what == "travel":
        law_of = name.split()[2]
        return law_of == "any" or any(law.split()[0] == law_of for law in laws)
    if not laws:
        return False
    # One speed alone: two would make up for any start of one direction.
    own = len(laws) == 2 and laws[0].startswith("turn ")
    return name == (laws[0].replace("turn", "tilt") if own else f"tilt {a.TILT_SPEED:g}")


def _among(name: str, laws: tuple[str, ...]) -> bool:
    return name in laws or name.split()[0] in laws
