"""A few hundred broken files: each gives sweeps or a refusal in one line, never another exception."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings

from tests.fuzz.fuzz_read import attempt
from tests.fuzz.mutations import FILES


@pytest.mark.slow
@settings(max_examples=100, deadline=None, suppress_health_check=list(HealthCheck))
@given(FILES)
def test_broken_bytes_are_read_or_refused(data):
    assert attempt(data) in ("read", "refused")
