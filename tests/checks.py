"""Published values from ``fixtures/check-values*.toml``, with source and status shown where a check fails."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest

FIXTURES = Path(__file__).parents[1] / "fixtures"
FILES = (FIXTURES / "check-values.toml", FIXTURES / "check-values-2.toml")


@dataclass(frozen=True)
class Check:
    """One published value."""

    id: str
    quantity: str
    inputs: dict[str, Any]
    expected: Any
    rel: float
    abs: float
    source: str
    status: str

    def holds(self, value: Any) -> None:
        """Fail, naming the source, where `value` is not the published one within its tolerance."""
        np.testing.assert_allclose(
            np.asarray(value, float), np.asarray(self.expected, float), rtol=max(self.rel, 1e-15), atol=self.abs,
            err_msg=f"{self.id} {self.quantity}; source: {self.source}; status: {self.status}",
        )  # fmt: skip


@cache
def _content() -> dict[str, Any]:
    parts = [tomllib.loads(file.read_text(encoding="utf-8")) for file in FILES]
    return {key: [entry for part in parts for entry in part.get(key, ())] for key in ("check", "dataset")}


def check(name: str) -> Check:
    """The check of that id. A value of status 'practice' is no truth and refused."""
    entry = next(c for c in _content()["check"] if c["id"] == name)
    assert "practice" not in entry["status"], f"{name} is common practice, not a truth to test against"
    return Check(
        name, entry["quantity"], entry["inputs"], entry["expected"], entry.get("rel_tol", 0.0),
        entry.get("abs_tol", 0.0), entry["source"], entry["status"],
    )  # fmt: skip


def checks(names: Sequence[str]) -> pytest.MarkDecorator:
    """Parametrise a test over checks; the id of each test shows the status of its source."""
    found = [check(name) for name in names]
    return pytest.mark.parametrize("published", found, ids=[f"{c.id}: {c.status}" for c in found])


def dataset(name: str) -> tuple[np.ndarray, np.ndarray]:
    """The x and y of a small published data set."""
    entry = next(d for d in _content()["dataset"] if d["id"] == name)
    return np.array(entry["x"], float), np.array(entry["y"], float)


def ids_of_section(section: int) -> list[str]:
    """Return the ids of all values of a section, in the file's order."""
    return [entry["id"] for entry in _content()["check"] if entry["section"] == section]
