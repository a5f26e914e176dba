"""What a user states of a rig's file, from values as people give them; it wins over what the file says."""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any, TypedDict, get_args

from dynoan.errors import CallError, QuantityError
from dynoan.jobs.answering import quantity
from dynoan.model.importing import DateOrder, ReadOptions
from dynoan.model.shock import ADJUSTERS, parse_clicks
from dynoan.model.sweep import CHANNEL_KINDS
from dynoan.units import FACTORS, normal_unit

if TYPE_CHECKING:
    from dynoan.workbench import Workbench

DELIMITERS = (",", ";", "|", "\t", "blanks")
DECIMALS = (".", ",")
SLOWEST, FASTEST = 1.0, 1e7  #: sample rates of a rig [Hz]; common practice, no source
#: columns that are no channel
OTHER_COLUMNS = ("compression", "rebound", "direction", "run", "shock", "pack", *ADJUSTERS)
_MARKS = {
    "comma": ",", "semicolon": ";", "tab": "\t", "\\t": "\t", "pipe": "|", "blank": "blanks", "blanks": "blanks",
    "space": "blanks", " ": "blanks", "point": ".", "dot": ".",
}  # fmt: skip


class Stated(TypedDict, total=False):
    """What may be stated of a file, as people give it; what is None or left out is left to the file."""

    shock: str | None
    pack: str | None
    clicks: str | Mapping[str, int] | None  #: as the shock counts: "lsc=6,lsr=8"
    positive: str | None  #: the direction the file counts positive: "compression" or "rebound"
    units: Mapping[str, str] | Iterable[str] | None  #: of channels or columns: {"force": "lbf"}, "Load A=lbf", "3=mm"
    columns: Mapping[str, str] | Iterable[str] | None  #: of channels, by name or number: {"force": "Load"}
    rate: float | str | None  #: sample rate [Hz]
    delimiter: str | None  #: what stands between cells: , ; | tab or blanks
    decimal: str | None  #: . or ,
    dates: str | None  #: how 05/02/2026 is meant: "day-first" or "month-first"


def read_options(stated: Stated) -> ReadOptions:
    """Return what is stated as the importers want it.

    Raises
    ------
    CallError
        If a value does not have the form wanted; `part` is "shock", "pack", "clicks", "unit", "column", "positive",
        "delimiter", "decimal" or "dates".
    QuantityError
        If the rate is none.
    """
    given: Any = dict.fromkeys(Stated.__annotations__) | stated
    of_channels, of_columns = _units_apart(given["units"])
    return ReadOptions(
        shock=asked_name(given["shock"], "shock"), pack=asked_name(given["pack"], "pack"),
        clicks=asked_clicks(given["clicks"]) or {},
        positive=_one_of(given["positive"], "positive", ("compression", "rebound")),
        units=_pairs(of_channels, "unit", "force=lbf", CHANNEL_KINDS), column_units=of_columns,
        columns=_pairs(given["columns"], "column", "force=Load", (*CHANNEL_KINDS, *OTHER_COLUMNS)),
        rate=_rate(given["rate"]), delimiter=_one_of(given["delimiter"], "delimiter", DELIMITERS),
        decimal=_one_of(given["decimal"], "decimal", DECIMALS),
        dates=_one_of(given["dates"], "dates", get_args(DateOrder)),
    )  # fmt: skip


def with_layouts(options: ReadOptions, bench: Workbench | None) -> ReadOptions:
    """Return options with the team's own layouts, where a library is at hand."""
    return options if bench is None else replace(options, layouts=bench.layouts())


def asked_name(value: str | None, part: str) -> str | None:
    """Return the name of a shock or a pack; `CallError` where it reads as clicks, since nobody could ask for it."""
    if value and "=" in value and _are_clicks(value):
        raise CallError(f"'{value}' are clicks, not a name", part=part, need="clicks")
    return value


def _are_clicks(text: str) -> bool:
    try:
        return bool(parse_clicks(text))
    except CallError:
        return False


def asked_clicks(value: str | Mapping[str, int] | None) -> dict[str, int] | None:
    """Return clicks from text such as "lsc=6,lsr=8" or a mapping; None where nothing is said of them.

    Raises
    ------
    CallError
        If it is neither; `part` is "clicks".
    """
    if value is None:
        return None
    text = value if isinstance(value, str) else ",".join(f"{name}={click}" for name, click in value.items())
    clicks = parse_clicks(text)
    if text.strip() and not clicks:
        raise CallError(f"'{text}' names no clicks", hint="write them like lsc=6,lsr=8", part="clicks")
    return clicks


def _rate(value: float | str | None) -> float | None:
    if value is None or value == "":
        return None
    rate = quantity(value, "frequency", "rate")
    if math.isnan(rate) or not SLOWEST <= rate <= FASTEST:
        raise QuantityError(f"'{value}' is no rate of a rig", hint="write it like '1000 Hz'", part="rate")
    return rate


def _one_of(text: str | None, part: str, allowed: Collection[str]) -> Any:
    if text is None:
        return None
    mark = _MARKS.get(text.lower(), text)
    if mark not in allowed:
        names = ", ".join(sorted(m.replace("\t", "tab") for m in allowed))
        raise CallError(f"'{text}': wanted one of {names}", part=part)
    return mark


def _units_apart(given: Mapping[str, str] | Iterable[str] | None) -> tuple[list[str], dict[str, str]]:
    """Return what states units of channels, as it stands, and the units of columns; what is no unit is of a channel."""
    of_channels: list[str] = []
    of_columns: dict[str, str] = {}
    for text in _texts(given):
        column, _, unit = (part.strip() for part in text.rpartition("="))
        if column and column.partition("=")[0].strip().lower() not in CHANNEL_KINDS and _is_unit(unit):
            of_columns[column] = unit
        else:
            of_channels.append(text)
    return of_channels, of_columns


def _is_unit(text: str) -> bool:
    """Whether a text is a unit that a channel may have."""
    unit = normal_unit(text.lower())
    return any(unit in FACTORS[kind] for kind in CHANNEL_KINDS.values() if kind in FACTORS) or unit in (
        "°c",
        "°f",
        "c",
        "f",
    )


def _pairs(
    given: Mapping[str, str] | Iterable[str] | None, part: str, example: str, known: Iterable[str]
) -> dict[str, str]:
    """Return values by channel, from a mapping or from texts such as "force=lbf"; the last of a channel counts."""
    names, found = tuple(known), {}
    for text in _texts(given):
        channel, equals, value = text.partition("=")
        channel = channel.strip().lower()
        if not equals or not value.strip() or channel not in names:
            raise CallError(
                f"'{text}': wanted CHANNEL=VALUE such as {example}, with one of {', '.join(names)}", part=part
            )
        found[channel] = value.strip()
    return found


def _texts(given: Mapping[str, str] | Iterable[str] | None) -> Iterable[str]:
    if isinstance(given, Mapping):
        return [f"{channel}={value}" for channel, value in given.items()]
    return [given] if isinstance(given, str) else given or ()
