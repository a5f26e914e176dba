"""Pauses of a record at which another of its columns changes: the rig was set anew there, no sample was dropped."""

from __future__ import annotations

from functools import partial

import numpy as np

from dynoan.model.arrays import BoolArray
from importers.assumptions.channels import SET_CHANGES
from importers.parts import SweepPart


def set_between(part: SweepPart) -> partial[str]:
    """Return what names the column that changes at every gap of a record and hardly elsewhere, when it is asked."""
    return partial(_changed, part)


def _changed(part: SweepPart, gaps: BoolArray) -> str:
    """Return the name of such a column; empty where there is none.

    Parameters
    ----------
    part
        The record.
    gaps
        Which steps are gaps, shape (samples - 1,).
    """
    taken = {column.index for column in part.roles.channels.values()}
    many = int(gaps.sum())
    for column in part.table.columns:
        x = part.values.get(column.index)
        if column.index in taken or x is None or len(x) != len(gaps) + 1 or not column.text:
            continue
        changes = np.diff(x) != 0
        if bool(changes[gaps].all()) and int(changes.sum()) <= SET_CHANGES * many:
            return column.text
    return ""
