"""Tables to sweeps: rows cut by run, setting, block and click column, each part read as what it is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

import numpy as np

from dynoan.errors import ReadError
from dynoan.model.arrays import FloatArray, IntArray
from dynoan.model.importing import ReadOptions
from dynoan.model.shock import ADJUSTERS
from dynoan.model.sweep import Source, Sweep
from importers.channels.sign import statements
from importers.header.column import Column
from importers.parts.roles import Roles, assign, cell_clicks
from importers.stated.facts import Facts, contradictions, from_lines, from_name
from importers.sweeps import peaks as peak_tables
from importers.sweeps import trace as traces
from importers.sweeps.trace import Part
from importers.tables.reading import Table
from importers.words.vocabulary import direction_of, plain

_MOST_PARTS = 2000
_LEAST_RUN = 8  #: rows; time that jumps more often restarts no runs
#: words beside a direction in a block's title
_ABOUT = frozenset(
    (
        "stroke",
        "damping",
        "side",
        "table",
        "force",
        "forces",
        "data",
        "phase",
        "curve",
        "peak",
        "peaks",
        "direction",
        "only",
        "run",
    )
)
_LONG_KEYS = ("shock", "pack", "run", "clicks", "group", *ADJUSTERS)


def sweeps(tables: Sequence[Table], name: str, options: ReadOptions, sha256: str, importer: str) -> tuple[Sweep, ...]:
    """Return the sweeps in the tables of a file.

    Raises
    ------
    ReadError
        If a table cannot be understood, naming the file, the place and the option that helps.
    """
    tables = _useful(tables)
    parts = [part for table in tables for part in _parts(table, name, options)]
    if not parts:
        raise ReadError(f"{name}: no rows of numbers below the header; export the run again")
    if len(parts) == 1:
        parts = [replace(parts[0], alone=True)]
    if len(parts) > _MOST_PARTS:
        raise ReadError(
            f"{name}: more than {_MOST_PARTS} runs in one file; is a column of measurements read as a run or click "
            f"column?"
        )
    made = []
    for i, part in enumerate(parts):
        label = part.label or (f"table {i + 1}" if len(parts) > 1 else "")
        source = Source(name, sha256, importer if part.table.layout == "text" else part.table.layout, label)
        made.append(peak_tables.read(part, source) if peak_tables.is_peaks(part) else traces.read(part, source))
    return tuple(_paired(made, parts))


def _useful(tables: Sequence[Table]) -> list[Table]:
    """Leave out further tables that hold no force against motion, such as a summary, with a warning."""
    kept: list[Table] = list(tables[:1])
    for table in tables[1:]:
        held = {c.channel or c.direction for c in table.columns} | {"force" for c in table.columns if c.clicks}
        if held & {"force", "compression", "rebound"} and held & {"velocity", "displacement"}:
            kept.append(table)
            continue
        left = f"the table from line {table.first_line} on holds no force against motion and was left out"
        kept[-1] = replace(kept[-1], warnings=(*kept[-1].warnings, left))
    return kept


def _paired(made: list[Sweep], parts: list[Part]) -> list[Sweep]:
    """Join a compression block and a rebound block of one setting into one sweep."""
    out: list[tuple[Sweep, Part]] = []
    for sweep, part in zip(made, parts, strict=True):
        if out and _other_half(out[-1], sweep, part):
            first, half = out.pop()
            channels = {c: np.concatenate([first.channels[c], sweep.channels[c]]) for c in first.channels}
            warnings = tuple(dict.fromkeys((*first.warnings, *sweep.warnings)))
            out.append((replace(first, channels=channels, warnings=warnings), replace(half, direction=None)))
        else:
            out.append((sweep, part))
    return [sweep for sweep, _ in out]


def _other_half(last: tuple[Sweep, Part], sweep: Sweep, part: Part) -> bool:
    first, half = last
    same = all(getattr(first, k) == getattr(sweep, k) for k in ("layout", "shock", "pack", "clicks"))
    return same and sweep.layout == "peaks" and {half.direction, part.direction} == {"compression", "rebound"}


def _direction(lines: Sequence[str]) -> str | None:
    """Return the direction that the last line above a block names, where it says nothing else."""
    if not lines:
        return None
    words = plain(lines[-1]).split()
    found = direction_of(" ".join(words))
    rest = [w for w in words if direction_of(w) is None and w not in _ABOUT]
    return found if found and not rest else None


def _parts(table: Table, name: str, options: ReadOptions) -> Iterator[Part]:
    if not table.named and not table.options.columns:
        width = table.grid.width
        raise ReadError(f"{name}, line {table.first_line}: {width} columns of numbers and no line that names them; "
                        "say which is which by number, as in --column force=3 --unit force=N")  # fmt: skip
    table = _renamed(table, name)
    roles = assign(table, name)
    facts, said = _facts(table, name, options)
    above = _direction(table.own or table.shared)
    whole = Part(table, roles, facts, table.values, table.texts, name, said=said, direction=above)
    for part in _by_keys(whole):
        for piece in _by_breaks(part):
            yield from _by_clicks(piece, options)


def _renamed(table: Table, name: str) -> Table:
    """Return the table with as many names as columns of numbers.

    Raises
    ------
    ReadError
        If the rows hold more cells than the line above names, and nothing tells which name belongs where.
    """
    if not table.names or table.grid.width <= table.names:
        return table
    filled = [i for i, x in table.values.items() if np.isfinite(x).any()]
    more = max(filled, default=0) + 1 - table.names
    if not table.names or more <= 0 or table.options.columns:
        return table
    first = table.values.get(0)
    if more == 1 and first is not None and len(first) > 1 and bool(np.all(np.diff(first) == 1)):
        names = [table.columns[k] for k in range(table.names)]
        columns = (Column(0, ""), *(replace(c, index=c.index + 1) for c in names))
        return replace(table, columns=columns)
    hint = "save it with semicolons between cells" if table.grid.delimiter == "," else "mend the header"
    if table.grid.delimiter == "," and more >= table.names - 1:
        hint = f"if commas stand both between cells and in numbers, {hint}"
    raise ReadError(f"{name}, line {table.first_line}: {table.names + more} cells under {table.names} names; {hint},"
                    " or say which is which by number, as in --column force=3")  # fmt: skip


def _facts(table: Table, name: str, options: ReadOptions) -> tuple[Facts, dict[str, str]]:
    """Return what is stated of a table: the user first, then its own lines, the file's lines, the file's name."""
    own, shared = from_lines(table.own, table.grid.decimal), from_lines(table.shared, table.grid.decimal)
    stated = own.over(shared)
    named = from_name(name)
    warnings = contradictions(stated, named)
    facts = replace(stated.over(named), warnings=(*stated.warnings, *warnings))
    return _told(facts, options), statements((*table.own, *table.shared))


def _told(facts: Facts, options: ReadOptions) -> Facts:
    """Return facts under what the user says, with a warning for each contradiction."""
    warnings = []
    for what, told, read in (("shock", options.shock, facts.shock), ("pack", options.pack, facts.pack)):
        if told and read and told != read:
            warnings.append(f"the file says {what} {read}, you say {told}: you were believed")
    for adjuster, click in options.clicks.items():
        if facts.clicks.get(adjuster, click) != click:
            warnings.append(
                f"the file says {adjuster}={facts.clicks[adjuster]}, you say {adjuster}={click}: you were believed"
            )
    return replace(
        facts, shock=options.shock or facts.shock, pack=options.pack or facts.pack,
        clicks={**facts.clicks, **options.clicks}, warnings=(*facts.warnings, *warnings),
    )  # fmt: skip


def _by_keys(part: Part) -> Iterator[Part]:
    """Cut a long table where its shock, pack, run or click columns change."""
    keys = {
        role: column
        for role, column in part.roles.keys.items()
        if role in _LONG_KEYS and not _counts(part, column.index)
    }
    if not keys:
        yield part
        return
    codes = {role: _codes(part, column.index) for role, column in keys.items()}
    joint = _joint([c for c, _ in codes.values()])
    for group in range(int(joint.max()) + 1 if len(joint) else 0):
        rows = np.flatnonzero(joint == group)
        values = {role: names[int(code[rows[0]])] for role, (code, names) in codes.items()}
        if all(v == "" for v in values.values()):
            continue
        yield _taken(part, rows, _with_keys(part, values), ", ".join(f"{k} {v}" for k, v in values.items() if v))


def _counts(part: Part, index: int) -> bool:
    """Whether a column is another number in nearly every row: it counts rows and names no run."""
    x = part.values.get(index)
    return x is not None and len(x) > 3 and len(np.unique(x[np.isfinite(x)])) > 0.5 * len(x)


def _codes(part: Part, index: int) -> tuple[IntArray, list[str]]:
    """Return a key column as numbers of its values in order, and the values as text."""
    if index in part.texts:
        names = list(dict.fromkeys(part.texts[index]))
        number = {name: i for i, name in enumerate(names)}
        return np.array([number[t] for t in part.texts[index]], np.int64), names
    x = part.values[index]
    unique, inverse = np.unique(np.where(np.isfinite(x), x, -1e300), return_inverse=True)
    return inverse.astype(np.int64), ["" if v == -1e300 else f"{v:g}" for v in unique]


def _joint(codes: list[IntArray]) -> IntArray:
    """Return one number per distinct combination, in the order in which they first appear."""
    _, first, inverse = np.unique(np.stack(codes, axis=1), axis=0, return_index=True, return_inverse=True)
    rank = np.empty(len(first), np.int64)
    rank[np.argsort(first)] = np.arange(len(first))
    return rank[inverse.reshape(-1)]


def _with_keys(part: Part, values: Mapping[str, str]) -> Facts:
    clicks = {k: int(float(v)) for k, v in values.items() if k in ADJUSTERS and _whole(v)}
    odd = [f"{k} {v}" for k, v in values.items() if k in ADJUSTERS and v and not _whole(v)]
    if odd:
        raise ReadError(
            f"{part.name}: {', '.join(odd)} is no whole number of clicks; name the column of something else with "
            f"--column"
        )
    told = part.table.options
    if "clicks" in values:
        clicks = {**cell_clicks(part.roles.keys["clicks"].text, values["clicks"]), **clicks}
    facts = replace(part.facts, clicks={**part.facts.clicks, **clicks, **told.clicks})
    return replace(
        facts,
        shock=told.shock or values.get("shock") or facts.shock,
        pack=told.pack or values.get("pack") or facts.pack,
    )


def _whole(text: str) -> bool:
    try:
        return float(text) == int(float(text)) and 0 <= float(text) < 100
    except ValueError:
        return False


def _taken(part: Part, rows: IntArray | slice, facts: Facts, label: str) -> Part:
    values = {i: v[rows] for i, v in part.values.items()}
    pick = range(part.rows)[rows] if isinstance(rows, slice) else rows
    texts = {i: [t[int(k)] for k in pick] for i, t in part.texts.items()}
    joined = ", ".join(filter(None, (part.label, label)))
    return replace(part, values=values, texts=texts, facts=facts, label=joined)


def _by_breaks(part: Part) -> Iterator[Part]:
    """Cut stacked runs: where time or a table's velocity starts again at a line between the rows, or by itself."""
    whole = part.rows == part.table.rows
    places = [b for b in part.table.breaks if 0 < b.row < part.rows] if whole else []
    key = _clock(part)
    cuts = [b.row for b in places if key is None or _restarts(key, b.row)]
    if key is not None and "time" in part.roles.channels and not part.texts:
        cuts = sorted({*cuts, *_resets(key)})
    part = _noted(part, [line for b in places if b.row not in cuts for line in b.lines])
    if not cuts:
        yield part
        return
    notes = {b.row: b.lines for b in places}
    facts = part.facts
    for start, stop in zip([0, *cuts], [*cuts, part.rows], strict=True):
        lines = notes.get(start, ())
        facts = _told(from_lines(lines, part.table.grid.decimal).over(facts), part.table.options) if lines else facts
        label = lines[0].strip() if lines else f"rows {start + 1} to {stop}"
        piece = _taken(part, slice(start, stop), facts, label)
        yield replace(piece, direction=_direction(lines) or piece.direction)


