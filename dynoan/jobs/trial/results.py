"""From a table of results to the runs of a trial: which column holds them, and which says the setting."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from dynoan.errors import CallError, ReadError
from dynoan.jobs.trial.results_table import ResultColumn, result_columns
from dynoan.model.results import result_kind
from dynoan.model.trial import Trial
from dynoan.units import brief

#: names of columns that count, date or rank runs and are no result
_COUNTS = re.compile(
    r"^(run|no|nr|number|attempt|index|#|date|day|clock|when|rank|rang|place|platz|pos|position|bib|start ?no)\b"
    r"(?! ?time)|^lap$|^lap ?(no|number)\b", re.IGNORECASE
)  # fmt: skip
_RESULT = re.compile(r"\b(result|results|ergebnis|time|zeit|temps|tiempo|elapsed|e\.?t\.?)\b", re.IGNORECASE)
_SETTING = re.compile(r"[\"']?\s*([ab])\s*[\"']?$", re.IGNORECASE)
#: a column that says what was on the car, and of how many settings
_SAYS_SETTING, _SIDES = re.compile(r"(setting|set-?up|variant|config|spec)s?$", re.IGNORECASE), 2
#: share of a column's cells that must be results for it to hold them; judged: somebody did not finish
_MOSTLY = 0.5
#: what stands for a result of a run that was not finished, not started or not counted
_UNFINISHED = re.compile(
    r"(dnf|dns|dsq|dq|dnq|ret|nt|no time|did not (finish|start)|retired|disqualified)\.?", re.IGNORECASE
)
_SHOWN = 12  #: columns that a refusal names


@dataclass(frozen=True)
class TimedRun:
    """A result as it stands, and its setting where that is told."""

    setting: str | None
    text: str


def timed_runs(path: Path, trial: Trial, column: str | None = None) -> tuple[list[TimedRun], str]:
    """Return the runs in a table of results, and how it was understood.

    Parameters
    ----------
    path
        A text file with a table.
    trial
        Whose runs they are.
    column
        That holds the results; None: the one whose name, unit or cells are those of the trial's measure.

    Raises
    ------
    CallError
        If the column cannot be told.
    ReadError
        If the file holds no such table, or a result is missing.
    LibraryError
        If it is missing, no plain file, or too large.
    """
    columns = result_columns(path)
    told = next((c for c in columns if all(_side(cell, trial) for cell in c.cells)), None)
    if told is None:
        _ask_whose(path, columns)
    rest = [c for c in columns if c is not told]
    held = _named(path, rest, column) if column else _result_column(path, rest, trial)
    settings = [None] * len(held.cells) if told is None else [_side(cell, trial) for cell in told.cells]
    left = _without_result(held, trial, path, told is not None)
    runs = [
        TimedRun(s, held.text(cell))
        for n, (s, cell) in enumerate(zip(settings, held.cells, strict=True))
        if n not in left
    ]
    which = "settings as the file has them" if told else f"settings in the order of the plan, {trial.plan}"
    name = f"the column '{held.name}'" if held.name else "its only column of results"
    out = ", ".join(f"row {n + 1} of it is no result ('{brief(held.cells[n])}') and is left out" for n in left)
    return runs, f"{len(runs)} results from {name}, {which}{f'; {out}' if out else ''}"


def _side(cell: str, trial: Trial) -> str | None:
    """Return the setting that a cell names: a, b, or the words of the trial for one; None where it is neither."""
    found = _SETTING.match(cell)
    words = {trial.a.casefold(): "a", trial.b.casefold(): "b"}
    return found[1].lower() if found else words.get(cell.strip(" \"'").casefold())


def _ask_whose(path: Path, columns: Sequence[ResultColumn]) -> None:
    """Raise where a column says the settings in words that are not the trial's: the plan's order may be another."""
    for column in columns:
        kinds = list(dict.fromkeys(column.cells))
        if _SAYS_SETTING.match(column.name) and len(kinds) == _SIDES:
            said = " and ".join(f"'{brief(kind)}'" for kind in kinds)
            raise CallError(
                f"column '{column.name}' says {said}", where=path.name, part="column",
                hint="write a and b there, as the trial calls them",
            )  # fmt: skip


def _without_result(held: ResultColumn, trial: Trial, path: Path, told: bool) -> tuple[int, ...]:
    """Return the rows of runs that were not finished; raise where a result is missing for no such reason.

    Where the plan alone says the settings, a row that is left out would give all that follow the wrong one.
    """
    missing = [n for n, value in enumerate(held.read_as(trial.unit)) if value is None]
    odd = [n for n in missing if not (told and _UNFINISHED.fullmatch(held.cells[n].strip()))]
    if odd:
        cell = held.cells[odd[0]]
        unfinished = _UNFINISHED.fullmatch(cell.strip())
        raise ReadError(
            f"a result is missing in row {odd[0] + 1} of column '{held.name}' ('{brief(cell)}')",
            where=path.name,
            hint="add a column with a or b for each run, so that it can be left out without shifting the settings"
            if unfinished
            else "take the row out, or write a result and strike it out later",
        )
    return tuple(missing)


def _named(path: Path, columns: Sequence[ResultColumn], name: str) -> ResultColumn:
    for column in columns:
        spelled = (column.name, f"{column.name} [{column.unit}]", f"{column.name} ({column.unit})")
        if name.strip().casefold() in map(str.casefold, spelled):
            return column
    raise CallError(f"no column '{name}'", where=path.name, hint=f"it has {_names(columns)}", part="column")


def _result_column(path: Path, columns: Sequence[ResultColumn], trial: Trial) -> ResultColumn:
    kind = result_kind(trial.unit)
    maybe = [c for c in columns if not _COUNTS.match(c.name) and not _counts(c) and _mostly(c, trial)]
    named = [c for c in maybe if trial.measure and c.name.casefold() == trial.measure.casefold()]
    kin = [c for c in maybe if c.unit and result_kind(c.unit) == kind]
    clocks = [c for c in maybe if kind == "time" and any(":" in cell for cell in c.cells)]
    called = [c for c in maybe if _RESULT.search(c.name)]
    found = named or kin or clocks or called or maybe
    if len(found) != 1:
        have = f"It has {_names(columns)}" if found else f"No column of {_names(columns)} holds such numbers"
        raise CallError(f"which column holds the results? {have}", where=path.name, need="column")
    return found[0]


def _counts(column: ResultColumn) -> bool:
    """Return whether a column without a name counts its rows: 1, 2, 3."""
    return not column.name and len(column.cells) > 1 and all(c == str(n) for n, c in enumerate(column.cells, 1))


def _mostly(column: ResultColumn, trial: Trial) -> bool:
    values = column.read_as(trial.unit)
    return sum(v is not None for v in values) > _MOSTLY * len(values)


def _names(columns: Sequence[ResultColumn]) -> str:
    shown = [brief(c.name) if c.name else "a column without a name" for c in columns[:_SHOWN]]
    return ", ".join(shown) + (f" and {len(columns) - _SHOWN} more" if len(columns) > _SHOWN else "")
