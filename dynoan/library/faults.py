"""All that is wrong with a file that people write, at once, where reading it alone would stop at the first.

A file is read again and again: each fault is noted with its line, mended in the copy that is read, and the reading goes
on. A value that cannot be is taken as an example of what is wanted, so that no second fault follows from the first.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from dynoan.errors import DynoanError, QuantityError
from dynoan.library.car_axle_mass import KEY as AXLE_MASS
from dynoan.library.car_axle_mass import given_apart
from dynoan.library.toml_text import parse_toml
from dynoan.model.car import AXLES, CORNERS, axle_of

MOST = 60  #: faults told of one file
_BARE = re.compile(r"^(\s*[\w.-]+\s*=\s*)([^\"'\[{\s#][^\"#]*?)(\s*(?:#.*)?)$")
#: a number without a digit on one side of its point, or with a comma
_HALF = re.compile(r"[-+]?(?:\d+\.|\.\d+|\d+,\d{1,2})")
_LINE = re.compile(r"\(at line (\d+)")
_PLACE = re.compile(r"(?P<key>[\w%.\\ -]+?): (?P<text>.*)", re.DOTALL)
_MORE = re.compile(r" \(and \d+ more\)$")
_MISSING = re.compile(r"missing; ")
_UNKNOWN = re.compile(r"unknown key(?: \(did you mean '(?P<right>[^']*)'\?\))?(?:; known here: .*)?", re.DOTALL)


class ManyFaults(QuantityError):
    """All that is impossible in a file whose every key could be read; its words are those of the first."""

    each: tuple[tuple[str, str], ...] = ()  #: key and what is wrong, as the file has them


@dataclass(frozen=True)
class TextFault:
    """One thing wrong with a file: its line where that is known, the key, and what to do."""

    line: int | None
    key: str
    text: str

    def __str__(self) -> str:
        place = "" if self.line is None else f"line {self.line}: "
        return place + (f"{self.key}: {self.text}" if self.key else self.text)


def all_faults(
    text: str, file: str, read: Callable[[Mapping[str, Any]], object], examples: Mapping[str, Any]
) -> tuple[TextFault, ...]:
    """Return everything that is wrong with a file, in the order in which it stands there.

    Parameters
    ----------
    text, file
        What stands in the file, and its name as errors have it.
    read
        Takes the file's tables and raises at the first fault, "file: key: what is wrong".
    examples
        By the last part of a key, a value that could stand there, for keys that must not be missing.
    """
    return mended(text, file, read, examples)[1]


def mended(
    text: str, file: str, read: Callable[[Mapping[str, Any]], object], examples: Mapping[str, Any]
) -> tuple[dict[str, Any] | None, tuple[TextFault, ...]]:
    """Return a file's tables as far as they could be put right, None where they cannot be read, and `all_faults`."""
    data, found = mended_tables(text, file)
    if data is None:
        return None, tuple(found)
    for _ in range(MOST):
        new, told = _faults(read, data), {fault.key for fault in found}
        first = {fault.key: fault for fault in reversed(new) if fault.key not in told}
        found += reversed(first.values())
        if len(new) != 1 or not ((first and _mend(data, new[0], examples)) or _without(data, new[0].key)):
            break
    placed = [TextFault(line_of(text, f.key) if f.line is None else f.line, f.key, f.text) for f in found]
    return data, tuple(sorted(placed, key=lambda f: f.line or 0))


def mended_tables(text: str, file: str) -> tuple[dict[str, Any] | None, list[TextFault]]:
    """Return a file's tables, quotes put where a value lacks them, and what was wrong with how it is written."""
    found: list[TextFault] = []
    lines = text.splitlines()
    for _ in range(MOST):
        try:
            return parse_toml("\n".join(lines), file), found
        except QuantityError as error:
            said = str(error).removeprefix(f"{file}: ")
            at = _LINE.search(said)
            number = int(at[1]) if at else None
            bare = _BARE.match(lines[number - 1]) if number and number <= len(lines) else None
            if bare is None or number is None:
                return None, [*found, TextFault(number, "", said)]
            right, how = _as_toml(bare[2].replace("\\", "").strip())
            found.append(TextFault(number, bare[1].split("=")[0].strip(), how))
            lines[number - 1] = bare[1] + right + bare[3]
    return None, found


