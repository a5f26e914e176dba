"""Values put into the text of a file that people edit: remarks, order and everything else stay as they are."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Mapping
from typing import Any

from dynoan.errors import QuantityError

Value = str | int | float
_HEADER = re.compile(r"^\s*\[\s*([^\[\]]+?)\s*\]\s*(#.*)?$")


def with_values(text: str, values: Mapping[tuple[str, ...], Value | None]) -> str:
    """Return a TOML text with values in the place of those it has; None takes a key out.

    Parameters
    ----------
    text
        The file's text, which may be empty.
    values
        By the key's path, such as ``("front", "spring")``.

    Raises
    ------
    QuantityError
        If the text is no TOML, or is written in a way in which a value cannot be put in without touching the rest.
    """
    wanted = _loaded(text)
    changed = text
    for path, value in values.items():
        _put(wanted, path, value)
        changed = _with_value(changed, path, value)
    if _loaded(changed) != wanted:
        keys = ", ".join(".".join(path) for path in values)
        raise QuantityError("written in an unusual way in that file", where=keys, hint="change it there by hand")
    return changed


def _loaded(text: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text)
    except (tomllib.TOMLDecodeError, RecursionError) as error:
        raise QuantityError(f"that file cannot be read ({error})", hint="mend it by hand first") from None


def _put(data: dict[str, Any], path: tuple[str, ...], value: Value | None) -> None:
    for part in path[:-1]:
        data = data.setdefault(part, {})
        if not isinstance(data, dict):
            raise QuantityError(f"'{part}' is no table in that file", where=".".join(path))
    if value is None:
        data.pop(path[-1], None)
    else:
        data[path[-1]] = value


def _with_value(text: str, path: tuple[str, ...], value: Value | None) -> str:
    lines = text.splitlines()
    start, end = _table(lines, path[:-1])
    key = re.compile(rf"^\s*(?:{re.escape(path[-1])}|\"{re.escape(path[-1])}\")\s*=\s*")
    at = next((i for i in range(start, end) if key.match(lines[i])), None)
    if at is None and len(path) > 1 and (inline := _inline(lines, path)) is not None:
        lines[inline] = _within(lines[inline], path[-1], value)
    elif at is not None and value is None:
        del lines[at]
    elif at is not None:
        found = key.match(lines[at])
        assert found is not None
        assert value is not None
        lines[at] = found[0] + _written(value) + _remark(lines[at][found.end() :])
    elif value is not None:
        lines[start:end] = _added(lines[start:end], path, value, new=start == end == len(lines))
    return "\n".join(lines) + "\n"


def _table(lines: list[str], path: tuple[str, ...]) -> tuple[int, int]:
    """Return the lines of a table without its header; at the end of the text where there is none."""
    heads = [(i, _parts(found[1])) for i, line in enumerate(lines) if (found := _HEADER.match(line))]
    if not path:
        return 0, heads[0][0] if heads else len(lines)
    for i, name in heads:
        if name == path:
            return i + 1, next((j for j, _ in heads if j > i), len(lines))
    return len(lines), len(lines)


def _inline(lines: list[str], path: tuple[str, ...]) -> int | None:
    """Return the line of a table written in braces that holds a key; None where it is written otherwise."""
    start, end = _table(lines, path[:-2])
    head = re.compile(rf"^\s*{re.escape(path[-2])}\s*=\s*\{{.*\}}\s*(#.*)?$")
    return next((i for i in range(start, end) if head.match(lines[i])), None)


def _within(line: str, key: str, value: Value | None) -> str:
    """Return a line with a table in braces, one of its keys changed."""
    before, _, rest = line.partition("{")
    inside, _, after = rest.rpartition("}")
    held = [part.strip() for part in inside.split(",") if part.strip()]
    kept = [part for part in held if not re.match(rf"{re.escape(key)}\s*=", part)]
    place = next((i for i, part in enumerate(held) if part not in kept), len(kept))
    if value is not None:
        kept.insert(place, f"{_key(key)} = {_written(value)}")
    return f"{before}{{ {', '.join(kept)} }}{after}"


def _parts(name: str) -> tuple[str, ...]:
    return tuple(part.strip().strip("\"'") for part in name.split("."))


def _added(lines: list[str], path: tuple[str, ...], value: Value, *, new: bool) -> list[str]:
    line = f"{_key(path[-1])} = {_written(value)}"
    if new and path[:-1]:
        return ["", f"[{'.'.join(map(_key, path[:-1]))}]", line]
    last = max((i for i, text in enumerate(lines) if text.strip()), default=-1)
    return [*lines[: last + 1], line, *lines[last + 1 :]]


def _key(name: str) -> str:
    return name if re.fullmatch(r"[A-Za-z0-9_-]+", name) else json.dumps(name, ensure_ascii=False)


def _written(value: Value) -> str:
    return json.dumps(value, ensure_ascii=False) if isinstance(value, str) else repr(value)


def _remark(rest: str) -> str:
    """Return the remark behind a value of one line."""
    for i, character in enumerate(rest):
        if character == "#":
            try:
                tomllib.loads(f"x = {rest[:i]}")
            except tomllib.TOMLDecodeError:
                continue
            return f"  {rest[i:]}"
    return ""
