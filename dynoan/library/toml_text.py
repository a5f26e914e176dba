"""Text that people edit: read bounded, and parsed as TOML with each fault named by its line."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path
from typing import Any

from dynoan.errors import LibraryError, QuantityError, Spot
from dynoan.library.files import read_bounded
from dynoan.library.names import printable

MAX_TEXT = 1_000_000  #: [bytes]
LONGEST_FAULT = 160
MOST_PARTS = 20  #: of a dotted key
LARGEST = 2**63  #: of a whole number, beyond which TOML has none
_AT_LINE = re.compile(r"at line (\d+)")
#: a number with a decimal comma outside quotes, as the whole of a value
_COMMA = re.compile(r"""^[^"'#]*=\s*(-?\d+,\d+)\s*(?:#.*)?$""")
_TOKEN = re.compile(r"""[\w-]+|"(?:[^"\\]|\\.)*"|'[^']*'|#.*|\S""")


def read_text(path: Path, shown: str) -> str:
    """Return a text file of at most 1 MB, or raise `LibraryError`."""
    data = read_bounded(path, MAX_TEXT)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        raise LibraryError("not UTF-8 text", where=Spot(shown, line=line), hint="save the file as UTF-8") from None


def parse_toml(text: str, file: str) -> dict[str, Any]:
    """Return the tables in TOML text, or raise `QuantityError` with the line."""
    if len(text) > MAX_TEXT:
        raise QuantityError(f"{len(text)} characters, more than the {MAX_TEXT} such a file may have", where=file)
    _refuse_long_keys(text, file)
    try:
        data = tomllib.loads(text)
        key = _of_huge_number(data)
    except tomllib.TOMLDecodeError as error:
        what, hint = _of_line(text, str(error))
        raise QuantityError(f"not valid TOML: {what}", where=file, hint=hint) from None
    except (RecursionError, ValueError) as error:
        raise QuantityError(f"cannot be read as TOML ({str(error)[:80]})", where=file) from None
    if key is not None:
        raise QuantityError(f"{printable(key)[:80]}: a whole number of more than 64 bits", where=file, hint="check it")
    return data


def _of_line(text: str, told: str) -> tuple[str, str]:
    """Return what is wrong with the line at which the parser stopped, and what to do, else what the parser said."""
    quoted = 'text and quantities stand in quotes, as in "75 lb"'
    found = _AT_LINE.search(told)
    line = text.splitlines()[int(found[1]) - 1] if found and int(found[1]) <= len(text.splitlines()) else ""
    shown = printable(line.strip())[:LONGEST_FAULT]
    if found and (number := _COMMA.search(line)):
        point = number[1].replace(",", ".")
        return f"{shown} (at line {found[1]})", f"a number has a point in place of the comma, as in {point}"
    if found and line.partition("#")[0].count('"') % 2:
        return f"{shown} (at line {found[1]})", f"a quote is missing: {quoted}"
    return printable(told)[:LONGEST_FAULT], quoted


def _of_huge_number(value: Any, key: str = "") -> str | None:
    """Return the key of a whole number beyond 64 bits, which TOML has not but the parser lets through."""
    if isinstance(value, dict):
        found = (_of_huge_number(v, f"{key}.{k}" if key else k) for k, v in value.items())
    elif isinstance(value, list):
        found = (_of_huge_number(v, key) for v in value)
    else:
        return key if isinstance(value, int) and not -LARGEST <= value < LARGEST else None
    return next((place for place in found if place is not None), None)


def _refuse_long_keys(text: str, file: str) -> None:
    """Refuse a dotted key of very many parts, which costs the parser time that grows with the square of them."""
    for number, line in enumerate(text.split("\n"), 1):  # a quoted text may hold other ends of lines
        if line.count(".") <= MOST_PARTS:
            continue
        parts, dot = 0, False
        for token in _TOKEN.finditer(line):
            joined = token[0] == "."
            parts = parts + 1 if dot or joined else 0
            dot = joined
            if parts > 2 * MOST_PARTS:
                raise QuantityError(
                    f"a key of over {MOST_PARTS} parts", where=Spot(file, line=number), hint="no key here has so many"
                )
