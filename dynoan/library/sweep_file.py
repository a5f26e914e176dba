"""One sweep as one file: a block of text in front, then HDF5.

The block is an HDF5 user block, so any HDF5 reader opens the file and sees nothing of it::

    dynoan sweep 1 SEAL\n      format version, and the SHA-256 of every byte after this line
    {…,"seal":"…"}\n          the card: what a list shows, as JSON, so that listing needs no HDF5; sealed by itself
    {…}\n                      the record: all that is known beside the channels, as JSON
    blanks                     up to 512 · 2^k bytes, where the HDF5 part starts

The seal finds any flipped bit or lost tail before HDF5 is asked to understand it; the card's own seal does that for a
list, which reads no further. Cards as earlier versions wrote them have none: then the whole file is held. A new format
gets a new version number; this program reads versions up to `VERSION` and refuses later ones by number.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Mapping
from dataclasses import asdict, dataclass, fields
from typing import Any

from dynoan.errors import LibraryError
from dynoan.library import hdf5
from dynoan.library.sweep_card import CARD_KINDS, SweepRecord, record_of
from dynoan.model.dates import tidy_date
from dynoan.model.sweep import CHANNEL_KINDS, ChannelDecision, Source, Sweep
from dynoan.version import __version__

VERSION = 1
MAX_FILE = 2 << 30  #: [bytes]
HEAD = 4096  #: bytes that hold nearly every card
MAX_CARD = 1 << 16
MAX_BLOCK = 4 << 20
_FIRST_LINE = re.compile(rb"dynoan sweep (\d{1,6}) ([0-9a-f]{64})\n")
_SEALED = re.compile(rb'(\{.*),"seal":"([0-9a-f]{16})"\}', re.DOTALL)
_SIGNATURE = b"\x89HDF\r\n\x1a\n"
_UNITS = {"time": "s", "length": "m", "velocity": "m/s", "force": "N", "temperature": "°C", "pressure": "Pa"}


class LaterFormat(LibraryError):
    """A sweep file of a format version that this program does not know."""


@dataclass(frozen=True)
class Kept:
    """A sweep file's whole content."""

    sweep: Sweep
    original: bytes
    added: str  #: ISO 8601, UTC


def encode(kept: Kept) -> bytes:
    """Return the bytes of a sweep file."""
    sweep = kept.sweep
    units = {name: _UNITS.get(CHANNEL_KINDS.get(name, ""), "") for name in sweep.channels}
    record = json.dumps(_record(kept), ensure_ascii=True, allow_nan=False)
    image = hdf5.to_image(hdf5.Content(sweep.channels, kept.original), units, record)
    card = _sealed(json.dumps(_card(kept), ensure_ascii=True, allow_nan=False, separators=(",", ":")))
    text = f"{card}\n{record}\n".encode()
    block = 512
    while block < 80 + len(text):
        block *= 2
    if block > MAX_BLOCK or len(card) > MAX_CARD - 100:
        raise LibraryError(
            "its names are too long to keep", where=sweep.source.name, hint="shorten shock, pack or file name"
        )
    text = text.ljust(block - 80)
    seal = hashlib.sha256(text)
    seal.update(image)
    return b"".join([b"dynoan sweep %d %s\n" % (VERSION, seal.hexdigest().encode()), text, image])


def decode(data: bytes, file: str) -> Kept:
    """Return what a sweep file holds.

    Raises
    ------
    LibraryError
        If it is no sweep file, of a later format, or damaged anywhere.
    """
    start = hold_seal(data, file)
    block = _hdf5_start(data, file)
    content = hdf5.from_image(data[block:], file)
    try:
        record = json.loads(data[start.end() : block].split(b"\n")[1])
        return _kept(content, record)
    except (KeyError, TypeError, ValueError, IndexError, AttributeError, RecursionError) as error:
        raise LibraryError(f"its record cannot be understood ({str(error)[:100]})", where=file) from None


def hold_seal(data: bytes, file: str) -> re.Match[bytes]:
    """Return the first line of a whole sweep file, or raise `LibraryError` where any byte after it has changed."""
    start = _first_line(data, file)
    if hashlib.sha256(memoryview(data)[start.end() :]).hexdigest().encode() != start[2]:
        raise LibraryError(
            "damaged (its checksum does not match)", where=file, hint="add the rig's file again, or restore a copy"
        )
    return start


def is_sealed(head: bytes, file: str) -> bool:
    """Tell whether the card at the beginning of a sweep file is sealed by itself, and the seal holds."""
    found = _SEALED.fullmatch(head[_first_line(head, file).end() :].partition(b"\n")[0])
    return found is not None and _card_seal(found[1]) == found[2]


