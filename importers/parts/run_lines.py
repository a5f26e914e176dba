"""What lines above a table say of its runs one by one: "Run 1: LSC 4", or a table of runs with a setting a row."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from importers.header import uncomment
from importers.tables import ParsedTable
from importers.words.adjusters import adjuster_of
from importers.words.channels import TABLE_WORDS
from importers.words.spelling import plain

_CALLED = re.compile(
    r"\W*(?P<word>[^\W\d]+)\W{0,2}\s*(?P<name>\d{1,3}|[A-Za-z])\s*(?:[:=]|\s[-–]\s)\s*(?P<said>.*\S)\s*"
)
_CELLS = re.compile(r"[;\t|,]|\s{2,}")


def with_run_lines_apart(table: ParsedTable) -> tuple[ParsedTable, Mapping[str, str]]:
    """Return a table with a column of runs without the lines that are of one run each, and what they say, by run."""
    column = next((c for c in table.columns if c.role == "run"), None)
    lines = (*table.own, *table.shared)
    if column is None or not (any(map(_CALLED.fullmatch, map(uncomment, lines))) or _heads(lines)):
        return table, {}
    there = {*table.texts.get(column.index, ())} | {f"{x:g}" for x in np.unique(table.values.get(column.index, ()))}
    found = _called(lines, there) or _of_rows(lines, there)
    if len({*found.values()} & there) < min(2, len(there)):
        return table, {}
    said: dict[str, str] = {}
    for line, run in found.items():
        said[run] = f"{said.get(run, '')}; {_of_run(line, lines)}".strip("; ")
    own, shared = (tuple(line for line in some if line not in found) for some in (table.own, table.shared))
    return replace(table, own=own, shared=shared), said


def _called(lines: tuple[str, ...], there: set[str]) -> dict[str, str]:
    """Return the run of each line that calls it: "Run 1: LSC 4"."""
    found = {line: m for line in lines if (m := _CALLED.fullmatch(uncomment(line))) is not None}
    return {
        line: m["name"] for line, m in found.items() if plain(m["word"]) in TABLE_WORDS["run"] and m["name"] in there
    }


def _of_rows(lines: tuple[str, ...], there: set[str]) -> dict[str, str]:
    """Return the run of each row of a table of runs: "1;4;6" under "Run;Clicks C;Clicks R"."""
    heads = _heads(lines)
    if not heads:
        return {}
    rows = {line: _cells(line) for line in lines}
    return {line: cells[0] for line, cells in rows.items() if len(cells) == len(heads) and cells[0] in there}


def _heads(lines: tuple[str, ...]) -> list[str]:
    """Return the cells of a line that names runs and adjusters alone; empty where there is none."""
    for line in lines:
        cells = _cells(line)
        if len(cells) > 1 and plain(cells[0]) in TABLE_WORDS["run"] and all(adjuster_of(plain(c)) for c in cells[1:]):
            return cells
    return []


def _of_run(line: str, lines: tuple[str, ...]) -> str:
    """Return what a line says of its run."""
    called = _CALLED.fullmatch(uncomment(line))
    if called is not None and plain(called["word"]) in TABLE_WORDS["run"]:
        return called["said"]
    return " ".join(
        f"{adjuster_of(plain(head))}={cell}" for head, cell in zip(_heads(lines)[1:], _cells(line)[1:], strict=True)
    )


def _cells(line: str) -> list[str]:
    return [cell.strip() for cell in _CELLS.split(line.strip())]
