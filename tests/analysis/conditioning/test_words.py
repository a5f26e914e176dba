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


@pytest.mark.parametrize(("give", "said"), [(1e-250, False), (1e-9, False), (2e-7, True)])
def test_what_hardly_gives_is_no_spring(give, said):
    still = Told(0.0, 1e-5)
    model = SimpleNamespace(lag=still, give=Told(give, 0.1 * give), air=Told(0.0, 1.0))
    lines = [line for line in words._lag(model) if "spring of" in line]
    assert lines == (["oil and mounts give like a spring of 5000 N/mm (± 20 %): the valve sees less speed than the rig "
                      "makes; the curve is over the valve's own speed"] if said else [])  # fmt: skip


@pytest.mark.parametrize(("heat", "said"), [(300.0, True), (30.0, False)])
def test_gas_that_is_softer_in_slow_motion_is_said_so(heat, said):
    model = SimpleNamespace(slope=Told(1500.0, 20.0), heat=Told(heat, 5.0))
    (line,) = words._slope(model)
    assert line.startswith("gas force over travel 1.50 N/mm (± 0.04), taken out")
    assert ("0.30 N/mm less in slow motion" in line) == said
