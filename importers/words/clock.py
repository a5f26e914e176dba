"""Clock times in cells, behind a day in any form: "10:33:05.123", "2026-05-02 10:33:05,123", "Mar 14 2026 05:12.4"."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from itertools import pairwise
from typing import get_args

import numpy as np

from dynoan.model.arrays import FloatArray
from dynoan.model.importing import DateOrder
from importers.assumptions.words import CLOCK_SHARE, WRAP_SHARE
from importers.patterns import regex
from importers.words.dates import date_of, in_order, swappable_date

_FORM = regex(r"(?:(?P<day>.*?\S)(?:(?<=\d)[T:]|[\s,]+))??(?:(?P<hours>\d{1,3}):)?(?P<minutes>\d{1,3}):")

#: how far a clock lies off that of Greenwich, as phones write it: the same all day, so it does not matter
_ZONE = regex(r"(?<=\d)\s?(?:[+-]\d\d:?\d\d)$")
#: "20260314T140511.004", "20260314-140511.004"
_BASIC = regex(r"(\d{8})[T_-](\d\d)(\d\d)(\d\d(?:[.,]\d*)?)Z?")
_HALF_DAY = regex(r"\s*([AaPp])\.?[Mm]\.?$")
#: parts of a second set apart as the seconds are: "14:05:11:004"
_PARTS = regex(r"(\d{1,2}:\d{2}:\d{2}):(\d{1,6})(?=\D*$)")
_DAY, _HALF = 86400.0, 43200.0  #: [s]


def clock_seconds(texts: Sequence[str]) -> FloatArray | None:
    """Return clock times in seconds since the first, NaN where a cell holds none, shape (n,) [s].

    None where the cells are no clock times.
    """
    if not texts or (":" not in texts[0] and _BASIC.fullmatch(texts[0].strip()) is None):
        return None
    if _BASIC.fullmatch(texts[0].strip()):
        texts = [_BASIC.sub(r"\1 \2:\3:\4", text.strip()) for text in texts]
    if _ZONE.search(texts[0].strip()):
        texts = [_ZONE.sub("", text.strip()) for text in texts]
    texts = _with_decimals(texts)
    days = _days([text.rpartition(":")[0] for text in texts])
    bases: dict[str, float | None] = {}
    out = np.full(len(texts), np.nan)
    for i, text in enumerate(texts):
        head, _, tail = text.rpartition(":")
        base = bases.setdefault(head, _base(head + ":", days)) if head not in bases else bases[head]
        seconds, half = tail.rstrip("Zz"), _HALF_DAY.search(tail)
        if half is not None:
            seconds = tail[: half.start()]
            base = None if base is None else _of_half_day(base, half[1])
        try:
            out[i] = float(seconds.replace(",", ".")) + (base if base is not None else np.nan)
        except ValueError:
            continue
    if np.isfinite(out).mean() < CLOCK_SHARE:
        return None
    first = float(out[np.isfinite(out)][0])
    return np.asarray(out - first)


def _with_decimals(texts: Sequence[str]) -> Sequence[str]:
    """Return clock times whose parts of a second stand behind a colon with these as decimals.

    Three or six digits are decimals; where they are fewer at times, they count milliseconds.
    """
    if _PARTS.search(texts[0]) is None:
        return texts
    digits = {len(found[2]) for text in texts if (found := _PARTS.search(text))}
    if not (digits <= {3} or digits <= {6} or (len(digits) > 1 and max(digits) == 3)):
        return texts
    return [_PARTS.sub(lambda found: f"{found[1]}.{found[2].rjust(3, '0')}", text) for text in texts]


def unwrapped(time: FloatArray, ranges: Sequence[float]) -> FloatArray:
    """Return a time that runs on where it fell back by one of the ranges of a clock, as at midnight; shape (n,)."""
    if not (time[1:] < time[:-1]).any():
        return time
    step = np.diff(time)
    for whole in ranges:
        back = (step < -WRAP_SHARE * whole) & (step > -whole)
        if back.any():
            return np.asarray(time + whole * np.concatenate([[0], np.cumsum(back)]))
    return time


def _of_half_day(seconds: float, half: str) -> float:
    """Return a time of a clock of twelve hours as one of twenty-four: 12 AM is midnight. [s]"""
    hours = seconds % _DAY // 3600
    if hours > 12:
        return seconds
    return seconds - (hours == 12) * _HALF + (half in "pP") * _HALF


def _days(heads: Sequence[str]) -> dict[str, int]:
    """Return the days before clock times, from the first on; in the order of their parts that puts them nearest."""
    texts = list(dict.fromkeys(found["day"] for head in dict.fromkeys(heads) if (found := _FORM.fullmatch(head + ":"))))
    said = [text for text in texts if text]
    tries = [{text: day for text in said if (day := _number(text, order))} for order in get_args(DateOrder)]
    days = min(tries, key=lambda days: (-len(days), sum(abs(b - a) for a, b in pairwise(days.values()))))
    first = min(days.values(), default=0)
    return {text: day - first for text, day in days.items()}


def _number(text: str, order: DateOrder) -> int | None:
    """Return the number of a day, with its parts in an order where they could be swapped."""
    swapped = swappable_date(text)
    day = in_order(swapped, order) if swapped else date_of(text)
    return date.fromisoformat(day).toordinal() if day else None


def _base(head: str, days: Mapping[str, int]) -> float | None:
    match = _FORM.fullmatch(head.strip())
    if match is None or (match["day"] and match["day"] not in days):
        return None
    day = days[match["day"]] if match["day"] else 0
    return 86400.0 * day + 3600.0 * int(match["hours"] or 0) + 60.0 * int(match["minutes"])
