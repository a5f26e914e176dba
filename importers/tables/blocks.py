"""A body that is no plain table: page breaks, stacked blocks, notes and torn lines between the rows.

The lines that are plainly rows are found by counting bytes, all at once; only the others are looked at one by one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np

from dynoan.errors import ReadError
from dynoan.model.arrays import BoolArray, IntArray
from importers.grid.cells import BLANKS, OVER, is_missing, is_number
from importers.grid.judging import Grid
from importers.header.finding import Header, find, uncomment
from importers.words.clicks import clicks_of
from importers.words.vocabulary import TABLE_WORDS, plain

_MOST_ODD = 40_000
_LOOKS, _LOOK = 5, 1 << 16  #: how often, and how many bytes, to look into a large body first
_MOST_TEXT_ROWS = 400_000


@dataclass(frozen=True)
class Break:
    """A place between rows where the file says something."""

    row: int
    lines: tuple[str, ...]
    header: bool  #: whether the header stands there again


@dataclass(frozen=True)
class Section:
    """Rows under one header, with the lines that belong to them."""

    data: bytes
    header: Header
    grid: Grid
    first_line: int  #: line of the file where the rows start, from 1
    lines: tuple[str, ...] = ()  #: what stands above the rows, below earlier rows
    breaks: tuple[Break, ...] = ()
    warnings: tuple[str, ...] = ()
    over: int = 0  #: cells that say the sensor was beyond its range
    rest: int | None = None  #: where a table of another shape starts in the body [byte]


@dataclass
class _Walk:
    """What has been gathered of the section at hand."""

    pieces: list[bytes] = field(default_factory=list)
    rows: int = 0
    breaks: list[Break] = field(default_factory=list)
    torn: list[tuple[int, str]] = field(default_factory=list)
    over: int = 0
    first_line: int = 0
    lines: tuple[str, ...] = ()


def split(
    body: bytes, header: Header, grid: Grid, *, first_line: int, name: str, encoding: str
) -> tuple[list[Section], int | None]:
    """Return the sections of a body; and where a table of another shape begins in it, if one does.

    Raises
    ------
    ReadError
        If a line is neither a row nor a header nor a note, naming the line.
    """
    return _Splitter(body, header, grid, first_line, name, encoding).run()


class _Splitter:
    def __init__(self, body: bytes, header: Header, grid: Grid, first_line: int, name: str, encoding: str) -> None:
        self.body, self.header, self.grid = body, header, grid
        self.first_line, self.name, self.encoding = first_line, name, encoding
        self.sections: list[Section] = []
        self.walk = _Walk(first_line=first_line)
        self._refuse_rubbish()
        self.starts, self.ends = _lines(body)

    def _refuse_rubbish(self) -> None:
        """Refuse a large body most of whose lines are no rows, from a few looks at it: it may be 50 MB of anything."""
        size = len(self.body)
        if size < _LOOKS * _LOOK * 4:
            return
        bad: list[tuple[int, bytes]] = []
        seen = 0
        for k in range(_LOOKS):
            at = size * (2 * k + 1) // (2 * _LOOKS)
            for raw in self.body[at : at + _LOOK].split(b"\n")[1:-1][:200] or [self.body[at : at + 100]]:
                seen += 1
                text = self._decoded(raw)
                if (
                    text.strip()
                    and text.strip() not in self.header.lines
                    and not self.grid.is_row(self.grid.cells(text))
                ):
                    bad.append((self.body.find(raw, at), raw))
        if 2 * len(bad) > seen:
            at, raw = bad[0]
            line = self.body.count(b"\n", 0, at)
            raise ReadError(
                self._at(line, self._decoded(raw), "most lines from there on are no rows: is this one file?")
            )

    def run(self) -> tuple[list[Section], int | None]:
        odd = self._odd()
        done, at = 0, 0
        indices = np.flatnonzero(odd)
        self._refuse_many(odd)
        while at < len(indices):
            line = int(indices[at])
            self._rows(done, line)
            group = [line]
            while at + 1 < len(indices) and indices[at + 1] == group[-1] + 1:
                at += 1
                group.append(int(indices[at]))
            rest = self._group(group)
            done, at = group[-1] + 1, at + 1
            if rest is not None:
                self._close()
                return self.sections, rest
        self._rows(done, len(self.starts))
        self._close()
        return self.sections, None

    def _odd(self) -> BoolArray:
        a = np.frombuffer(self.body, np.uint8)
        if not all(self.grid.numeric):
            if len(self.starts) > _MOST_TEXT_ROWS:
                raise ReadError(
                    f"{self.name}: {len(self.starts)} lines with words in the rows and breaks between them; split "
                    f"the file"
                )
            return np.ones(len(self.starts), bool)
        strange = _strange(self.grid)[a]
        odd = _any_in(strange, self.starts)
        if self.grid.delimiter != BLANKS:
            marks = np.add.reduceat((a == ord(self.grid.delimiter)).view(np.uint8), self.starts, dtype=np.int32)
            odd |= marks != self.grid.width - 1
            return odd
        return np.ones(len(self.starts), bool) if len(self.starts) <= _MOST_TEXT_ROWS else odd

    def _refuse_many(self, odd: BoolArray) -> None:
        count = int(np.count_nonzero(odd))
        if all(self.grid.numeric) and count > _MOST_ODD and count > 0.2 * len(odd) and self.grid.delimiter != BLANKS:
            i = int(np.argmax(odd))
            raise ReadError(self._at(i, self._text(i), f"{count} lines between the rows are none; split the file"))

    def _text(self, i: int) -> str:
        return self._decoded(self.body[self.starts[i] : self.ends[i]])

    def _decoded(self, raw: bytes) -> str:
        code = "utf-8" if self.encoding.startswith("utf") else self.encoding
        return raw.decode(code, errors="replace").strip("\r\n\x0c\x1a\0")

    def _at(self, i: int, text: str, way_out: str) -> str:
        shown = "".join(c if c.isprintable() else "·" for c in text[:38]) + ("…" if len(text) > 38 else "")
        wanted = f"wanted {self.grid.width} cells of numbers; {way_out}"
        return f"{self.name}, line {self.first_line + i}: found '{shown}', {wanted}"

    def _rows(self, start: int, stop: int) -> None:
        if stop > start:
            self.walk.pieces.append(self.body[self.starts[start] : self.ends[stop - 1]])
            self.walk.rows += stop - start

    def _group(self, group: Sequence[int]) -> int | None:
        """Take lines that are not plainly rows, one after the other; return where a table of another shape starts."""
        notes: list[int] = []
        for i in group:
            text = self._text(i)
            cells = self.grid.cells(text)
            row = self._as_row(cells)
            if row is not None:
                rest = self._notes(notes)
                if rest is not None:
                    return rest
                notes = []
                self.walk.pieces.append(row)
                self.walk.rows += 1
            elif text.strip() and not all(is_missing(c) for c in cells):
                notes.append(i)
        return self._notes(notes)

    def _as_row(self, cells: list[str]) -> bytes | None:
        if not self.grid.is_row(cells):
            return None
        self.walk.over += sum(cell.lower() in OVER for cell in cells)
        mark = " " if self.grid.delimiter == BLANKS else self.grid.delimiter
        blank = "NaN" if self.grid.delimiter == BLANKS else ""
        out = [blank if numeric and is_missing(c) else c for c, numeric in zip(cells, self.grid.numeric, strict=True)]
        if self.grid.quoted:
            out = [f'"{c}"' if mark in c else c for c in out]
        return (mark.join(out) + "\n").encode()

    def _notes(self, lines: list[int]) -> int | None:
        """Take a run of lines that are no rows: a repeated header, a new block, notes, or torn rows."""
        texts = [self._text(i) for i in lines]
        again = any(t.strip() in self.header.lines for t in texts)
        shape = None if again else self._other_shape(lines, texts)
        if shape is not None:
            return shape
        notes = []
        for i, text in zip(lines, texts, strict=True):
            if text.strip() in self.header.lines:
                continue
            if self._torn(text, again):
                self.walk.torn.append((i, text))
            else:
                notes.append(text)
        if notes or again:
            self._boundary(tuple(notes), again, lines)
        return None

    def _torn(self, text: str, again: bool) -> bool:
        """Whether a line holds a table's numbers but not all of them, or one word too many.

        A lone number beside a repeated header is a page's.
        """
        cells = self.grid.cells(text)
        numbers = sum(is_number(c, self.grid.decimal) for c in cells)
        if clicks_of(text) or text != uncomment(text):
            return False
        if len(cells) == self.grid.width:
            return numbers >= 1 and 2 * numbers >= sum(self.grid.numeric)
        if again and len(cells) == 1:
            return False
        wordless = not any(c.isalpha() for c in text) and sum(c.isdigit() for c in text) >= 1
        return wordless or (numbers >= 1 and all(is_number(c, self.grid.decimal) or is_missing(c) for c in cells))

    def _other_shape(self, lines: list[int], texts: list[str]) -> int | None:
        """Return where another header begins in lines that are no rows, if one does [byte]."""
        rows = (k for k, t in enumerate(texts) if self._numbers(t))
        stop = next(rows, len(texts))
        if stop == 0:
            return None
        width = len(self.grid.cells(texts[stop])) if stop < len(texts) else self.grid.width
        grid = replace(self.grid, width=width, numeric=(True,) * width)
        header = find(texts[:stop], grid, texts[stop] if stop < len(texts) else "")
        return int(self.starts[lines[0]]) if header.found and header.names != self.header.names else None

    def _numbers(self, text: str) -> bool:
        cells = self.grid.cells(text)
        return len(cells) >= 2 and all(is_number(c, self.grid.decimal) or is_missing(c) for c in cells)

    def _boundary(self, notes: tuple[str, ...], again: bool, lines: list[int]) -> None:
        states = any(clicks_of(n) for n in notes) or any(_names_setting(n) for n in notes)
        if states and self.walk.rows:
            self._close()
            self.walk = _Walk(first_line=self.first_line + lines[-1] + 1, lines=notes)
        elif not self.walk.rows:
            self.walk.lines = (*self.walk.lines, *notes)
        else:
            self.walk.breaks.append(Break(self.walk.rows, notes, again))

    def _close(self) -> None:
        walk = self.walk
        if not walk.rows:
            return
        section = Section(
            data=b"".join(p if p.endswith(b"\n") else p + b"\n" for p in walk.pieces),
            header=self.header,
            grid=self.grid,
            first_line=walk.first_line,
            lines=walk.lines,
            breaks=tuple(walk.breaks),
            over=walk.over,
        )
        self.sections.append(replace(section, warnings=self._torn_warning(walk)))

    def _torn_warning(self, walk: _Walk) -> tuple[str, ...]:
        """Return a warning for torn lines that may be dropped.

        Raises
        ------
        ReadError
            If there are more than a damaged file may have, or a table is too short to miss one.
        """
        if not walk.torn:
            return ()
        i, text = walk.torn[0]
        last = len(walk.torn) == 1 and i >= len(self.starts) - 2
        words = [c for c in self.grid.cells(text) if not is_number(c, self.grid.decimal) and not is_missing(c)]
        if (words and not last) or (not last and (len(walk.torn) > max(3, walk.rows // 100) or walk.rows < 50)):
            raise ReadError(self._at(i, text, self._way_out(text, words)))
        if last:
            return (f"line {self.first_line + i}, the last, is no full row and was left out",)
        return (f"{len(walk.torn)} torn lines were left out, the first is line {self.first_line + i}",)

    def _way_out(self, text: str, words: list[str]) -> str:
        other = "," if self.grid.decimal == "." else "."
        if any(is_number(word, other) for word in words):
            return f"decimal marks differ between lines? write them alike, or give --decimal '{other}'"
        return "mend the line or take it out"


def _names_setting(note: str) -> bool:
    head = plain(note.replace("=", ":").split(":")[0])
    return ":" in note and head in (TABLE_WORDS["shock"] | TABLE_WORDS["pack"])


def _lines(body: bytes) -> tuple[IntArray, IntArray]:
    """Return where each line starts and ends (its line end included)."""
    newlines = np.flatnonzero(np.frombuffer(body, np.uint8) == 10) + 1
    starts = np.concatenate([[0], newlines])
    ends = np.concatenate([newlines, [len(body)]])
    keep = starts < len(body)
    return starts[keep], ends[keep]


def _any_in(mask: BoolArray, starts: IntArray) -> BoolArray:
    """Return which lines hold any of the bytes in a mask."""
    return np.asarray(np.logical_or.reduceat(mask, starts), bool)


def _strange(grid: Grid) -> BoolArray:
    """Return which bytes stand in no plain row."""
    table = np.ones(256, bool)
    usual = "0123456789+-eE \r\n" + grid.decimal + ("\t" if grid.delimiter == BLANKS else grid.delimiter)
    table[[ord(c) for c in usual + grid.thousands.replace("\u00a0", "").replace("’", "").replace("\u202f", "")]] = False
    return table
