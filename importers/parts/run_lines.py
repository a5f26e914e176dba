"""What lines above a table say of its runs one by one: "Run 1: LSC 4", or a table of runs with a setting a row."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from dataclasses import replace

import numpy as np

from importers.header import uncomment
from importers.patterns import regex
from importers.tables import ParsedTable
from importers.words.adjusters import adjuster_of
from importers.words.channels import TABLE_WORDS
from importers.words.spelling import plain

_CALLED = regex(r"\W*(?P<word>[^\W\d]+)\W{0,2}\s*(?P<name>\d{1,3}|[A-Za-z])\s*(?:[:=]|\s[-–]\s)\s*(?P<said>.*\S)\s*")
_CLAUSE = regex(r"\s*[;|]\s*(?=[^\W\d])")
#: of a line and a clause of it: the run, and what is said of it
_Said = dict[tuple[str, int], tuple[str, str]]
_CELLS = regex(r"[;\t|,]|\s{2,}")


def with_run_lines_apart(table: ParsedTable) -> tuple[ParsedTable, Mapping[str, str]]:
    """Return a table with a column of runs without the lines that are of one run each, and what they say, by run."""
    column = next((c for c in table.columns if c.role == "run"), None)
    lines = (*table.own, *table.shared)
    if column is None or not (any(map(_CALLED.search, lines)) or _heads(lines)):
        return table, {}
    there = {*table.texts.get(column.index, ())} | {f"{x:g}" for x in np.unique(table.values.get(column.index, ()))}
    said = _called(lines, there) or _of_rows(lines, there)
    if len({run for run, _ in said.values()} & there) < min(2, len(there)):
        return table, {}
    by_run: dict[str, str] = {}
    for run, text in said.values():
        by_run[run] = f"{by_run.get(run, '')}; {text}".strip("; ")
    used = {line for line, _ in said}
    own, shared = (tuple(line for line in some if line not in used) for some in (table.own, table.shared))
    return replace(table, own=own, shared=shared), by_run


def _called(lines: Sequence[str], there: Set[str]) -> _Said:
    """Return what lines, or their clauses, say of the run that they call: "Run 1: LSC 4; Run 2: LSC 8"."""
    found: _Said = {}
    for line in lines:
        clauses = [m for clause in _CLAUSE.split(uncomment(line)) if (m := _CALLED.fullmatch(clause)) is not None]
        if clauses and all(plain(m["word"]) in TABLE_WORDS["run"] and m["name"] in there for m in clauses):
            found |= {(line, k): (m["name"], m["said"]) for k, m in enumerate(clauses)}
    return found


def _of_rows(lines: Sequence[str], there: Set[str]) -> _Said:
    """Return what each row of a table of runs says: "1;4;6" under "Run;Clicks C;Clicks R"."""
    heads = [adjuster_of(plain(head)) for head in _heads(lines)[1:]]
    rows = [(line, _cells(line)) for line in lines if heads]
    return {
        (line, 0): (cells[0], " ".join(f"{head}={cell}" for head, cell in zip(heads, cells[1:], strict=True)))
        for line, cells in rows
        if len(cells) == len(heads) + 1 and cells[0] in there
    }


def _heads(lines: Sequence[str]) -> list[str]:
    """Return the cells of a line that names runs and adjusters alone; empty where there is none."""
    for line in lines:
        cells = _cells(line)
        if len(cells) > 1 and plain(cells[0]) in TABLE_WORDS["run"] and all(adjuster_of(plain(c)) for c in cells[1:]):
            return cells
    return []


def _cells(line: str) -> list[str]:
    return [cell.strip() for cell in _CELLS.split(line.strip())]
