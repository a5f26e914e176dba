"""What a call left, without what cannot be the same twice: versions, moments, days, folders; long arrays thinned."""

from __future__ import annotations

import datetime
import json
import math
import re
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from tests.golden.line import Line
from tests.golden.pages import page_text
from tests.golden.running import Ran

#: keys whose value is another on every run, or with every version
UNSTEADY = frozenset({"dynoan", "seconds", "bytes", "added", "recorded"})
MOMENT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z")
#: a run that goes past midnight has two days of today
STARTED = datetime.date.today()
MADE = re.compile(r"\b\d{1,2} [A-Z][a-z]+ \d{4}, \d\d:\d\d\b")
LONG_NUMBERS, KEPT_NUMBERS = 40, 16
LONG_ROWS, KEPT_ROWS = 16, 8
DIGITS = 12


def json_answer(line: Line, ran: Ran) -> dict[str, Any]:
    """Return the exit code, the settled JSON object (None where there is none) and the lines on standard error."""
    found = json.loads(ran.out) if ran.out.strip() else None
    return {"exit": ran.code, "json": _settle(found, line, ran.folder), "stderr": _words(line, ran, ran.err)}


def plain_answer(line: Line, ran: Ran) -> dict[str, Any]:
    """Return the exit code, the text for people, and what the files left hold."""
    files = {name: _file(line, ran, Path(name).suffix, data) for name, data in ran.files.items()}
    return {
        "exit": ran.code,
        "stdout": _words(line, ran, ran.out),
        "stderr": _words(line, ran, ran.err),
        "files": files,
    }


def _words(line: Line, ran: Ran, text: str) -> list[str]:
    return _text(text, line, ran.folder).splitlines()


def _text(text: str, line: Line, folder: Path) -> str:
    for name in sorted({str(folder), str(folder.resolve())}, key=len, reverse=True):
        text = text.replace(name, "<ground>")
    text = MADE.sub("<made>", MOMENT.sub("<moment>", text))
    if line.today:
        days = "|".join({STARTED.isoformat(), datetime.date.today().isoformat()})
        text = re.sub(rf"({days})([T ]\d\d:\d\d(:\d\d)?)?", "<today>", text)
    return text


def _file(line: Line, ran: Ran, suffix: str, data: bytes) -> Any:
    if suffix == ".png":
        return "picture" if data.startswith(b"\x89PNG") and len(data) > 10_000 else "no picture"
    text = _text(data.decode(), line, ran.folder)
    shown = page_text(text, suffix)
    return shown if isinstance(shown, list) else _settle(shown, line, ran.folder)


def _settle(value: Any, line: Line, folder: Path) -> Any:
    if isinstance(value, Mapping):
        return {k: _settle(v, line, folder) for k, v in value.items() if k not in UNSTEADY}
    if isinstance(value, list):
        return _sequence(value, line, folder)
    if isinstance(value, str):
        return _text(value, line, folder)
    return rounded(value) if isinstance(value, float) else value


def rounded(number: float) -> float:
    """Return a number with as many digits as are kept."""
    return float(f"{number:.{DIGITS}g}")


def _sequence(values: list[Any], line: Line, folder: Path) -> Any:
    if len(values) > LONG_NUMBERS and all(_is_number(v) for v in values):
        return _thinned(values)
    if len(values) > LONG_ROWS and all(isinstance(v, Mapping) for v in values):
        every = math.ceil(len(values) / KEPT_ROWS)
        kept = [_settle(v, line, folder) for v in values[::every]]
        return {"rows": len(values), "every": every, "kept": kept, "sums": _sums(values)}
    return [_settle(v, line, folder) for v in values]


def _thinned(values: Sequence[float]) -> dict[str, Any]:
    """Return every so many of the numbers, and means that miss none: of what is above 0, of what is below, rms."""
    every, n = math.ceil(len(values) / KEPT_NUMBERS), len(values)
    above, below = (math.fsum(v for v in values if v * sign > 0) / n for sign in (1, -1))
    rms = math.sqrt(math.fsum(v * v for v in values) / n)
    kept = [rounded(v) for v in values[::every]]
    return {"numbers": n, "every": every, "kept": kept, "means": [rounded(v) for v in (above, below, rms)]}


def _sums(rows: Sequence[Mapping[str, Any]]) -> dict[str, float]:
    """Return, for each key whose value is a number in every row, the sum of sizes."""
    keys = [k for k in rows[0] if k not in UNSTEADY and all(_is_number(row.get(k)) for row in rows)]
    return {key: rounded(math.fsum(abs(row[key]) for row in rows)) for key in keys}


def _is_number(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)
