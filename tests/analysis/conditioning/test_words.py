"""What is said of a record: every figure has its unit, or people of other units would read it in theirs."""

from __future__ import annotations

import re
from types import SimpleNamespace

import pytest

from dynoan.analysis.conditioning import words
from dynoan.analysis.conditioning.trace_model import Told


@pytest.mark.parametrize(("value", "sd"), [(5.0, 8.0), (19.0, 11.0), (0.2, 3.0)])
def test_the_likeliest_friction_has_its_unit(value, sd):
    model = SimpleNamespace(friction=Told(value, sd), tilt=Told(0.0, 1.0))
    said = words._friction(model)[0]
    assert re.search(rf"most likely {value:.0f} N;", said), said
