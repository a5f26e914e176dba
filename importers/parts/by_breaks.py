"""Stacked runs cut apart: where time or a table's velocity starts again at a line between the rows, or by itself."""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set
from dataclasses import replace

import numpy as np

from dynoan.errors import ReadError
from dynoan.model.arrays import FloatArray
from importers.assumptions.parts import RESTART_FALL, RESTART_NEAR, RESTART_STEPS, SHORTEST_RUN
from importers.assumptions.sweeps import MOST_PEAK_ROWS
from importers.parts.cycle_clock import with_cycles_on_one_clock
from importers.parts.part import SweepPart
from importers.parts.told import told, without_questions
from importers.patterns import regex
from importers.stated import StatedFacts, facts_of_lines, stated_motions
from importers.tables import RowBreak, said_before
from importers.words.directions import direction_of
from importers.words.spelling import plain, word_set
from importers.words.unit_text import clean_unit, is_unit, kinds_of

#: words beside a direction in a block's title
_ABOUT = frozenset((
    "stroke", "damping", "side", "table", "force", "forces", "data", "phase", "curve", "peak", "peaks", "direction",
    "only", "run", "by", "clicks", "click", "series", "at", "per", "adjuster", "knob", "setting", "settings",
))  # fmt: skip

#: by which a part of a line says that a file is of one direction, and what may stand there beside both
_ALONE = word_set("only, nur, seulement, uniquement, solo, solamente, soltanto, alleen, endast, bare, tylko, apenas")
_BESIDE = _ALONE | {"stroke", "strokes", "side", "force", "forces", "direction", "damping"}
_PARTS = regex(r"[,;:.()\[\]\t]|\s-\s")

#: names of phases of one test, alone in a line
_PHASES = word_set(
    "warm up, warm-up, warmup, test, tests, measurement, measuring, cool down, cool-down, cooldown, run in, run-in,"
    " conditioning, aufwarmen, warmlauf, einlaufen, messung, prufung, echauffement, rodage, essai, mesure,"
    " calentamiento, ensayo, riscaldamento, prova, hot, cold, main test, verification"
)

_SHORT_LINE = 8  #: words at most of a line that speaks of the rows below it
#: a unit behind a title: "Compression (N)"
_UNIT = regex(r"[\[(][^\])]{1,8}[\])]")


def cut_by_breaks(part: SweepPart) -> Iterator[SweepPart]:
    """Yield the runs that are stacked in a part; lines between rows that start none are notes."""
    whole = part.rows == part.table.rows
    places = [b for b in part.table.breaks if 0 < b.row < part.rows] if whole else []
    key = _running(part)
    cuts = [b.row for b in places if key is None or _restarts(key, b.row)]
    cuts += _phases(part, [b for b in places if b.row not in cuts])
    if key is not None and "time" in part.roles.channels and not part.texts:
        resets = [] if part.table.extents.of(key).rises else _resets(key)
        one = None if cuts else with_cycles_on_one_clock(part, resets)
        part = one or part
        cuts += [] if one else resets
    cuts = sorted({*cuts})
    heads = (*part.table.shared, *part.table.own)
    between = [line for b in places if b.row not in cuts for line in b.lines]
    _refuse_other_units(part, between)
    part = _noted(part, [line for line in between if not said_before(line, heads)])
    if not cuts:
        yield part
        return
    notes, decimal = {b.row: b.lines for b in places}, part.table.grid.decimal
    facts = part.facts
    title = facts_of_lines(heads[-1:], decimal) if facts.warnings or facts.doubted else StatedFacts()
    for start, stop in zip([0, *cuts], [*cuts, part.rows], strict=True):
        lines = notes.get(start, ())
        if lines:
            own = facts_of_lines(lines, decimal)
            facts = told(_over(own, without_questions(facts, title, own), decimal), part.table.options)
            title = own
        label = lines[0].strip() if lines else f"rows {start + 1} to {stop}"
        piece = part.picked(slice(start, stop), label, facts)
        yield replace(piece, direction=direction_above(lines) or (None if _is_title(lines) else piece.direction))


def _over(own: StatedFacts, earlier: StatedFacts, decimal: str) -> StatedFacts:
    """Return a block's facts over earlier ones, whose motion is not this one's where it states its own."""
    if not any(stated_motions(own.lines, decimal)):
        return own.over(earlier)
    still = {key: line for key, line in earlier.lines.items() if not any(stated_motions({key: line}, decimal))}
    return own.over(replace(earlier, lines=still))


