"""One file that was dropped, what a person says of it, and its card on the disk."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from dynoan.jobs.read.look import Brought
from dynoan.jobs.read.options import Stated, read_options
from dynoan.library.names import printable
from dynoan.model.dates import iso_date

MOST_NAME = 120  #: characters of a file's name that are kept
FACTS = ("shock", "pack", "clicks", "date", "positive", "rate", "decimal", "delimiter")


@dataclass(frozen=True)
class SaidOfFile:
    """What a person says of a dropped file; empty where he says nothing."""

    plain: dict[str, str] = field(default_factory=dict)  #: by one of `FACTS`
    units: dict[str, str] = field(default_factory=dict)  #: by channel
    columns: dict[str, str] = field(default_factory=dict)  #: by channel

    def brought(self, name: str, data: bytes) -> Brought:
        """Return the file with what is said of it.

        Raises
        ------
        DynoanError
            If something said cannot be.
        """
        said: Any = {key: self.plain[key] for key in FACTS if self.plain.get(key) and key != "date"}
        stated: Stated = said | {"units": self.units, "columns": self.columns}
        date = self.plain.get("date")
        return Brought(name, data, read_options(stated), iso_date(date, "date") if date else None)


@dataclass(frozen=True)
class DroppedFile:
    """One of them."""

    id: str
    name: str
    size: int
    facts: SaidOfFile
    order: float  #: when it came


def card_dict(file: DroppedFile) -> dict[str, Any]:
    """Return a file's card as JSON holds it."""
    return {"name": file.name, "size": file.size, "order": file.order, **vars(file.facts)}


def seal_of(card: Mapping[str, Any]) -> str:
    """Return the checksum that a card is written with."""
    return hashlib.sha256(json.dumps(card, sort_keys=True).encode()).hexdigest()


def card_from(data: Any, file_id: str = "") -> DroppedFile | None:
    """Return a file from its card; None where that is none."""
    try:
        facts = SaidOfFile(*({str(k): str(v) for k, v in data[part].items()} for part in ("plain", "units", "columns")))
        return DroppedFile(file_id, shown_name(str(data["name"])), int(data["size"]), facts, float(data["order"]))
    except (ValueError, KeyError, TypeError, AttributeError):
        return None


def shown_name(name: str) -> str:
    """Return a file's name as it was sent, without folders and without what cannot be seen."""
    last = re.split(r"[/\\]", name)[-1]
    text = printable(last.encode("utf-8", "replace").decode())
    return text if len(text) <= MOST_NAME else f"{text[: MOST_NAME // 2]}…{text[-MOST_NAME // 2 + 1 :]}"
