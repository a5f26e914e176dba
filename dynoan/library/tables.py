"""Tables of text that people edit, read strictly: each fault named with file, key and what would be right."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from typing import Any

from dynoan.errors import LibraryError, QuantityError, Spot
from dynoan.library.names import known_here, nearest, printable
from dynoan.units import NOTHING, parse
from dynoan.version import __version__

FORMAT = 1  #: of texts; a later one states its number as `format`, and is refused by it
ANY_NUMBER = 1e6  #: a bound so far off that it is no news to anyone
#: a value with what it is uncertain by: "510 ± 20 mm", "510 mm ± 20 mm", "0.92 +- 0.02". What is taken is not given
#: back: of thousands of digits without a ± all ways to part them would else be tried
_PLUS_MINUS = re.compile(
    r"^\s*+(?P<value>[-+]?[\d.,]++(?:[eE][-+]?\d++)?+)(?P<own>[^±+]*+)(?:±|\+-|\+/-)\s*+"
    r"(?P<spread>[\d.,]++(?:[eE][-+]?\d++)?+)\s*+(?P<unit>.*)$"
)


def value_and_spread(text: str) -> tuple[str, str] | None:
    """Return a value and what follows its ±, each with its unit; None where no such two stand there.

    >>> value_and_spread("0.15 ± 0.05 s")
    ('0.15 s', '0.05 s')
    """
    both = _PLUS_MINUS.match(text)
    if both is None:
        return None
    unit = both["unit"].strip()
    return f"{both['value']} {both['own'].strip() or unit}", f"{both['spread']} {unit}"


class UnknownKey(QuantityError):
    """A key that this version does not know: mistyped, or of a later version."""


@contextmanager
def written_here() -> Iterator[None]:
    """Say of an unknown key in a text that commands write that a later version may have written it."""
    try:
        yield
    except UnknownKey as error:
        hint = "; ".join(filter(None, (f"if a newer dynoan wrote it, update this one ({__version__})", error.hint)))
        raise UnknownKey(error.what, where=error.said.place, hint=hint) from None


def _of_this_format(data: Mapping[str, Any], where: Spot) -> Mapping[str, Any]:
    """Return a table without the number of its format, or raise `LibraryError` where that is a later one."""
    version = data.get("format")
    if isinstance(version, int) and version > FORMAT:
        raise LibraryError(
            f"format version {version}, but dynoan {__version__} reads up to {FORMAT}",
            where=where,
            hint="update dynoan",
        )
    return {k: v for k, v in data.items() if k != "format" or v != FORMAT}


class TomlTable:
    """One table of a TOML file; every key must be known, and every fault names the file and the key.

    A whole file, and a setup's facts, may state their format.
    """

    def __init__(
        self, data: Any, file: str, known: Iterable[str], path: str = "", spread: dict[str, float] | None = None
    ) -> None:
        self.file = file
        self.path = path
        #: what values are uncertain by, as read so far in this and all tables within, by dotted key, SI
        self.spread = {} if spread is None else spread
        if not isinstance(data, Mapping):
            raise QuantityError(f"found {_brief(data)}, wanted a table such as [{path}]", where=self.where(""))
        known = tuple(known)
        if path in ("", "setup") and "format" in data and "format" not in known:
            data = _of_this_format(data, Spot(file))
        self.data = data
        for key in data:
            if key not in known:
                what = f"unknown key{nearest(key, known)}"
                raise UnknownKey(what, where=self.where(key), hint=known_here(key, known))

    def where(self, key: str) -> Spot:
        """Return file and key for a message."""
        return Spot(self.file, printable(".".join(filter(None, (self.path, key))))[:80].rstrip(": "))

    def fault(self, key: str, what: str, hint: str = "") -> QuantityError:
        """Return an error that names file and key, and what to do."""
        return QuantityError(what, where=self.where(key), hint=hint)

    def __contains__(self, key: str) -> bool:
        return key in self.data

    def quantity(self, key: str, kind: str) -> float | None:
        """Return a quantity in SI, None where the key is missing; what follows a ± goes into `spread`."""
        if key not in self.data:
            return None
        value = self.data[key]
        both = value_and_spread(value) if isinstance(value, str) else None
        if both is None:
            try:
                return parse(value, kind)
            except QuantityError as error:
                raise error.again(where=self.where(key)) from None
        size = parse(both[0], kind, where=self.where(key))
        self._spread(key, both[1], kind, size if kind != "ratio" else None)
        return size

    def _spread(self, key: str, text: str, kind: str, value: float | None) -> None:
        """Note what a value is uncertain by; `value` is None where it may be zero or below."""
        size = parse(text, kind, where=self.where(key))
        if not size > 0:
            raise self.fault(key, "what follows ± must be above zero")
        if value is not None and size >= abs(value):
            hint = "write how far off the value itself may be, at 95 %, in the unit that stands behind it"
            raise self.fault(key, f"± {text.strip()} is as much as the value itself, or more", hint=hint)
        self.spread[".".join(filter(None, (self.path, key)))] = size

    def number(self, key: str, low: float, high: float) -> float | None:
        """Return a plain number between two bounds, None where the key is missing."""
        value = self.data.get(key)
        if value is None:
            return None
        if value == "":
            raise self.fault(key, NOTHING, hint="write a number without a unit")
        both = _PLUS_MINUS.match(value) if isinstance(value, str) else None
        if both is not None and not both["unit"].strip() and not both["own"].strip():
            value = parse(both["value"], "ratio", where=self.where(key))
            self._spread(key, both["spread"], "ratio", value)
        number = _in_quotes(value)
        if isinstance(number, bool) or not isinstance(number, int | float) or not low <= number <= high:
            between = f" from {low:g} to {high:g}" if max(-low, high) < ANY_NUMBER else ""
            raise self.fault(key, f"found {_brief(value)}, wanted a number{between}, without a unit")
        return float(number)

    def whole(self, key: str, low: int, high: int) -> int | None:
        """Return a whole number between two bounds, None where the key is missing."""
        value = self.data.get(key)
        if value is None:
            return None
        if value == "":
            raise self.fault(key, NOTHING, hint="write a whole number")
        value = _in_quotes(value)
        if isinstance(value, bool) or not isinstance(value, int) or not low <= value <= high:
            raise self.fault(key, f"found {_brief(value)}, wanted a whole number from {low} to {high}")
        return value

    def text(self, key: str, longest: int = 200) -> str | None:
        """Return text, None where the key is missing. A date written without quotes counts as text."""
        value = self.data.get(key)
        if isinstance(value, datetime.date | datetime.datetime):
            return value.isoformat()
        if value is None:
            return None
        if not isinstance(value, str):
            raise self.fault(key, f"found {_brief(value)}, wanted text in quotes")
        if len(value) > longest:
            raise self.fault(key, f"{len(value)} characters, more than {longest}", hint="shorten it")
        return value

    def flag(self, key: str) -> bool | None:
        """Return true or false, None where the key is missing."""
        value = self.data.get(key)
        if value is not None and not isinstance(value, bool):
            raise self.fault(key, f"found {_brief(value)}, wanted true or false")
        return value

    def choice(self, key: str, options: tuple[str, ...]) -> str | None:
        """Return one of several words, None where the key is missing."""
        value: str | None = self.data.get(key)
        if value is not None and value not in options:
            wanted = " or ".join(f'"{o}"' for o in options)
            raise self.fault(key, f"found {_brief(value)}, wanted {wanted}")
        return value

    def texts(self, key: str, most: int = 64) -> tuple[str, ...]:
        """Return a list of texts, empty where the key is missing."""
        value = self.data.get(key, [])
        if not isinstance(value, list) or len(value) > most or not all(isinstance(v, str) for v in value):
            raise self.fault(key, f'found {_brief(value)}, wanted a list of at most {most} texts such as ["a", "b"]')
        return tuple(value)

    def table(self, key: str, known: Iterable[str]) -> TomlTable | None:
        """Return a table inside this one, None where it is missing."""
        if key not in self.data:
            return None
        return TomlTable(self.data[key], self.file, known, ".".join(filter(None, (self.path, key))), self.spread)

    def names(self, key: str) -> Mapping[str, Any]:
        """Return a table whose keys people choose, such as surfaces; empty where it is missing."""
        value = self.data.get(key, {})
        if not isinstance(value, Mapping) or len(value) > 200:
            raise self.fault(key, f"found {_brief(value)}, wanted tables such as [{key}.name]")
        return value


def _in_quotes(value: Any) -> Any:
    """Return a number that stands in quotes, as a template's empty quotes invite; all else as it is."""
    if not isinstance(value, str):
        return value
    try:
        number = parse(value, "ratio")
    except QuantityError:
        return value
    return int(number) if number.is_integer() else number


def _brief(value: Any) -> str:
    text = "a table" if isinstance(value, Mapping) else f"a list of {len(value)}" if isinstance(value, list) else ""
    if not text:
        text = ("true" if value else "false") if isinstance(value, bool) else repr(value)
    return printable(text if len(text) <= 60 else text[:57] + "…")
