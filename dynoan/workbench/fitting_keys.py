"""Under which keys fitted curves and click maps are kept: what they were made of, and the code that made them."""

from __future__ import annotations

import hashlib
import json
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from dynoan.library import SweepRecord


def told_key(record: SweepRecord) -> str:
    """Return what hangs together with what a sweep tells beside its curve."""
    return json.dumps(["told", stamp(record)])


def stamp(record: SweepRecord) -> list[str]:
    """What a curve depends on: the sweep, and what an `edit` may change in it."""
    clicks = sorted(record.clicks.items())
    return [record.id, *map(str, (record.shock, record.pack, clicks, record.date, record.temperature))]


def key_of(content: str) -> str:
    """Return the key of contents under the code as it is."""
    return hashlib.sha256(f"{code_mark()}|{content}".encode()).hexdigest()


@cache
def code_mark() -> str:
    """A mark of the code that makes curves and maps, so that a newer program does not use an older one's caches."""
    import dynoan.analysis

    digest = hashlib.sha256()
    folder = Path(dynoan.analysis.__file__).parent
    for file in sorted((*folder.rglob("*.py"), *(folder.parent / "model").glob("*.py"))):
        digest.update(file.read_bytes())
    return digest.hexdigest()
