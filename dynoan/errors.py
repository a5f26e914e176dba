"""The error tree. Every error is one line for a person: what, where, and what to do.

::

    DynoanError
    ├── ReadError       (also ValueError)   a rig's file cannot be understood
    ├── QuantityError   (also ValueError)   a number or unit is wrong or missing
    ├── LookupFault     (also LookupError)  a name that the library does not know
    ├── LibraryError    (also OSError)      a library folder or file is damaged or unwritable
    ├── FitError        (also ValueError)   data that carry no curve
    └── CallError       (also ValueError)   a command was called in a way that cannot be done

The command line turns any of these into one line on standard error and exit code 2.
"""

from __future__ import annotations


class DynoanError(Exception):
    """Root of all errors this project raises on purpose."""


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
    """A command was called with arguments that do not go together."""
