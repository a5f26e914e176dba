"""What every test begins with."""

from __future__ import annotations

import os
from collections.abc import Iterator

import pytest

# Before numpy: as the program itself has it. On a busy machine the threads of small products wait for one another.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from dynoan.units import HINTED


@pytest.fixture(autouse=True)
def _metric_hints() -> Iterator[None]:
    """Commands called inside this process leave the units of their library behind."""
    token = HINTED.set("metric")
    yield
    HINTED.reset(token)
