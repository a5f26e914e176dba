"""``layouts/NAME.toml``: a team's own description of a stubborn rig file."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from dynoan.library.tables import TomlTable
from dynoan.library.toml_text import parse_toml
from dynoan.model.importing import LayoutCard
from dynoan.model.shock import ADJUSTERS
from dynoan.model.sweep import CHANNEL_KINDS

_OTHERS = ("compression", "rebound", "direction", "run", "shock", "pack")  #: columns that are no channel
_KEYS = ("header", "columns", "units", "positive", "skip", "delimiter", "decimal", "rate", "dates")


def layout_from_text(text: str, file: str, name: str) -> LayoutCard:
    """Return the layout card that a layout file describes.

    Raises
    ------
    QuantityError
        If the text is not TOML, or a key is unknown, missing, or of the wrong kind; file and key are named.
    """
    top = TomlTable(parse_toml(text, file), file, _KEYS)
    header, columns = top.texts("header"), _texts(top, "columns", (*CHANNEL_KINDS, *ADJUSTERS, *_OTHERS))
    if not header:
        raise top.fault(
            "header", "missing", hint='list column names that tell this file, such as header = ["Pos", "Load"]'
        )
    positive: Any = top.choice("positive", ("compression", "rebound"))
    decimal: Any = top.choice("decimal", (".", ","))
    rate = top.quantity("rate", "frequency")
    if rate is not None and not 1.0 <= rate <= 1e6:
        raise top.fault("rate", f"'{top.data['rate']}' is no rate of a rig", hint='write it like rate = "1000 Hz"')
    delimiter: Any = top.choice("delimiter", (",", ";", "|", "\t", "blanks"))
    units, skip = _texts(top, "units", CHANNEL_KINDS), top.whole("skip", 0, 10_000)
    dates: Any = top.choice("dates", ("day-first", "month-first"))
    return LayoutCard(name, header, columns, units, positive, skip, delimiter, decimal, rate, dates)


def _texts(top: TomlTable, key: str, known: Iterable[str]) -> dict[str, str]:
    table = top.table(key, known)
    return {} if table is None else {channel: table.text(channel) or "" for channel in table.data}
