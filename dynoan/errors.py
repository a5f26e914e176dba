"""The error tree. Every error is one line for a person: what, where, and what to do.

::

    DynoanError
    ├── ReadError       (also ValueError)   a rig's file cannot be understood
    ├── QuantityError   (also ValueError)   a number or unit is wrong or missing
    │   └── Lacking                         a file that is sound lacks what one question needs
    ├── LookupFault     (also LookupError)  a name that the library does not know
    ├── LibraryError    (also OSError)      a library folder or file is damaged or unwritable
    ├── FitError        (also ValueError)   data that carry no curve
    └── CallError       (also ValueError)   a question was asked in a way that cannot be answered

An error speaks of the thing. Whoever raises it says apart what is wrong, `where`, and what to do about it (`hint`); the
line for people is made of these. Which part of a question it is about stands in `part`, what would help in `need`; each
door (command line, window, Python) adds how to give it there. The command line turns any of these into one line on
standard error and exit code 2.
"""

from __future__ import annotations

import os
import re
import shlex
from collections.abc import Callable
from dataclasses import dataclass, replace


@dataclass(frozen=True)
class Spot:
    """Where something is wrong: a file, run or car as people name it, and the line or key in it."""

    file: str = ""
    key: str = ""
    line: int | None = None  #: from 1

    @property
    def named(self) -> str:
        """The file with its line; the key where it is of no file."""
        return (f"{self.file}, line {self.line}" if self.line else self.file) or self.key

    @property
    def within(self) -> str:
        """Line and key in the file."""
        return ": ".join(filter(None, (f"line {self.line}" if self.line else "", self.key)))

    def __bool__(self) -> bool:
        return bool(self.file or self.key)

    def __str__(self) -> str:
        return f"{self.named}: {self.key}" if self.file and self.key else self.named


Where = str | os.PathLike[str] | Spot


@dataclass(frozen=True)
class Saying:
    """What an error says, each part apart."""

    what: str = ""  #: what is wrong
    place: Spot = Spot()
    hint: str = ""  #: what to do
    part: str | None = None
    need: str | None = None

    @property
    def text(self) -> str:
        """Place, what is wrong and what to do, in one line."""
        return self._after(str(self.place))

    @property
    def within(self) -> str:
        """The same without the file, for whoever named that already."""
        return self._after(self.place.within)

    def _after(self, place: str) -> str:
        return "; ".join(filter(None, (": ".join(filter(None, (place, self.what))), self.hint)))


class DynoanError(Exception):
    """Root of all errors this project raises on purpose.

    Parameters
    ----------
    what
        What is wrong, in one line.
    where
        The file, run or car it is about, as people name it; with a key in it as a `Spot`.
    hint
        What to do, or what would be right.
    part
        The part of a question it is about, by its name there, such as "tolerance"; put in front of the text.
    need
        What would help, by a key each door has words for, such as "targets".
    """

    def __init__(
        self, what: object = "", *more: object, where: Where = "", hint: str = "", part: str | None = None,
        need: str | None = None,
    ) -> None:  # fmt: skip
        super().__init__(what, *more)
        place = where if isinstance(where, Spot) else Spot(os.fspath(where))
        self._said = Saying(str(what), place, hint, part, need)

    @property
    def said(self) -> Saying:
        """All that it says, part by part."""
        return self._said

    @property
    def what(self) -> str:
        """What is wrong, alone."""
        return self._said.what

    @property
    def where(self) -> str:
        """The file, run or car it is about, with the line; the key where it is of none; empty where nobody said."""
        return self._said.place.named

    @property
    def key(self) -> str:
        """The key in that file it is about, empty where it is about none."""
        return self._said.place.key

    @property
    def hint(self) -> str:
        """What to do, empty where nothing is known of that."""
        return self._said.hint

    @property
    def part(self) -> str | None:
        """The part of its question it is about."""
        return self._said.part

    @property
    def need(self) -> str | None:
        """What would help, by a key each door has words for."""
        return self._said.need

    @property
    def text(self) -> str:
        """The text alone, without the part it is about."""
        return self._said.text

    @property
    def bare(self) -> str:
        """The text without any place."""
        return Saying(self.what, hint=self.hint).text

    @property
    def within(self) -> str:
        """The text without the file it is about, for whoever named that already."""
        return self._said.within

    def again(
        self, *, where: Where | None = None, part: str | None = None, hint: str = "", need: str | None = None,
        kind: type[DynoanError] | None = None, told: Callable[[str], str] = str,
    ) -> DynoanError:  # fmt: skip
        """Return the same error as one who knows more tells it.

        Parameters
        ----------
        where
            The place, put around the one that it has.
        part, need
            The part of a question it is about, and what would help.
        hint
            What to do, where it says nothing of that.
        kind
            Another class of error.
        told
            How its words are put, as in other units.
        """
        said = self._said
        place = said.place if where is None else _around(where, said.place)
        return (kind or type(self))(
            told(said.what), where=place, hint=told(said.hint or hint or ""), part=part or said.part,
            need=need or said.need,
        )  # fmt: skip

    def __str__(self) -> str:
        return f"{self.part.replace('_', ' ')}: {self.text}" if self.part else self.text


def typed(name: str) -> str:
    """Return a name as it is typed in a command that is to be copied: in quotes where it is not one plain word."""
    if re.fullmatch(r"[\w.@=,+-]+", name):
        return name
    return shlex.quote(name) if set(name) & set('"$`\\!%') else f'"{name}"'  # those every shell takes


def _around(where: Where, inner: Spot) -> Spot:
    """Return a place with another within it."""
    outer = where if isinstance(where, Spot) else Spot(os.fspath(where))
    return replace(outer, key=": ".join(filter(None, (outer.key, str(inner))))) if outer else inner


class ReadError(DynoanError, ValueError):
    """A rig's file cannot be understood; it names file, place and way out."""


class QuantityError(DynoanError, ValueError):
    """A quantity is missing, has no unit, the wrong unit, or an impossible value."""


class Lacking(QuantityError):
    """A file that is sound lacks what one question needs."""


class LookupFault(DynoanError, LookupError):
    """A sweep, shock, pack, car or setup that the library does not hold."""


class LibraryError(DynoanError, OSError):
    """A library folder or file is missing, damaged, newer than this program, or cannot be written."""


class FitError(DynoanError, ValueError):
    """The data carry no curve: too few samples, no motion, a stuck channel."""


class CallError(DynoanError, ValueError):
    """A question was asked with parts that do not go together."""
