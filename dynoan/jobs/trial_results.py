"""From a table of results to the runs of a trial: which column holds them, and which says the setting."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from dynoan.errors import CallError, ReadError
from dynoan.model.results import result_kind
from dynoan.model.trial import Trial
from dynoan.reading import read_log

if TYPE_CHECKING:
    from dynoan.model.log import Log, LogColumn

#: names of columns that count or date runs and are no result
_COUNTS = re.compile(r"^(run|no|nr|number|lap|attempt|index|#|date|day|clock)\b|^$", re.IGNORECASE)
_SETTING = re.compile(r"[\"']?\s*([ab])\s*[\"']?$", re.IGNORECASE)


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
        That holds the results; None: the one whose name or unit is that of the trial's measure.

    Raises
    ------
    CallError
        If the column cannot be told.
    ReadError
        If the file holds no such table, or a result is missing.
    """
    log = read_log(path)
    held = log.named(column) if column else _result_column(log, trial)
    if not np.all(np.isfinite(held.values)):
        raise ReadError(f"{held.place}: a result is missing in row {int(np.argmin(np.isfinite(held.values))) + 1}")
    settings = _settings(path, len(held.values))
    unit = f" {held.unit}" if held.unit else ""
    runs = [TimedRun(s, f"{value:.10g}{unit}") for s, value in zip(settings, held.values, strict=True)]
    which = "settings as the file has them" if settings[0] else f"settings in the order of the plan, {trial.plan}"
    return runs, f"{len(runs)} results from the column '{held.name}', {which}"


def _result_column(log: Log, trial: Trial) -> LogColumn:
    maybe = [c for c in log.columns if not _COUNTS.match(c.name.strip())]
    named = [c for c in maybe if trial.measure and c.name.casefold() == trial.measure.casefold()]
    kind = result_kind(trial.unit)
    kin = [c for c in maybe if c.unit and result_kind(c.unit) == kind]
    found = named or kin or maybe
    if len(found) != 1:
        raise CallError(f"{log.file}: which column holds the results? It has {log.names}", need="column")
    return found[0]


def _settings(path: Path, rows: int) -> list[str | None]:
    """Return the setting of each row where one column says nothing but a and b, else nothing for each."""
    lines = path.read_text(encoding="utf-8-sig", errors="replace").splitlines()
    cells = [re.split(r"[;,\t]", line) for line in lines]
    for at in range(max((len(row) for row in cells), default=0)):
        hits = [m[1].lower() for row in cells if at < len(row) and (m := _SETTING.match(row[at].strip()))]
        if len(hits) == rows:
            return list(hits)
    return [None] * rows
