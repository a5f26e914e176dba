"""The stored answers: one packed JSON file a ground and kind, the same bytes for the same answers."""

from __future__ import annotations

import gzip
import json
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from tests.golden.line import Line

FOLDER = Path(__file__).parent / "answers"
Answers = dict[str, Any]


def file_of(kind: str, ground: str) -> Path:
    """Return the file that holds the answers of a kind ("json" or "plain") of one ground."""
    return FOLDER / f"{kind}-{ground}.json.gz"


@cache
def load(kind: str, ground: str) -> Answers:
    """Return the stored answers by slug; none where nothing is stored."""
    path = file_of(kind, ground)
    return json.loads(gzip.decompress(path.read_bytes())) if path.exists() else {}


def stored(kind: str, line: Line) -> Any:
    """Return the stored answer of a line.

    Raises
    ------
    LookupError
        If none is stored.
    """
    found = load(kind, line.ground).get(line.slug)
    if found is None:
        raise LookupError(f"no {kind} answer of {line.slug} is stored; python -m tests.golden.record {line.slug}")
    return found


def save(kind: str, ground: str, answers: Mapping[str, Any]) -> None:
    """Store the answers of one ground."""
    FOLDER.mkdir(exist_ok=True)
    body = json.dumps(dict(sorted(answers.items())), ensure_ascii=False, separators=(",", ":"))
    file_of(kind, ground).write_bytes(gzip.compress(body.encode(), 9, mtime=0))
