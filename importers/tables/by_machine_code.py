"""Rows of plain numbers to columns by compiled code, in less than half of arrow's time, where it is worth making.

Rows that hold anything but plain numbers, empty cells and one mark between them are left to arrow, which decides what
they are; numbers are the same to the last bit (`rows_compiled`).
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Sequence
from functools import lru_cache
from pathlib import Path

import numpy as np

from dynoan.machine_code import KeptCode, Parameters, made_here
from dynoan.model.arrays import FloatArray

#: the parameters of `rows_compiled.columns_of_rows`
PARAMETERS: Parameters = (("b", 1), ("i", 0), ("i", 0), ("i", 0), ("b", 1), ("f", 2), ("i", 1), ("f", 1), ("i", 1))
_SOURCE = Path(__file__).with_name("rows_compiled.py")
_POWERS = 10 ** np.arange(9)
_TENS = np.array([float(f"1e{k}") for k in range(23)])
_NEWLINE = 10
_SPARE = 16  #: `rows_compiled.SPARE`
_LAST_LINES = 1 << 12  #: of which a copy is made [bytes]
#: from so much on the function is made [bytes]; judged: 24 MB gain by it what making it takes, 0.07 s, and who has read
#: half a dozen files mostly reads a season
_WORTH_MAKING = 1 << 22


def kept() -> KeptCode:
    """Return the kept translation."""
    seal = hashlib.sha256(_SOURCE.read_bytes() + repr(PARAMETERS).encode()).hexdigest()
    return KeptCode(_SOURCE.with_suffix(".ll"), seal, "columns_of_rows", PARAMETERS)


@lru_cache(maxsize=1)
def compiled() -> Callable[..., None] | None:
    """Return the compiled function; None where it is of no use here."""
    return made_here(kept())


class _Parsed:
    """How much this process has parsed."""

    size = 0  #: [bytes]


def at_hand(size: int) -> bool:
    """Whether the function is made, or with one more body of a size [bytes] so much is parsed that it is worth making.

    Who reads few files never waits for it.
    """
    if compiled.cache_info().currsize == 0:
        _Parsed.size += size
        if _Parsed.size < _WORTH_MAKING:
            return False
    return compiled() is not None


def plain_columns(data: bytes | memoryview, marks: tuple[str, str], wanted: Sequence[bool]) -> FloatArray | None:
    """Return the wanted columns of a body, shape (wanted, rows), not-a-number where a cell is empty.

    None where a row is none of plain numbers: another width, a word in a wanted cell, more digits than a double holds.

    Parameters
    ----------
    data
        The body, whole lines.
    marks
        The characters between cells and before fractions, a byte each.
    wanted
        Of each cell of a row, whether it is wanted.
    """
    function = compiled()
    # The last lines are read from a copy, since the function looks behind what it reads.
    end = bytes(data[-_LAST_LINES:])
    above = end[:-_SPARE].rfind(b"\n") + 1
    if function is None or (not above and len(end) < len(data)):
        return None
    last = end[above:] if end.endswith(b"\n") else end[above:] + b"\n"
    body = np.frombuffer(data, np.uint8)
    parts = (body, len(data) - len(end) + above), (np.frombuffer(last + bytes(_SPARE), np.uint8), len(last))
    # A row takes a byte a cell at least: blank lines without end ask for no room.
    most = min(int(np.count_nonzero(body == _NEWLINE)) + 1, len(body) // len(wanted) + 1)
    columns = np.empty((sum(wanted), most))
    rows = np.zeros(1, np.int64)
    for lines, stop in parts:
        function(lines, stop, *map(ord, marks), np.array(wanted, np.uint8), columns, _POWERS, _TENS, rows)
        if rows[0] < 0:
            return None
    return columns[:, : rows[0]]
