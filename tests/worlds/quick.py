"""Which rows of the table are drawn in every run; all the others are drawn in the thorough one."""

from __future__ import annotations

import pytest

from tests.worlds.rows import ROWS

#: one row of each kind of rig, force, motion, form and valve
QUICK = frozenset({
    "clean", "noise strong", "spikes strong", "low-pass 2 strong", "delay strong", "drift", "compliance strong",
    "backlash strong", "fade recorded", "gas half out", "friction strong", "LuGre strong", "chirp", "ramps",
    "triangles", "one speed", "coarse", "peaks", "peaks extreme", "valve hump", "valve late seat", "any",
})  # fmt: skip


def rows(quick: frozenset[str] = QUICK) -> list[object]:
    """Return the names of the rows, those that are not quick marked."""
    names = [row.name for row in ROWS]
    assert set(names) >= quick
    return [pytest.param(name, marks=[] if name in quick else pytest.mark.thorough) for name in names]
