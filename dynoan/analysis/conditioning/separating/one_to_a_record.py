"""Parts of a force that are one to a record: draws of either taken for the other, as likely as it is."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from dynoan.analysis.conditioning import assumptions as a
from dynoan.analysis.conditioning.forces.columns import Columns
from dynoan.analysis.conditioning.forces.shape import centres
from dynoan.analysis.conditioning.separating.prior import Normal
from dynoan.model.arrays import FloatArray


def either_way(
    problem: Normal, found: FloatArray, slow: float, rng: np.random.Generator, larger: float = 1.0
) -> FloatArray:
    """Return draws of a fluid that yields, some of what yields taken for friction or the other way round. [SI]

    Friction beyond what is usual may as well be what yields, all of it or some; what yields may as well make up for
    friction less than is usual.

    Parameters
    ----------
    problem
        That the draws are of.
    found
        The draws, shape (draws, p). [SI]
    slow
        How likely it is that friction turns around as slowly as a fluid yields. [1]
    rng
        Where luck comes from.
    larger
        How many times as strong friction is expected as in a car's shock. [1]
    """
    moved = larger * a.SAME_AS_YIELD * np.sqrt(slow) * rng.standard_normal(len(found))
    return _as_friction(problem, found, moved + rng.random(len(found)) * _to_usual(problem, found, slow, larger))


def valve_instead(
    problem: Normal, found: FloatArray, chance: float, rng: np.random.Generator, larger: float = 1.0
) -> FloatArray:
    """Return draws in some of which friction stronger than usual is a valve that holds from rest, most or all. [SI]

    Behind a spring that gives, such a valve's force rises over some travel after each reversal, as friction's does.

    Parameters
    ----------
    problem, found, rng, larger
        As of `either_way`.
    chance
        How likely that is. [1]
    """
    rubs, usual = _rubs(problem, found), larger * a.USUAL_FRICTION
    strong = np.clip((rubs - usual) / (2.0 * larger * a.FRICTION_SPREAD) - 1.0, 0.0, 1.0)
    if not strong.any():
        return found
    moved = strong * (rubs - usual) * (1.0 - 0.5 * rng.random(len(found)))
    return _as_friction(problem, found, np.where(rng.random(len(found)) < chance, -moved, 0.0))


def middle_of_either(problem: Normal, x: FloatArray, slow: float, larger: float = 1.0) -> FloatArray:
    """Return the middle of what `either_way` makes of coefficients, shape (p,). [SI]"""
    return np.asarray(_as_friction(problem, x[None], 0.5 * _to_usual(problem, x[None], slow, larger))[0])


def lopsided(problem: Normal, found: FloatArray, rng: np.random.Generator) -> FloatArray:
    """Return draws of which some of the gas force is friction that differs between directions, or the other way round.

    Damping stays as it is: gas and friction by direction together are what the record tells. [SI]
    """
    n, names = len(problem.steps), [effect.name for effect in problem.effects]
    rubs = found[:, n:][:, [name.startswith("slide ") for name in names]].sum(axis=1)
    moved = a.TILT_UNSEEN * np.maximum(rubs, 0.0) * rng.standard_normal(len(found))
    out = found.copy()
    out[:, n + names.index(f"tilt {a.TILT_SPEED:g}")] += moved - moved.mean()
    out[:, n + names.index("offset")] -= moved - moved.mean()
    return out


def of_no_one_level(
    columns: Columns, found: FloatArray, names: Sequence[str], rng: np.random.Generator, give: float = 0.0
) -> FloatArray:
    """Return draws of which a share of friction is damping that is there from some mm/s on, or the other way round.

    Seals hold more at rest than they rub with, and more at one place than at another. Behind what gives, their friction
    turns around as slowly as a valve begins: that there is none cannot be told. Their sum stays as it is. [SI]

    Parameters
    ----------
    columns
        Of the record.
    found
        The draws, shape (draws, p). [SI]
    names
        Of the effects, in the order of their coefficients.
    rng
        Where luck comes from.
    give
        In series with the valve. [m/N]
    """
    n, out = columns.size, found.copy()
    mine = np.array([n + i for i, name in enumerate(names) if name.split()[0] in ("turn", "slide")], dtype=np.int64)
    slow = np.concatenate([centres(edges) < a.LEVEL_UNTIL for edges in columns.edges])
    first = np.arange(n) < columns.sizes[0]
    places = [mine, *(np.flatnonzero(slow & side) for side in (first, ~first))]
    amounts = [np.maximum(found[:, at].sum(axis=1), 0.0) for at in places]
    least = min(a.LEVEL_LEAST, a.LEVEL_LEAST_SHARE * columns.peak)
    usual = columns.larger * a.USUAL_FRICTION
    hardly = max(1.0 - float(amounts[0].mean()) / (0.5 * usual), 0.0)
    least = float(np.hypot(least, a.BEHIND_SPRING * usual * hardly * min(give / a.GIVES_MUCH, 1.0)))
    moved = np.hypot(a.LEVEL_UNTOLD * amounts[0], least) * rng.standard_normal(len(found))
    moved = np.minimum(moved - moved.mean(), np.minimum(*amounts[1:]))
    moved = moved - moved.mean()  # what is expected of all stays what it was
    for at, sign in zip(places, (1.0, -1.0, -1.0), strict=True):
        share = np.maximum(found[:, at].mean(axis=0), 1e-12)
        out[:, at] += sign * np.outer(moved, share / share.sum())
    return out


def starting_unlike(columns: Columns, found: FloatArray, names: Sequence[str], rng: np.random.Generator) -> FloatArray:
    """Return draws of which some of the gas force is what a valve holds from the first mm/s on, more of it one way.

    Where damping starts at once both ways, the force steps from one level to the other at each reversal, and what is
    half way between them is gas force only if the valve holds as much in compression as in rebound. Their sum stays as
    it is. [SI]

    Parameters
    ----------
    columns, found, names, rng
        As of `of_no_one_level`.
    """
    n, out, far = columns.size, found.copy(), len(a.YIELD_SPEEDS)
    middles = np.concatenate([centres(edges) for edges in columns.edges])
    first = np.arange(n) < columns.sizes[0]
    yields = np.array([[n + names.index(f"yield {far * way + i}") for i in range(far)] for way in (0, 1)])
    places = [np.append(np.flatnonzero((middles < a.LEVEL_UNTIL) & side), own)
              for side, own in zip((first, ~first), yields, strict=True)]  # fmt: skip
    level, above = (
        np.array([found[:, np.append(np.flatnonzero((middles < until) & side), own)].mean(axis=0).sum()
                  for side, own in zip((first, ~first), yields, strict=True)])
        for until in (a.LEVEL_UNTIL, a.STARTED_BY)
    )  # fmt: skip
    steep = float(level.sum() / max(above.sum(), 1e-9))
    share = a.UNLIKE_STARTS * max(steep - a.STARTS_AT_ONCE, 0.0) / (1.0 - a.STARTS_AT_ONCE)
    if share == 0.0:
        return found
    moved = share * 0.5 * float(level.sum()) * rng.standard_normal(len(found))
    amounts = [np.maximum(found[:, at].sum(axis=1), 0.0) for at in places]
    moved = np.clip(moved, -amounts[1], amounts[0])
    moved = moved - moved.mean()
    for at, sign in zip(places, (-1.0, 1.0), strict=True):
        part = np.maximum(found[:, at].mean(axis=0), 1e-12)
        out[:, at] += sign * np.outer(moved, part / part.sum())
    out[:, n + names.index("offset")] += moved
    return out


def _to_usual(problem: Normal, found: FloatArray, slow: float, larger: float) -> FloatArray:
    """Return what friction is short of the usual, as far as it may turn around as a fluid yields, or less what it is
    beyond, shape (draws,). [N]
    """
    rubs, usual = _rubs(problem, found), larger * a.USUAL_FRICTION
    beyond = np.maximum(rubs - usual - larger * a.FRICTION_SPREAD, 0.0)
    return np.asarray(slow * np.maximum(usual - rubs, 0.0) - beyond)


def _rubs(problem: Normal, found: FloatArray) -> FloatArray:
    """Return the friction of coefficients, shape (draws, p), without breakaway, shape (draws,). [N]"""
    mine = [effect.kind == "friction" for effect in problem.effects]
    return np.asarray(found[:, len(problem.steps) :][:, mine].sum(axis=1))


def _as_friction(problem: Normal, found: FloatArray, moved: FloatArray) -> FloatArray:
    """Return coefficients, shape (draws, p), so much of what yields taken for friction, as far as there is any. [SI]"""
    n, names = len(problem.steps), [effect.name for effect in problem.effects]
    rubs, first = n + names.index(f"turn {a.TURNING_SPEEDS[-1]:g}"), len(a.YIELD_SPEEDS)
    most = np.minimum(*(found[:, [n + names.index(f"yield {first * way + i}") for i in range(first)]].sum(axis=1)
                        for way in (0, 1)))  # fmt: skip
    moved = np.clip(moved, np.minimum(-_rubs(problem, found), 0.0), np.maximum(most, 0.0))
    out = found.copy()
    out[:, rubs] += moved
    for place in (0, first):
        out[:, n + names.index(f"yield {place}")] -= moved
    return out
