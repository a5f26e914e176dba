"""A small table set out by blanks in which cells are missing: each number to the column that it stands under."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from importers.assumptions.tables import TIDY_LINES
from importers.grid import is_any_number
from importers.patterns import regex

_APART = regex(r"[;\t|]|,\s|\d,\d+,")


def with_gaps_as_cells(lines: Sequence[str]) -> list[str] | None:
    """Return the lines with tabs between columns; None where rows are not ragged or their edges do not line up."""
    if len(lines) > TIDY_LINES:
        return None
    rows = {at: found for at, line in enumerate(lines) if len(found := _tokens(line)) >= 2 and _numbers(line)}
    width = max((len(found) for found in rows.values()), default=0)
    full = [found for found in rows.values() if len(found) == width]
    if width < 3 or len(full) == len(rows) or len(full) < 2 or any(_APART.search(lines[at]) for at in rows):
        return None
    counts = [len(found) for found in rows.values()]
    if any(a == b for a, b in pairwise(counts)):
        return None  # what reads fixed width finds its rows
    for edge in (1, 0):  # numbers stand under one another at their right ends, or at their left ones
        edges = [found[edge] for found in full[0]]
        aligned = all([t[edge] for t in found] == edges for found in full)
        if aligned and all(t[edge] in edges for found in rows.values() for t in found):
            return [_tabbed(line, rows.get(at), edges, edge) for at, line in enumerate(lines)]
    return None


def _tabbed(line: str, found: Sequence[tuple[int, int]] | None, edges: Sequence[int], edge: int) -> str:
    """Return a row with tabs between its columns; a line of as many words likewise, others as they are."""
    if found is None:
        words = re.split(r"\s{2,}", line.strip())
        words = words if len(words) == len(edges) else line.split()
        return "\t".join(words) if len(words) == len(edges) else line
    at = {t[edge]: line[t[0] : t[1]] for t in found}
    return "\t".join(at.get(e, "") for e in edges)


def _tokens(line: str) -> list[tuple[int, int]]:
    return [m.span() for m in re.finditer(r"\S+", line)]


def _numbers(line: str) -> bool:
    return all(map(is_any_number, line.split()))
