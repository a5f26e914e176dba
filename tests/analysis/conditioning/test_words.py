"""What is said of a record: every figure has its unit, or people of other units would read it in theirs."""

from __future__ import annotations

import re
from types import SimpleNamespace

import pytest

from dynoan.analysis.conditioning.found import words
from dynoan.analysis.conditioning.found.trace_model import Told


@pytest.mark.parametrize(("value", "sd"), [(5.0, 8.0), (19.0, 11.0), (0.2, 3.0)])
def test_the_likeliest_friction_has_its_unit(value, sd):
    model = SimpleNamespace(friction=Told(value, sd), tilt=Told(0.0, 1.0))
    said = words._friction(model)[0]
    assert re.search(rf"most likely {value:.0f} N;", said), said


@pytest.mark.parametrize(("value", "sd", "said"), [(129.0, 50.0, True), (129.0, 10.0, False), (35.0, 15.0, False)])
def test_strong_friction_that_may_be_a_valve_is_called_so(value, sd, said):
    model = SimpleNamespace(friction=Told(value, sd), tilt=Told(0.0, 1.0), presliding=Told(0.0, 1.0),
                            breakaway=Told(0.0, 1.0))  # fmt: skip
    assert any("holds from rest" in line for line in words._friction(model)) == said


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


def rest_words(**more) -> list[str]:
    none = Told(0.0, 1.0)
    return words._rest(SimpleNamespace(**{"mass": none, "side": none, "fade": none, "zero_drift": none, "peak": 1000.0,
                                          **more}))  # fmt: skip


@pytest.mark.parametrize(("sd", "said"), [(0.3, True), (0.45, False)])
def test_what_hardly_leaves_zero_out_is_not_named(sd, said):
    assert bool(rest_words(mass=Told(1.0, sd))) == said
    assert bool(rest_words(zero_drift=Told(20.0, 20.0 * sd))) == said


def test_a_drift_that_no_click_hides_in_is_not_named():
    assert rest_words(zero_drift=Told(-4.0, 1.0)) == []


@pytest.mark.parametrize(
    ("sd", "told"),
    [(0.00004, "to 0.08 ms): none of it"), (0.0009, "to 1.80 ms): no more than that of it"), (0.0, None)],
)
def test_how_well_lag_is_known_decides_what_may_pass_for_friction(sd, told):
    model = SimpleNamespace(lag=Told(0.0, sd), give=Told(0.0, 1.0), air=Told(0.0, 1.0))
    lines = words._lag(model)
    assert [told in line for line in lines] == ([True] if told else [])


def test_a_give_known_to_nothing_tells_its_least_rate():
    model = SimpleNamespace(lag=Told(0.0, 0.0), give=Told(2e-7, 0.9e-7), air=Told(0.0, 1.0))
    assert "like a spring stiffer than 2632 N/mm:" in words._lag(model)[0]


@pytest.mark.parametrize(("sd", "said"), [(9000.0, "cannot be told"), (300.0, "at most 1.10 N/mm")])
def test_a_range_of_gas_over_travel_that_is_no_answer_says_what_would_tell(sd, said):
    (line,) = words._slope(SimpleNamespace(slope=Told(500.0, sd), heat=Told(0.0, 1.0)))
    assert said in line
