"""Notes that people type into the cells of a small table of numbers: "562 (noisy)", "815 ?", "bad run"."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from importers.assumptions.tables import TIDY_LINES
from importers.grid import is_any_number, is_missing, split_cells
from importers.patterns import regex
from importers.words.channels import SUMMARY
from importers.words.clicks import clicks_of
from importers.words.spelling import plain
from importers.words.unit_text import is_unit

_MARKS = (";", "\t", "|", ",")
#: a number, and behind it a bracket, a mark or words
_NOTED = regex(r"(?P<number>[-+−]?\d[\d.,']*|\(\d[\d.,']*\))\s*(?P<note>\([^()]*\)|[?!*†‡]+|\s[^\W\d_][^;\t|,]{1,40})")
_SHOWN = 3  #: that many notes are shown in a warning


class NotesTaken(NamedTuple):
    """A table without the notes in its cells."""

    lines: list[str]
    said: str  #: the warning that names them


def without_notes(lines: Sequence[str]) -> NotesTaken | None:
    """Return the lines of a small table without notes in cells of numbers; None where there are none.

    A column is one of numbers where more of its cells are numbers alone than are anything else; a cell there that is
    words alone holds no number, and is left empty.
    """
    for mark in _MARKS if len(lines) <= TIDY_LINES else ():
        rows = {at: cells for at, line in enumerate(lines) if len(cells := split_cells(line, mark)) > 1}
        rows = {at: cells for at, cells in rows.items() if _number_in(cells[0]) and sum(map(_number_in, cells)) > 1}
        width = max((len(cells) for cells in rows.values()), default=0)
        rows = {at: cells for at, cells in rows.items() if len(cells) == width}
        numeric = {k for k in range(width) if _of_numbers([cells[k] for cells in rows.values()])}
        noted = {(at, k): cells[k] for at, cells in rows.items() for k in numeric if not _is_value(cells[k])}
        if len(rows) > 2 and len(numeric) > 1 and noted:
            return _without(lines, rows, noted, mark)
        if (beside := _beside(lines, mark)) is not None:
            return beside
    return None


def _beside(lines: Sequence[str], mark: str) -> NotesTaken | None:
    """Return the lines without words to the right of a few rows, which are longer by them than most; None without."""
    rows = {at: cells for at, line in enumerate(lines) if sum(map(is_any_number, cells := split_cells(line, mark))) > 1}
    width, most = Counter(len(cells) for cells in rows.values()).most_common(1)[0] if rows else (0, 0)
    words = {at: [cell for cell in cells[width:] if cell] for at, cells in rows.items()}
    words = {at: found for at, found in words.items() if found and all(map(_is_value, rows[at][:width]))}
    said = [cell for found in words.values() for cell in found]
    if most < 3 or not said or len(words) >= most or any(c.isdigit() or c in ":=" for cell in said for c in cell):
        return None
    out = [mark.join(rows[at][:width]) if at in words else line for at, line in enumerate(lines)]
    return NotesTaken(out, notes_left_out(said))


def _without(
    lines: Sequence[str], rows: dict[int, list[str]], noted: dict[tuple[int, int], str], mark: str
) -> NotesTaken:
    out = list(lines)
    for at in {at for at, _ in noted}:
        cells = [_bare(cell) if (at, k) in noted else cell for k, cell in enumerate(rows[at])]
        out[at] = mark.join(f'"{c}"' if mark in c else c for c in cells)
    return NotesTaken(out, notes_left_out(list(noted.values())))


def notes_left_out(notes: Sequence[str]) -> str:
    """Return the warning that names notes which stood among numbers."""
    return f"notes among the numbers were left out: {cells_shown(notes)}"


def cells_shown(cells: Sequence[str]) -> str:
    """Return cells for people, each once and the first of many."""
    found = [f"'{cell}'" for cell in dict.fromkeys(cells)]
    more = f" and {len(found) - _SHOWN} more" if len(found) > _SHOWN else ""
    return f"{', '.join(found[:_SHOWN])}{more}"


def _number_in(cell: str) -> bool:
    """Whether a cell begins as a number does."""
    return cell.lstrip("-+−~(")[:1].isdigit()


def _of_numbers(cells: Sequence[str]) -> bool:
    """Whether most cells of a column are numbers alone, and no other is a number with a unit, a range or clicks.

    A word that stands there twice, or one for a sum, says what its row is.
    """
    odd = [cell for cell in cells if not _is_value(cell)]
    values = sum(map(is_any_number, cells))
    alone = [cell for cell in odd if not any(c.isdigit() for c in cell)]
    named = len({*alone}) < len(alone) or any({*plain(cell).split()} & SUMMARY for cell in alone)
    return values > len(odd) and not named and all(map(_is_noted, odd))


def _is_value(cell: str) -> bool:
    return is_missing(cell) or is_any_number(cell)


def _is_noted(cell: str) -> bool:
    """Whether a cell is a number and a note, or words alone."""
    found = _NOTED.fullmatch(cell)
    if found is None:
        return not any(c.isdigit() for c in cell) and any(c.isalpha() for c in cell)
    return not is_unit(found["note"].strip("() ")) and not clicks_of(cell)


def _bare(cell: str) -> str:
    """Return the number of a cell; nothing where it is words alone."""
    found = _NOTED.fullmatch(cell)
    number = found["number"] if found else ""
    return f"-{number.strip('()')}" if number.startswith("(") else number