def _phases(part: SweepPart, breaks: Sequence[RowBreak]) -> list[int]:
    """Return where a phase of the test starts under its name, the first one's above the table: "WARM-UP", "TEST"."""
    first = [line for line in (*part.table.own, *part.table.shared) if plain(line) in _PHASES]
    return [b.row for b in breaks if b.lines and plain(b.lines[-1]) in _PHASES] if first else []


def direction_above(lines: Sequence[str]) -> str | None:
    """Return the direction that a block is of: the last line above names it and nothing else, or some line says "only".

    >>> direction_above(["Shock FR-77, REBOUND ONLY"]), direction_above(["Turned: rebound adjuster only", "Date 3.5."])
    ('rebound', None)
    """
    if not lines:
        return None
    return _way_alone(lines[-1], _ABOUT) or next(
        (way for line in lines for part in _PARTS.split(line)
         if _ALONE & set(plain(part).split()) and (way := _way_alone(part, _BESIDE))),
        None,
    )  # fmt: skip


def _way_alone(text: str, about: Set[str]) -> str | None:
    """Return the direction that a text names, where its other words are only `about` it."""
    words = plain(_UNIT.sub(" ", text)).split()
    found = direction_of(" ".join(words))
    return found if found and not [w for w in words if direction_of(w) is None and w not in about] else None


def _is_title(lines: Sequence[str]) -> bool:
    """Whether the last line above a block is a word or two: if no known direction, not the last block's either."""
    return bool(lines) and not any(c.isdigit() or c in ":=;,\t" for c in lines[-1]) and 0 < len(lines[-1].split()) <= 2


def _refuse_other_units(part: SweepPart, lines: Sequence[str]) -> None:
    """Refuse a table between whose rows a short line names another unit than a column has: "from here on kgf".

    Raises
    ------
    ReadError
        With the line.
    """
    taken = [*part.roles.forces.values(), *part.roles.speeds.values(), *part.roles.channels.values()]
    own = {kind: {clean_unit(c.unit) for c in taken if kind in kinds_of(c.unit)} for kind in ("force", "velocity")}
    for line in lines:
        words = line.replace(",", " ").replace(";", " ").split()
        if len(words) > _SHORT_LINE or any(c.isdigit() for c in line):
            continue
        for kind, units in own.items():
            other = [w for w in words if len(w) > 1 and is_unit(w, kind) and clean_unit(w) not in units]
            if units and other:
                raise ReadError(
                    f"'{line.strip()[:40]}' between the rows names another unit of {kind} than the columns have",
                    where=part.name,
                    hint="write all rows in one unit, or split the file there",
                )


def _noted(part: SweepPart, notes: list[str]) -> SweepPart:
    """Return a part with a warning of the lines between its rows that start no run."""
    if not notes:
        return part
    one = "1 line between the rows was taken as a note"
    many = one if len(notes) == 1 else f"{len(notes)} lines between the rows were taken as notes"
    warning = f"{many}: '{notes[0].strip()[:40]}'"
    return replace(part, facts=replace(part.facts, warnings=(*part.facts.warnings, warning)))


def _running(part: SweepPart) -> FloatArray | None:
    """Return the column that runs on within a run: time, or the speed of a table."""
    channels = part.roles.channels
    if "time" in channels:
        return part.values.get(channels["time"].index)
    if "displacement" not in channels and "velocity" in channels and part.rows <= MOST_PEAK_ROWS:
        return np.abs(part.values[channels["velocity"].index])
    return None


def _restarts(key: FloatArray, row: int) -> bool:
    return bool(key[row] <= key[row - 1])


def _reach(time: FloatArray) -> float:
    """Return from the first to the last of times, those that are no number left out. [s]"""
    known = time[np.isfinite(time)]
    return float(np.ptp(known)) if len(known) else 0.0


def _resets(time: FloatArray) -> list[int]:
    """Return where time goes back to about its first value: runs put one after the other, short ones and long ones."""
    if not (time[1:] < time[:-1]).any():
        return []
    time = np.where(np.isfinite(time), time, np.nan)
    step, span = np.diff(time), _reach(time)
    back = np.flatnonzero((step < 0) & (np.abs(time[1:] - time[0]) <= RESTART_NEAR * span)) + 1
    found = [0]
    for at in map(int, back):
        before = time[found[-1] : at]
        ran = _reach(before)
        # One sample out of order near a run's start is no new run: a run is left from far along it, to its start.
        near = abs(time[at] - time[0]) <= RESTART_NEAR * ran + RESTART_STEPS * abs(float(np.nanmedian(step)))
        if not (near and time[at - 1] - time[at] > RESTART_FALL * ran) or len(before) <= RESTART_STEPS:
            continue
        if len(before) < SHORTEST_RUN:
            return []
        found.append(at)
    return found[1:] if len(time) - found[-1] >= SHORTEST_RUN else []
