"""A sweep's line in a list, and the card of its file that holds it."""

from __future__ import annotations

import operator
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import chain
from typing import Any

from dynoan.model.dates import tidy_date

_DAY = re.compile(r"\d{4}-\d\d-\d\d", re.ASCII)  # as nearly all are kept
_MAYBE_TEXT, _MAYBE_NUMBER = (str, type(None)), (float, int, type(None))
#: a card's values, in the order of `SweepRecord`'s fields, and the types they may have in JSON
CARD_KINDS: dict[str, tuple[type, ...]] = {
    "shock": _MAYBE_TEXT, "pack": _MAYBE_TEXT, "clicks": (dict,), "layout": (str,), "date": _MAYBE_TEXT,
    "temperature": _MAYBE_NUMBER, "gas_pressure": _MAYBE_NUMBER, "samples": (int,), "source": (str,), "sha256": (str,),
    "part": (str,), "added": (str,),
}  # fmt: skip
_WHOLE = {int}


@dataclass(frozen=True, slots=True)  # a list holds ten thousand and more
class SweepRecord:
    """What a list of the library shows of one sweep."""

    id: str
    shock: str | None
    pack: str | None
    clicks: Mapping[str, int]  #: as the shock's file counts them
    layout: str
    date: str | None
    temperature: float | None  #: [°C]
    gas_pressure: float | None  #: gauge [Pa]
    samples: int
    source: str  #: name of the file it came from
    sha256: str  #: of that file's bytes
    part: str = ""  #: which part of that file
    added: str = ""  #: ISO 8601, UTC
    file: str = ""  #: path inside the library


def record_of(values: Sequence[Any], identity: str, file: str) -> SweepRecord:
    """Return a list's line from a card's values in their order; raise ValueError or TypeError where it is not one."""
    # Ten thousand of these are made for a list, so types are looked up in one go.
    if not _sound_card(tuple(map(type, values))):
        raise TypeError("a value of the wrong type")
    record = SweepRecord(*[identity, *values, file])
    if record.date is not None and not _DAY.fullmatch(record.date):
        record = replace(record, date=tidy_date(record.date))
    if not _WHOLE.issuperset(map(type, record.clicks.values())):
        raise TypeError("a click that is no whole number")
    return record


def records_of(identities: Sequence[str], columns: Sequence[Sequence[Any]], files: Sequence[str]) -> list[SweepRecord]:
    """Return many lines of a list from a column of each of their values; raise where one is not what `record_of` takes.

    Whole columns are looked at and filled in, past what makes a line frozen: ten thousand take 12 ms, not 18.
    """
    for column, kinds in zip(columns, CARD_KINDS.values(), strict=True):
        if not frozenset(kinds).issuperset(map(type, column)):
            raise TypeError("a value of the wrong type")
    by_name = dict(zip(CARD_KINDS, columns, strict=True))
    if not _WHOLE.issuperset(map(type, chain.from_iterable(map(dict.values, by_name["clicks"])))):
        raise TypeError("a click that is no whole number")
    tidied = {day: tidy_date(day) for day in set(by_name["date"]) if day is not None and not _DAY.fullmatch(day)}
    if tidied:
        by_name["date"] = [tidied.get(day, day) for day in by_name["date"]]
    records = [object.__new__(SweepRecord) for _ in identities]
    for name, column in (("id", identities), *by_name.items(), ("file", files)):
        if len(column) != len(records):
            raise ValueError("a column of another length")
        for _ in map(getattr(SweepRecord, name).__set__, records, column):
            pass
    return records


def values_of(record: SweepRecord) -> list[Any]:
    """Return a card's values in their order."""
    return [getattr(record, name) for name in CARD_KINDS]


@lru_cache(maxsize=256)  # a hostile list may hold any types
def _sound_card(kinds: tuple[type, ...]) -> bool:
    wanted = tuple(CARD_KINDS.values())
    return len(kinds) == len(wanted) and all(map(operator.contains, wanted, kinds))
