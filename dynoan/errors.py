"""The error tree. Every error is one line for a person: what, where, and what to do.

::

    DynoanError
    ├── ReadError       (also ValueError)   a rig's file cannot be understood
    ├── QuantityError   (also ValueError)   a number or unit is wrong or missing
    ├── LookupFault     (also LookupError)  a name that the library does not know
    ├── LibraryError    (also OSError)      a library folder or file is damaged or unwritable
    ├── FitError        (also ValueError)   data that carry no curve
    └── CallError       (also ValueError)   a question was asked in a way that cannot be answered

An error speaks of the thing. Which part of a question it is about stands in `part`, what would help in `need`; each
door (command line, window, Python) adds how to give it there. The command line turns any of these into one line on
standard error and exit code 2.
"""

from __future__ import annotations


class DynoanError(Exception):
    """Root of all errors this project raises on purpose.

    Parameters
    ----------
    text
        What is wrong, in one line.
    part
        The part of a question it is about, by its name there, such as "tolerance"; put in front of the text.
    need
        What would help, by a key each door has words for, such as "targets".
    """

    def __init__(self, *args: object, part: str | None = None, need: str | None = None) -> None:
        super().__init__(*args)
        self.part = part
        self.need = need

    @property
    def text(self) -> str:
        """The text alone, without the part it is about."""
        return str(self.args[0]) if self.args else ""

    def __str__(self) -> str:
        return f"{self.part.replace('_', ' ')}: {self.text}" if self.part else self.text


class ReadError(DynoanError, ValueError):
    """A rig's file cannot be understood; the text names file, place and way out."""


class QuantityError(DynoanError, ValueError):
    """A quantity is missing, has no unit, the wrong unit, or an impossible value."""


class LookupFault(DynoanError, LookupError):
    """A sweep, shock, pack, car or setup that the library does not hold."""


class LibraryError(DynoanError, OSError):
    """A library folder or file is missing, damaged, newer than this program, or cannot be written."""


class FitError(DynoanError, ValueError):
    """The data carry no curve: too few samples, no motion, a stuck channel."""


class CallError(DynoanError, ValueError):
    """A question was asked with parts that do not go together."""
