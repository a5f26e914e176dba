"""Which rows stand at the same phase of the cycle."""

from __future__ import annotations

import numpy as np

from dynoan.analysis.conditioning.assumptions import PHASES
from dynoan.analysis.conditioning.samples.rows import Rows
from dynoan.model.arrays import IntArray


def phases(rows: Rows) -> IntArray:
    """Return numbers from 0 of rows of one block and phase of the cycle, shape (n,)."""
    fresh = (np.diff(rows.cycle, prepend=rows.cycle[0] - 1) != 0) | (
        np.diff(rows.block, prepend=rows.block[0] - 1) != 0
    )
    first = np.flatnonzero(fresh)
    number = np.searchsorted(first, np.arange(len(rows)), side="right") - 1
    length = (np.append(first[1:], len(rows)) - first)[number]
    phase = (np.arange(len(rows)) - first[number]) / length
    many = np.where(length > 600, length // 6, np.clip(length // 4, 8, PHASES))
    key = rows.block.astype(np.int64) * 1_000_000 + (phase * many).astype(np.int64)
    return np.unique(key, return_inverse=True)[1]