def _sealed(card: str) -> str:
    return f'{card[:-1]},"seal":"{_card_seal(card[:-1].encode()).decode()}"}}'


def _card_seal(card: bytes) -> bytes:
    return hashlib.sha256(card).hexdigest()[:16].encode()


def read_card(head: bytes, file: str, identity: str) -> SweepRecord:
    """Return a sweep's line in the list from the first bytes of its file; no seal is checked here."""
    start = _first_line(head, file)
    try:
        card = json.loads(head[start.end() : head.index(b"\n", start.end())])
        return record_of([card[name] for name in CARD_KINDS], identity, file)
    except (KeyError, TypeError, ValueError, AttributeError, RecursionError):
        raise LibraryError("damaged (its card cannot be read)", where=file, hint="add the rig's file again") from None


def _first_line(data: bytes, file: str) -> re.Match[bytes]:
    start = _FIRST_LINE.match(data[:128])
    if start is None:
        raise LibraryError(
            "no sweep file of dynoan, or damaged at its start", where=file, hint="add the rig's file again"
        )
    if int(start[1]) > VERSION:
        raise LaterFormat(f"{file}: format version {int(start[1])}, but dynoan {__version__} reads up to {VERSION}: "
                           "update dynoan")  # fmt: skip
    return start


def _hdf5_start(data: bytes, file: str) -> int:
    block = 512
    while block <= MAX_BLOCK:
        if data[block : block + 8] == _SIGNATURE:
            return block
        block *= 2
    raise LibraryError("has no HDF5 part", where=file)


def _card(kept: Kept) -> dict[str, Any]:
    s = kept.sweep
    return {
        "shock": s.shock, "pack": s.pack, "clicks": dict(s.clicks), "layout": s.layout, "date": s.date,
        "temperature": s.temperature, "gas_pressure": s.gas_pressure, "samples": s.samples,
        "source": s.source.name, "sha256": s.source.sha256, "part": s.source.part, "added": kept.added,
    }  # fmt: skip


def _record(kept: Kept) -> dict[str, Any]:
    s = kept.sweep
    return _card(kept) | {
        "source": asdict(s.source), "stroke": s.stroke, "rate": s.rate, "gas_removed": s.gas_removed,
        "decisions": {name: asdict(d) for name, d in s.decisions.items()}, "facts": dict(s.facts),
        "warnings": list(s.warnings), "written_by": f"dynoan {__version__}",
    } | ({} if s.rod is None else {"rod": s.rod})  # fmt: skip


def _kept(content: hdf5.Content, record: Mapping[str, Any]) -> Kept:
    lengths = {len(values) for values in content.channels.values()}
    if "force" not in content.channels or len(lengths) != 1:
        raise ValueError("channels of unlike length, or no force")
    if record["layout"] not in ("trace", "peaks"):
        raise ValueError(f"layout {record['layout']!r}")
    source = Source(**{f.name: _firm(record["source"][f.name], str) for f in fields(Source)})
    if hashlib.sha256(content.original).hexdigest() != source.sha256:
        raise ValueError("the original bytes do not match their SHA-256")
    sweep = Sweep(
        layout=record["layout"], channels=content.channels, source=source, clicks=_clicks(record["clicks"]),
        decisions={_firm(k, str): _decision(d) for k, d in record["decisions"].items()},
        facts={_firm(k, str): _firm(v, str) for k, v in record["facts"].items()},
        warnings=tuple(_firm(w, str) for w in record["warnings"]), gas_removed=_optional(record["gas_removed"], bool),
        **{key: _optional(record[key], str) for key in ("shock", "pack")},
        date=None if record["date"] is None else tidy_date(_firm(record["date"], str)),
        **{key: _optional(record[key], (int, float)) for key in ("temperature", "gas_pressure", "stroke", "rate")},
        rod=_optional(record.get("rod"), (int, float)),
    )  # fmt: skip
    return Kept(sweep, content.original, _firm(record["added"], str))


def _decision(found: Mapping[str, Any]) -> ChannelDecision:
    return ChannelDecision(column=_firm(found["column"], str), unit=_firm(found["unit"], str),
                           sign=_firm(found["sign"], int), evidence=_firm(found["evidence"], str))  # fmt: skip


def _clicks(found: Mapping[str, Any]) -> dict[str, int]:
    return {_firm(name, str): _firm(click, int) for name, click in found.items()}


def _firm(value: Any, kind: Any) -> Any:
    if not isinstance(value, kind) or (isinstance(value, bool) and kind is not bool):
        raise TypeError(f"{value!r:.40} is of the wrong type")
    return value


def _optional(value: Any, kind: Any) -> Any:
    return None if value is None else _firm(value, kind)
