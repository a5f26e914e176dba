"""Tables to sweeps: useful ones cut to parts, each part read as what it is, halves joined."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from dynoan.errors import ReadError
from dynoan.model.sweep import Source, Sweep
from importers.assumptions.sweeps import MOST_PARTS, TRACE_ROWS
from importers.parts import SweepPart, cut_table, with_half_titles_apart
from importers.sweeps.idle import refuse_idle, refuse_idle_units, with_dates_judged
from importers.sweeps.left_aside import naming_left_aside
from importers.sweeps.making import MadeSweep, make_sweep
from importers.sweeps.pairing import DirectedSweep, halves_together, knobs_together, paired
from importers.tables import ParsedTable
from importers.words.spelling import plain, word_set

_FORCES = frozenset(("force", "compression", "rebound"))
_MOTIONS = frozenset(("velocity", "displacement"))

#: words of a title over a table that is no test of damping
_ASIDE = word_set(
    "friction, reibung, frottement, rozamiento, attrito, gas, static, statisch, calibration, kalibrierung, seal,"
    " stiction"
)
_LONGEST_TITLE = 4  #: [words]


class SourceFile(NamedTuple):
    """The file that sweeps are read from."""

    name: str
    sha256: str  #: of its bytes
    importer: str


def assemble_sweeps(tables: Sequence[ParsedTable], file: SourceFile) -> tuple[Sweep, ...]:
    """Return the sweeps in the tables of a file.

    Raises
    ------
    ReadError
        If a table cannot be understood, naming the file, the place and the option that helps.
    """
    parts = [part for table in with_half_titles_apart(_useful(tables)) for part in cut_table(table, file.name)]
    if not parts:
        raise ReadError("no rows of numbers below the header", where=file.name, hint="export the run again")
    if len(parts) == 1:
        parts = [replace(parts[0], alone=True)]
    if len(parts) > MOST_PARTS:
        raise ReadError(
            f"more than {MOST_PARTS} runs in one file",
            where=file.name,
            hint="is a column of measurements read as a run or click column?",
        )
    refuse_idle_units(parts, file.name)
    parts = with_dates_judged(parts, file.name)
    made = _agreeing(parts, [_source(part, i, len(parts), file) for i, part in enumerate(parts)])
    refuse_idle(parts[0].table.user, made, file.name)
    made = naming_left_aside(parts, made)
    directed = [DirectedSweep(one.sweep, _direction(part), part.beside) for one, part in zip(made, parts, strict=True)]
    return tuple(paired(halves_together(knobs_together(directed))))


def _direction(part: SweepPart) -> str | None:
    """Return the one direction that a part is of, by the line above it or its only column of forces."""
    return part.direction or (next(iter(part.roles.forces)) if len(part.roles.forces) == 1 else None)


def _agreeing(parts: Sequence[SweepPart], sources: Sequence[Source]) -> list[MadeSweep]:
    """Return the sweeps of a file's parts, of which none counts force another way than the others."""
    made = [make_sweep(part, source) for part, source in zip(parts, sources, strict=True)]
    open_leads = [one.lead for one in made if one.lead is not None and one.lead.by != "stated"]
    signs = {lead.sign for lead in open_leads if lead.by == "gas"}
    if not signs or (len({lead.sign for lead in open_leads}) < 2 and all(lead.by == "gas" for lead in open_leads)):
        return made
    agreed = signs.pop() if len(signs) == 1 else 0
    return [
        one if one.lead is None or one.lead.by == "stated" else make_sweep(replace(part, agreed=agreed), source)
        for one, part, source in zip(made, parts, sources, strict=True)
    ]


def _source(part: SweepPart, number: int, parts: int, file: SourceFile) -> Source:
    label = part.label or (f"table {number + 1}" if parts > 1 else "")
    layout = part.table.layout
    return Source(file.name, file.sha256, file.importer if layout == "text" else layout, label)


def _useful(tables: Sequence[ParsedTable]) -> list[ParsedTable]:
    """Leave out tables beside others that hold no force against motion, such as a summary, with a warning."""
    fit = [table for table in tables if _is_run(table) and not _is_aside(table)]
    left = [table for table in tables if not any(table is one for one in fit)]
    if not fit:
        fit, left = list(tables[:1]), list(tables[1:])
    said = tuple(f"the table from line {t.first_line} on holds no force against motion and was left out" for t in left)
    return [replace(fit[0], warnings=(*fit[0].warnings, *said)), *fit[1:]] if said else fit


def _is_aside(table: ParsedTable) -> bool:
    """Whether the title over a table says that it is another test than of damping: of friction, of gas, of a cell."""
    title = next(reversed(table.own or table.shared), "")
    words = set(plain(title).split())
    return bool(words & _ASIDE) and 1 <= len(words) <= _LONGEST_TITLE and not any(c in title for c in ":=;,\t")


def _is_run(table: ParsedTable) -> bool:
    """Whether a table holds force against motion; a few rows of force over travel are a test at rest, of gas.

    Of columns without names only the user's word can tell.
    """
    if not table.named and table.options.columns:
        return True
    held = {c.channel or c.direction for c in table.columns} | {"force" for c in table.columns if c.clicks}
    at_rest = table.rows < TRACE_ROWS and "velocity" not in held
    return bool(held & _FORCES and held & _MOTIONS) and not at_rest