def _noted(part: Part, notes: list[str]) -> Part:
    """Return a part with a warning of the lines between its rows that start no run."""
    if not notes:
        return part
    many = (
        "1 line between the rows was taken as a note"
        if len(notes) == 1
        else f"{len(notes)} lines between the rows were taken as notes"
    )
    warning = f"{many}: '{notes[0].strip()[:40]}'"
    return replace(part, facts=replace(part.facts, warnings=(*part.facts.warnings, warning)))


def _clock(part: Part) -> FloatArray | None:
    """Return the column that runs on within a run: time, or the speed of a table."""
    column = part.roles.channels.get("time")
    if column is None and "displacement" not in part.roles.channels:
        column = part.roles.channels.get("velocity")
        if column is None or part.rows > peak_tables.MOST_ROWS:
            return None
        return np.abs(part.values[column.index])
    return part.values.get(column.index) if column is not None else None


def _restarts(key: FloatArray, row: int) -> bool:
    return bool(key[row] <= key[row - 1])


def _resets(time: FloatArray) -> list[int]:
    """Return where time goes back to about its first value: runs put one after the other."""
    if not (time[1:] < time[:-1]).any():
        return []
    step = np.diff(time)
    span = float(np.nanmax(time) - np.nanmin(time))
    near = np.abs(time[1:] - time[0]) <= 0.01 * span
    back = np.flatnonzero((step < -0.05 * span) & near) + 1
    whole = len(back) == 0 or int(np.diff([0, *back, len(time)]).min()) >= _LEAST_RUN
    return [int(i) for i in back] if whole else []


