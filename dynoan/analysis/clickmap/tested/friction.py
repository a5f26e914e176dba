"""What a tested curve says of damping alone: its own split, or the sum less the friction that other tests tell of."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike

from dynoan.analysis.clickmap.assumptions import data as a
from dynoan.analysis.clickmap.tested.setting import Tested
from dynoan.analysis.statistics import Z95
from dynoan.model.arrays import FloatArray
from dynoan.model.curve import Curve, Direction


@dataclass(frozen=True)
class SeenSide:
    """One direction of one tested curve at given speeds, (S,) each."""

    logs: FloatArray  #: ln(damping force / 1 N)
    variance: FloatArray  #: of that, what is not in `split` [1]
    split: FloatArray  #: standard error from friction taken for damping, the same newtons at all speeds [1]
    common: FloatArray  #: standard error that all tests of the rig share [1]
    rubbed: FloatArray  #: standard error from the shock's friction, which all its tests that cannot split share [1]
    newtons: float = float("nan")  #: least standard error of a test that splits, friction taken for damping in it [N]


@dataclass(frozen=True)
class Rubbing:
    """What is known of a shock's friction. [N]"""

    friction: float = a.USUAL_FRICTION
    sd: float = a.USUAL_FRICTION_SD


def friction_of(tested: Sequence[Tested]) -> Mapping[str, Rubbing]:
    """Return what the tests of each shock tell of its friction; what is usual where others' tell.

    Where no test of any shock tells it, friction stays in the force, as it does in the curves: the doubt is told.
    """
    out = {}
    if not any(np.isfinite(t.curve.friction) for t in tested):
        return {t.shock: Rubbing(0.0, a.FRICTION_LEFT_IN) for t in tested}
    for shock in sorted({t.shock for t in tested}):
        out[shock] = _rubbing([t.curve for t in tested if t.shock == shock and np.isfinite(t.curve.friction)])
    return out


def _rubbing(known: Sequence[Curve]) -> Rubbing:
    """Return the friction of a shock from the curves that tell it: their errors of the split do not average out."""
    if not known:
        return Rubbing()
    sd = np.array([np.nan_to_num(c.friction_sd, nan=a.FRICTION_UNTOLD) for c in known])
    told, error = _told(np.array([c.friction for c in known]), np.maximum(sd, a.LEAST_NEWTONS))
    prior = 1.0 / a.USUAL_FRICTION_SD**2
    total = prior + 1.0 / error**2
    return Rubbing((prior * a.USUAL_FRICTION + told / error**2) / total, float(np.sqrt(1.0 / total)))


def mean_friction(curves: Sequence[Curve]) -> Rubbing:
    """Return the mean friction of curves with its error, not-a-numbers where none tells it.

    Errors of the split are alike and do not average out; what curves differ by stays open for any one setting.
    """
    known = [c for c in curves if np.isfinite(c.friction)]
    if not known:
        return Rubbing(float("nan"), float("nan"))
    each = [c.friction for c in known]
    split = np.mean([np.nan_to_num(c.friction_sd, nan=a.FRICTION_UNTOLD) ** 2 for c in known])
    return Rubbing(float(np.mean(each)), float(np.sqrt(split + np.var(each))))


def seen_side(curve: Curve, direction: Direction, speeds: FloatArray, rubbing: Rubbing) -> SeenSide:
    """Return what one curve says of damping in one direction, the errors of its split apart from the rest."""
    side = curve.side(direction)
    unmeasured = np.where(speeds < side.low_speed * 0.95, a.UNMEASURED_SHARE**2, 0.0)
    beyond = a.UNMEASURED_SHARE * np.maximum(np.log(speeds / side.top_speed) - 0.01, 0.0)
    if splits(curve):
        force = np.maximum(side.force(speeds), 1.0)
        low, high = side.band(speeds)
        share = np.nan_to_num((high - low) / (2 * Z95) / force, nan=a.UNBANDED_SHARE, posinf=1.0)
        newtons = float(np.min(share * force))
        own = min(np.nan_to_num(curve.friction_sd, nan=0.0), newtons) / force
        rest = np.maximum(share**2 - own**2, (a.REST_OF_SPLIT * share) ** 2)
        return SeenSide(np.log(force), _bounded(rest, unmeasured, beyond), np.minimum(own, a.MOST_COMMON),
                        a.SHARED_ERROR * newtons / force, np.zeros_like(force), newtons)  # fmt: skip
    sign = 1.0 if direction == "compression" else -1.0
    total = np.abs(curve.total(sign * speeds))
    low, high = (np.asarray(limit) for limit in curve.total_band(sign * speeds))
    force = np.maximum(total - rubbing.friction, np.maximum(a.LEAST_LEFT * total, 1.0))
    share = np.nan_to_num((high - low) / (2 * Z95) / force, nan=a.UNBANDED_SHARE, posinf=1.0)
    return SeenSide(np.log(force), _bounded(share**2, unmeasured, beyond),
                    np.minimum(a.FRICTION_SCATTER / force, a.MOST_COMMON), np.zeros_like(force),
                    np.minimum(rubbing.sd / force, a.MOST_COMMON))  # fmt: skip


