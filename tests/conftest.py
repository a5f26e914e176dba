"""What every test begins with."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from dynoan.units import HINTED


@pytest.fixture(autouse=True)
def _metric_hints() -> Iterator[None]:
    """Commands called inside this process leave the units of their library behind."""
    token = HINTED.set("metric")
    yield
    HINTED.reset(token)
