"""The best settings of a pack from two score tables that may share adjusters: exact, without forming all settings.

A pack of four adjusters of 24 clicks has 331,776 settings, but what compression scores depends on some adjusters, what
rebound scores on others. With the adjusters that both share held, the best sum is the best of each.
"""

from __future__ import annotations

import numpy as np

from dynoan.analysis.choosing.score import BIG, Scored
from dynoan.model.arrays import BoolArray, IntArray


def best_pairs(compression: Scored, rebound: Scored, count: int) -> list[tuple[dict[str, int], int]]:
    """Return the `count` settings of lowest summed key, best first: offsets into the tables by adjuster, and the key.

    Parameters
    ----------
    compression, rebound
        Tables over the same ranges of the adjusters they share.
    count
        How many at most; settings with a part that can never be chosen do not count.

    Returns
    -------
    :
        Pairs. Ties that the key leaves open go to the lower clicks: of the shared adjusters first, then those of
        compression, then those of rebound. So the answer does not depend on how the search goes about it.

    Notes
    -----
    With the shared adjusters held, the two tables are independent: a pair among the best `count` is made of entries
    that are each among the best `count` of their row. A row or entry is skipped where it plus the least of the other
    side exceeds a sum that `count` settings are known to reach.
    """
    shared = tuple(name for name in compression.adjusters if name in rebound.adjusters)
    up, up_axes = _rows(compression, shared)
    down, down_axes = _rows(rebound, shared)
    least_up, least_down = up.min(axis=1), down.min(axis=1)
    bound = min(_bound(up, down, least_up + least_down, count), BIG - 1)
    found = [np.empty((0, 4), dtype=np.int64)]
    for x in np.flatnonzero(least_up + least_down <= bound):
        a = _lowest(up[x], bound - least_down[x], count)
        b = _lowest(down[x], bound - least_up[x], count)
        sums = up[x][a][:, None] + down[x][b][None, :]
        i, j = np.nonzero(sums <= bound)
        found.append(np.column_stack([sums[i, j], np.full(len(i), x), a[i], b[j]]))
    pairs = np.concatenate(found)
    order = np.lexsort(pairs.T[::-1])[:count]
    shared_shape = [compression.key.shape[compression.adjusters.index(name)] for name in shared]
    out = []
    for key, row, c, r in pairs[order].tolist():
        setting = dict(zip(shared, _unravel(row, shared_shape), strict=True))
        setting |= dict(zip(up_axes, _unravel(c, _sizes(compression, up_axes)), strict=True))
        setting |= dict(zip(down_axes, _unravel(r, _sizes(rebound, down_axes)), strict=True))
        out.append((setting, key))
    return out


def contenders(compression: Scored, rebound: Scored, count: int) -> tuple[BoolArray, BoolArray]:
    """Return which entries of two tables of misses can be part of the best `count`, of all or of those that fit.

    Parameters
    ----------
    compression, rebound
        Of the misses alone, as from `score.missed`.
    count
        How many settings are wanted.

    Returns
    -------
    :
        For each table an array of its shape.

    Notes
    -----
    The miss ranks first: a setting whose miss is above that of `count` others is out, whatever settles ties.
    """
    shared = tuple(name for name in compression.adjusters if name in rebound.adjusters)
    keep = [np.zeros(table.key.shape, dtype=bool) for table in (compression, rebound)]
    for one, other in ((compression, rebound), (only_fitting(compression), only_fitting(rebound))):
        rows = [_rows(table, shared)[0] for table in (one, other)]
        least = [part.min(axis=1) for part in rows]
        bound = min(_bound(rows[0], rows[1], least[0] + least[1], count), BIG - 1)
        for kept, table, part, against in zip(keep, (one, other), rows, least[::-1], strict=True):
            kept[...] |= _unrows(part <= bound - against[:, None], table, shared)
    return keep[0], keep[1]


def only_fitting(table: Scored) -> Scored:
    """Return a table in which what does not fit can never be chosen."""
    return Scored(table.adjusters, np.where(table.fits, table.key, BIG), table.fits)


def _rows(table: Scored, shared: tuple[str, ...]) -> tuple[IntArray, tuple[str, ...]]:
    """Return the keys as rows over the shared adjusters, columns over the rest, and the rest's names."""
    rest = tuple(name for name in table.adjusters if name not in shared)
    order = [table.adjusters.index(name) for name in (*shared, *rest)]
    moved = table.key.transpose(order)
    rows = int(np.prod(moved.shape[: len(shared)], dtype=int))
    return np.ascontiguousarray(moved).reshape(rows, -1), rest


def _unrows(rows: BoolArray, table: Scored, shared: tuple[str, ...]) -> BoolArray:
    """Undo `_rows`."""
    order = [table.adjusters.index(name) for name in (*shared, *(n for n in table.adjusters if n not in shared))]
    moved = rows.reshape([table.key.shape[axis] for axis in order])
    return moved.transpose(np.argsort(order))


def _bound(up: IntArray, down: IntArray, best: IntArray, count: int) -> int:
    """Return a sum that at least `count` settings do not exceed, or one above all sums where there are fewer."""
    x = int(np.argmin(best))
    along = [np.sort(up[x])[:count] + down[x].min(), np.sort(down[x])[1:count] + up[x].min()]
    known = np.sort(np.concatenate([*along, np.delete(best, x)]))
    return int(known[count - 1]) if len(known) >= count else 2 * BIG


def _lowest(row: IntArray, bound: int, count: int) -> IntArray:
    """Return the indices of the at most `count` lowest entries up to a bound, lower index first among equals."""
    near = np.flatnonzero(row <= bound)
    return near[np.argsort(row[near], kind="stable")[:count]]


def _sizes(table: Scored, names: tuple[str, ...]) -> list[int]:
    return [table.key.shape[table.adjusters.index(name)] for name in names]


def _unravel(index: int, shape: list[int]) -> list[int]:
    return [int(i) for i in np.unravel_index(index, shape)] if shape else []