def _as_toml(value: str) -> tuple[str, str]:
    """Return a bare value as TOML takes it, and what to do about it."""
    if _HALF.fullmatch(value):
        right = f"{float(value.replace(',', '.')):.12g}"
        return right, f"write it {right}"
    return f'"{value}"', f'put it in quotes: "{value}"'


def _faults(read: Callable[[Mapping[str, Any]], object], data: Mapping[str, Any]) -> list[TextFault]:
    """Return the first fault a reading comes to, or all where every key could be read."""
    try:
        read(data)
    except ManyFaults as error:
        return [TextFault(None, key, text) for key, text in error.each]
    except DynoanError as error:
        return [replace(fault, key=key_in(data, fault.key)) for fault in (_told(error),)]
    return []


def _told(error: DynoanError) -> TextFault:
    if error.key:
        return TextFault(None, error.key, error.bare)
    place = _PLACE.fullmatch(error.within)
    return TextFault(None, place["key"], _MORE.sub("", place["text"])) if place else TextFault(None, "", error.within)


def key_in(data: Mapping[str, Any], key: str) -> str:
    """Return a corner's key as the file has it: "rear.spring", not "rl.spring", where the axle has the value."""
    corner, _, last = key.partition(".")
    own, axle = data.get(corner), data.get(axle_of(corner)) if corner in CORNERS else None
    if isinstance(axle, Mapping) and last in axle and not (isinstance(own, Mapping) and last in own):
        return f"{axle_of(corner)}.{last}"
    if last == "mass" and isinstance(axle, Mapping) and AXLE_MASS in axle and given_apart(data, corner) is None:
        return f"{axle_of(corner)}.{AXLE_MASS}"
    return key


def _mend(data: dict[str, Any], fault: TextFault, examples: Mapping[str, Any]) -> bool:
    """Put right in the tables what a fault is about, so that reading goes on; False where that cannot be."""
    *path, last = fault.key.split(".")
    holder = _holder(data, path)
    if not fault.key or holder is None:
        return False
    if _MISSING.match(fault.text) and last not in holder:
        holder[last] = examples.get(last)
        return last in examples
    key = next((k for k in holder if str(k)[:80] == last), None)
    if key is None:
        return False
    value = holder.pop(key)
    if unknown := _UNKNOWN.fullmatch(fault.text):
        right = unknown["right"]
        if right is not None and right not in holder:
            holder[right] = value
    elif last in examples:
        holder[last] = examples[last]
    return True


def _without(data: dict[str, Any], key: str) -> bool:
    """Leave out the table of a key that mending does not help; False where a car cannot be read without it."""
    *path, last = key.split(".")[:-1] or [key]
    holder = _holder(data, path)
    if holder is None or last in (*AXLES, *CORNERS) or last not in holder:
        return False
    del holder[last]
    return True


def _holder(data: dict[str, Any], path: list[str]) -> dict[str, Any] | None:
    here = data
    for part in path:
        inner = here.setdefault(part, {})
        if not isinstance(inner, dict):
            return None
        here = inner
    return here


def line_of(text: str, key: str) -> int | None:
    """Return the line in which a key stands, else that of its table, None where neither is found."""
    path = key.rpartition(".")[0]
    table, best = "", None
    for number, line in enumerate(text.splitlines(), 1):
        if head := re.match(r"\s*\[([\w.-]+)\]", line):
            table = head[1]
            best = number if table in (path, key) else best
        elif (own := re.match(r"\s*([\w.-]+)\s*=", line)) and _joined(table, own[1]) == key:
            return number
    return best


def _joined(table: str, key: str) -> str:
    return f"{table}.{key}" if table else key
