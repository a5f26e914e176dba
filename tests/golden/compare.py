"""Stored against found: every difference, with its place, in the order of the answer."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

FLOOR = 1e-12
SHOWN = 10


def differences(stored: Any, found: Any, tolerance: float) -> list[str]:
    """Return one line a difference: key path, stored and found.

    A number may differ by `tolerance` of the largest number at the same place of all rows beside it.
    """
    scales: dict[str, float] = {}
    for path, value in _numbers(stored, ""):
        scales[_place(path)] = max(scales.get(_place(path), 0.0), abs(value))
    return list(_walk(stored, found, "", (scales, tolerance)))


def only_added(stored: Any, found: Any, tolerance: float) -> bool:
    """Tell whether nothing but new keys tells the found from the stored."""
    return all(line.endswith(_ADDED) for line in differences(stored, found, tolerance))


def report(command: str, found: list[str]) -> str:
    """Return the first differences of a command, for people."""
    more = f"\n  … and {len(found) - SHOWN} more" if len(found) > SHOWN else ""
    return f"dynoan {command}\n  " + "\n  ".join(found[:SHOWN]) + more


_ADDED = "is new"
_NUMBER = re.compile(r"[-+−]?\d+(?:\.\d+)?(?:e[-+]?\d+)?")


def _numbers(value: Any, path: str) -> Iterator[tuple[str, float]]:
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from _numbers(inner, f"{path}.{key}")
    elif isinstance(value, list):
        for i, inner in enumerate(value):
            yield from _numbers(inner, f"{path}[{i}]")
    elif isinstance(value, int | float) and not isinstance(value, bool):
        yield path, float(value)


def _place(path: str) -> str:
    return re.sub(r"\[\d+\]", "[]", path)


def _walk(stored: Any, found: Any, path: str, how: tuple[dict[str, float], float]) -> Iterator[str]:
    at = path.lstrip(".") or "answer"
    if isinstance(stored, dict) and isinstance(found, dict):
        for key, value in stored.items():
            if key in found:
                yield from _walk(value, found[key], f"{path}.{key}", how)
            else:
                yield f"{at}.{key}: stored {_short(value)}, found nothing"
        yield from (f"{at}.{key}: {_short(found[key])} {_ADDED}" for key in found if key not in stored)
    elif isinstance(stored, list) and isinstance(found, list):
        if len(stored) != len(found):
            yield f"{at}: stored {len(stored)} entries, found {len(found)}"
        for i, (one, other) in enumerate(zip(stored, found, strict=False)):
            yield from _walk(one, other, f"{path}[{i}]", how)
    elif not _same(stored, found, path, how):
        yield f"{at}: stored {_short(stored)}, found {_short(found)}"


def _same(stored: Any, found: Any, path: str, how: tuple[dict[str, float], float]) -> bool:
    if isinstance(stored, str) and isinstance(found, str):
        return stored == found or _same_words(stored, found, how[1])
    if type(stored) is bool or type(found) is bool or not _both_numbers(stored, found):
        return type(stored) is type(found) and stored == found
    scales, tolerance = how
    return bool(abs(stored - found) <= tolerance * scales[_place(path)] + FLOOR)


def _same_words(stored: str, found: str, tolerance: float) -> bool:
    """Tell whether two texts differ in nothing but the last digits of their numbers, and in the sign of zero."""
    if _NUMBER.sub("#", stored) != _NUMBER.sub("#", found):
        return False
    pairs = zip(_NUMBER.findall(stored), _NUMBER.findall(found), strict=True)
    ones = ((float(a.replace("−", "-")), float(b.replace("−", "-"))) for a, b in pairs)
    return all(a == b or abs(a - b) <= tolerance * max(abs(a), abs(b)) for a, b in ones)


def _both_numbers(stored: Any, found: Any) -> bool:
    return isinstance(stored, int | float) and isinstance(found, int | float)


def _short(value: Any) -> str:
    text = repr(value)
    return text if len(text) <= 200 else f"{text[:200]}…"
