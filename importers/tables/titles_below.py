"""A small table whose runs are named once at its top, and below it the title of each direction between its rows."""

from __future__ import annotations

from collections.abc import Sequence

from importers.assumptions.tables import ACROSS_LEAST, TIDY_LINES
from importers.grid import are_numbers, split_cells
from importers.header import describe_column
from importers.patterns import regex
from importers.words.adjusters import CLICK_WORD
from importers.words.directions import direction_of
from importers.words.spelling import plain
from importers.words.turns import turns_alone
from importers.words.unit_text import is_unit

_MARKS = (";", "\t", "|", ",")
_UNIT = regex(r"[\[(]([^\[\]()]{1,9})[\])]|(?<=\s)([A-Za-z]{1,3})$")
_CLICKED = regex(rf"(\d{{1,2}})\s?(?:{CLICK_WORD}|cl)\.?")
_DIGIT = regex(r"\d")
_LONGEST_TITLE = 5  #: [words]


def with_titles_above(lines: Sequence[str]) -> list[str] | None:
    """Return the lines with the names of a table's runs below each title, not above; None where no such table stands.

    >>> with_titles_above(["mm/s;3 clicks;8 clicks", "Reb (N)", "50;300;280", "90;400;380"])
    ['Reb (N) clicks', 'mm/s;3;8', '50;300;280', '90;400;380']
    >>> with_titles_above(["mm/s;soft;hard", "Reb (N)", "50;300;280", "90;400;380"])[1]
    'mm/s;soft rebound [N];hard rebound [N]'
    """
    if len(lines) > TIDY_LINES:
        return None
    # What costs little is asked first: a title holds no number, and rows of numbers follow it.
    bare = [_DIGIT.search(line) is None for line in lines]
    maybe = [
        at for at in range(len(lines) - 3) if bare[at + 1] and not (bare[at + 2] or bare[at + 3]) and lines[at + 1]
    ]
    for mark in _MARKS if maybe else ():
        for at in maybe:
            head = split_cells(lines[at], mark) if mark in lines[at] else []
            rows = [split_cells(line, mark) for line in lines[at + 2 : at + 4]]
            titled = len(head) >= ACROSS_LEAST and all(are_numbers(row, len(head)) for row in rows)
            if titled and _title(lines[at + 1], mark) and _are_runs(head):
                out = [*lines[:at]]
                for line in lines[at + 1 :]:
                    said = _title(line, mark)
                    out += _headed(head, line.strip(f"{mark} "), *said, mark) if said else [line]
                return out
    return None


def _are_runs(head: Sequence[str]) -> bool:
    """Whether cells are a name of speeds before names of runs: clicks, turns or words, no quantities."""
    corner, *runs = head
    if not (is_unit(corner, "velocity") or describe_column(0, corner).channel == "velocity"):
        return False
    if len({*runs}) < len(runs) or not all(any(c.isalpha() for c in run) for run in runs):
        return False
    columns = [describe_column(k, run) for k, run in enumerate(runs)]
    return not any(c.channel or c.direction or c.unit or c.role for c in columns if not turns_alone(c.text))


def _title(line: str, mark: str) -> tuple[str, str] | None:
    """Return the direction and the unit of a line that is one cell of a few words without numbers; None of others."""
    text = line.strip(f"{mark} ")
    words = plain(text).split()
    if not text or mark in text or len(words) > _LONGEST_TITLE or any(c.isdigit() for c in text):
        return None
    ways = {way for word in words if len(word) > 1 and (way := direction_of(word))}
    units = [m[1] or m[2] for m in _UNIT.finditer(text)]
    unit = next((unit for unit in units if is_unit(unit, "force")), "")
    return (ways.pop(), unit) if len(ways) == 1 else None


def _headed(head: Sequence[str], title: str, way: str, unit: str, mark: str) -> list[str]:
    """Return a title over the names of runs; bare clicks where each is of clicks, else names with the direction."""
    clicks = [_CLICKED.fullmatch(plain(run)) for run in head[1:]]
    if all(clicks):
        titled = f"{title.removesuffix(unit).rstrip()} [{unit}]" if unit and not title.endswith((")", "]")) else title
        return [f"{titled} clicks", mark.join([head[0], *(found[1] for found in clicks if found)])]
    of = f"{way} [{unit}]" if unit else way
    return [title, mark.join([head[0], *(f"{run} {of}" for run in head[1:])])]