def pooled(rows: Sequence[SeenSide], curves: Sequence[Curve], states: Sequence[int]) -> list[SeenSide]:
    """Return what curves say of damping once tests of one state of a shock have told its friction together.

    A test that reads more friction than the others of its shock has most likely taken damping for it, as far as its
    own error allows beside what friction differs by from run to run. `states`: which state each curve is of.
    """
    out = list(rows)
    known = [i for i, curve in enumerate(curves) if splits(curve) and curve.friction_sd > 0]
    for state in {states[i] for i in known}:
        mine = [i for i in known if states[i] == state]
        if len(mine) < 2:
            continue
        sd = np.array([max(curves[i].friction_sd, a.LEAST_NEWTONS) for i in mine])
        friction = np.array([curves[i].friction for i in mine])
        mean, mean_sd = _told(friction, sd)
        share = sd**2 / (sd**2 + a.FRICTION_SCATTER**2)
        for i, error, known_share, away in zip(mine, sd, share, friction - mean, strict=True):
            out[i] = _moved(rows[i], min(rows[i].newtons / error, 1.0) * known_share, away, mean_sd, known_share)
    return out


def _told(friction: FloatArray, sd: FloatArray) -> tuple[float, float]:
    """Return the friction that several curves tell and its error: those of the split do not average out. [N]"""
    weight = 1.0 / (sd**2 + a.FRICTION_SCATTER**2)
    shared = 1.0 / np.mean(1.0 / sd**2)
    told = float(np.sum(weight * friction) / np.sum(weight))
    return told, float(np.sqrt(shared + a.FRICTION_SCATTER**2 / len(sd)))


def _moved(row: SeenSide, share: float, away: float, sd: float, known: float) -> SeenSide:
    """Return a row with a share of how far its friction lies off that of its shock given back to damping."""
    force = np.exp(row.logs)
    now = np.maximum(force + share * away, a.LEAST_LEFT * force)
    less = force / now
    return replace(row, logs=np.log(now), split=row.split * less * np.sqrt(1.0 - known), common=row.common * less,
                   rubbed=np.minimum(share * sd / now, a.MOST_COMMON))  # fmt: skip


def alike_newtons(rows: Sequence[SeenSide]) -> float:
    """Return the error that tests of a pack have alike, the same newtons at all speeds, standard deviation. [N]

    What takes friction for damping in one test does so in the others: more tests average it away no more than the form
    of a curve tells it. Of tests that cannot split, the friction told elsewhere errs so.
    """
    known = np.array([row.newtons for row in rows])
    known = known[np.isfinite(known)]
    if not len(known):
        return min((float(np.max(row.rubbed * np.exp(row.logs))) for row in rows), default=0.0)
    return float(np.sqrt(a.ALIKE_SHARE / np.mean(1.0 / np.maximum(known, a.LEAST_NEWTONS) ** 2)))


def splits(curve: Curve) -> bool:
    """Return whether a curve tells friction from damping; a peak table, for one, does not."""
    return bool(np.isfinite(curve.friction))


def _bounded(variance: ArrayLike, unmeasured: FloatArray, beyond: FloatArray) -> FloatArray:
    return np.asarray(np.minimum(np.asarray(variance) + a.LEAST_SHARE**2 + unmeasured + beyond**2, 1.0))