def _by_clicks(part: Part, options: ReadOptions) -> Iterator[Part]:
    """Cut a wide table: one part for each click position among the column names."""
    if not part.roles.wide:
        yield part
        return
    groups: dict[tuple[tuple[str, int], ...], list[int]] = {}
    for at, column in enumerate(part.roles.wide):
        groups.setdefault(tuple(sorted(column.clicks.items())), []).append(at)
    for clicks, members in groups.items():
        columns = [part.roles.wide[i] for i in members]
        forces = {c.direction: c for c in columns if c.direction}
        plain_ones = [c for c in columns if not c.direction]
        if len(plain_ones) > 1 or len(forces) + len(plain_ones) < len(columns):
            raise ReadError(
                f"{part.name}: several columns say {columns[0].text!r} and not which direction; name them "
                f"compression and rebound"
            )
        single = plain_ones[0] if plain_ones else None
        channels = dict(part.roles.channels)
        if single is not None and not forces:
            channels["force"] = single
        else:
            channels.pop("force", None)
        roles = Roles(channels, forces, part.roles.speeds, (), part.roles.keys)
        facts = _told(replace(part.facts, clicks={**part.facts.clicks, **dict(clicks)}), options)
        label = ", ".join(f"{k} {v}" for k, v in clicks)
        yield replace(part, roles=roles, facts=facts, label=", ".join(filter(None, (part.label, label))))


__all__ = ["sweeps"]
