"""Which way a rig counts, in worlds made from the physics alone: a shock with gas, friction and a valve on a crank.

The truth is compression positive; the file counts force and motion as it likes. What is found must turn it back; where
gas force does not show, nothing may be found, and compression is assumed with a word.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from importers.channels.rest_force import CountedMotion, drawn_to_rest
from importers.channels.sign import ASSUMED, Signs, orient
from tests.importers.making import quick

RATE = 1000.0
ways = st.sampled_from([1, -1])


def world(seed: int, gas: float, friction: float, *, offset: float = 0.0, valve: float = 2500.0, lag: float = 0.0):
    """Displacement from mid-stroke, velocity and force of a crank at two speeds, compression positive, with noise."""
    rng = np.random.default_rng(seed)
    t = np.arange(int(6 * RATE)) / RATE
    phase = 2 * np.pi * np.where(t < 3, t, 3 + 2.2 * (t - 3))
    x = 0.025 * np.sin(phase)
    v = np.gradient(x, 1 / RATE)
    late = np.interp(t - lag, t, v)
    damping = valve * np.sign(late) * np.abs(late) ** 0.8
    pushed = gas * (0.09 / (0.09 - x)) ** 1.2
    force = damping + friction * np.tanh(late / 0.002) + pushed + offset + rng.normal(0, 2, len(t))
    return x, v, force


def seen(x, v, force, motion: int, turned: int, *, recorded: bool = True, said=None, **more) -> Signs:
    return orient(CountedMotion(turned * force, motion * v, motion * x, recorded=recorded), said or {}, **more)


@quick
@given(st.integers(0, 999), st.floats(180, 400), st.floats(0, 30), st.floats(0, 0.002), ways, ways)
def test_gas_force_turns_every_convention_back(seed, gas, friction, lag, motion, turned):
    signs = seen(*world(seed, gas, friction, lag=lag), motion, turned)
    assert (signs.force, signs.velocity, signs.displacement) == (turned, motion, motion)
    assert signs.by == "gas"
    assert not any(ASSUMED in w for w in signs.warnings)


@quick
@given(st.integers(0, 999), st.floats(0, 400), st.floats(0, 200), st.floats(0, 0.004), ways, ways)
def test_what_is_found_is_right_however_faint_the_gas_force(seed, gas, friction, lag, motion, turned):
    signs = seen(*world(seed, gas, friction, lag=lag), motion, turned)
    assert signs.by == "assumed" or (signs.force, signs.velocity) == (turned, motion)
    assert signs.velocity * motion == signs.force * turned


@quick
@given(st.integers(0, 999), st.floats(0, 8), st.floats(0, 60), ways, ways)
def test_without_gas_force_nothing_is_found_and_the_channels_still_agree(seed, gas, friction, motion, turned):
    signs = seen(*world(seed, gas, friction), motion, turned)
    assert signs.by == "assumed"
    assert any(ASSUMED in w for w in signs.warnings)
    assert signs.force == 1
    assert signs.velocity * motion == signs.force * turned


@quick
@given(st.integers(0, 999), st.floats(90, 400), ways, ways)
def test_a_record_whose_mean_was_taken_out_shows_no_gas_force(seed, gas, motion, turned):
    x, v, force = world(seed, gas, 15.0)
    signs = seen(x, v, force - force.mean(), motion, turned)
    assert signs.by == "assumed"


@quick
@given(st.integers(0, 999), st.floats(120, 400), ways)
def test_a_rest_force_that_changes_within_the_record_is_no_gas_force(seed, held, turned):
    """As of a damper whose yield force follows a current: low in one half, its rest force turned in the other."""
    x, v, force = world(seed, 0.0, 10.0)
    half = len(x) // 2
    force[:half] += held
    force[half:] -= 0.6 * held
    assert seen(x, v, force, 1, turned).by == "assumed"


@quick
@given(st.integers(0, 999), st.floats(0, 400), st.sampled_from(["compression", "rebound"]), ways, ways)
def test_what_the_user_states_wins_whatever_the_record_shows(seed, gas, said, motion, turned):
    signs = seen(*world(seed, gas, 15.0), motion, turned, said={"all": said})
    assert signs.by == "stated"
    assert signs.force == (1 if said == "compression" else -1)
    assert signs.velocity * motion == signs.force * turned


@quick
@given(st.integers(0, 999), st.floats(0, 300), ways)
def test_turning_all_channels_turns_what_is_found(seed, gas, motion):
    one = seen(*world(seed, gas, 10.0), motion, 1)
    other = seen(*world(seed, gas, 10.0), -motion, -1)
    turned = -1 if one.by == "gas" else 1  # what is assumed is assumed of either
    assert one.by == other.by
    assert (one.force, one.velocity) == (turned * other.force, turned * other.velocity)


def test_a_zero_error_is_not_taken_for_the_stated_gas_force():
    """Ten bar on a 14 mm rod push with 154 N; the cell's zero is off by -500 N, so that the rest force points in."""
    x, v, force = world(1, 154.0, 10.0, offset=-500.0)
    stated = 10e5 * np.pi / 4 * 0.014**2
    assert seen(x, v, force, 1, 1).force == -1
    signs = seen(x, v, force, 1, 1, gas_force=stated)
    assert (signs.force, signs.by) == (1, "assumed")
    assert any("N at rest are not the 154 N of the stated pressure on the rod" in w for w in signs.warnings)
    assert seen(*world(1, 154.0, 10.0), -1, -1, gas_force=stated).by == "gas"


@pytest.mark.parametrize("agreed", [1, -1])
def test_a_part_without_gas_force_follows_the_others_of_its_file(agreed):
    signs = seen(*world(2, 0.0, 10.0), 1, agreed, agreed=agreed)
    assert (signs.force, signs.by) == (agreed, "gas")


def test_parts_that_contradict_one_another_show_nothing():
    signs = seen(*world(3, 200.0, 10.0), 1, 1, agreed=0)
    assert signs.by == "assumed"
    assert any("gas force points different ways in the parts of this file" in w for w in signs.warnings)


def digressive(seed: int, gas: float, friction: float, *, uneven: float = 1.7):
    """As `world`, of a shock whose valves open early, rebound stronger: slow motion makes much force."""
    x, v, _ = world(seed, 0.0, 0.0)
    early = 520 * (1 - np.exp(-np.abs(v) / 0.045)) + 1150 * np.abs(v)
    damping = np.where(v > 0, early, -uneven * early)
    rubbed = friction * np.tanh(v / 0.0005)
    force = damping + rubbed + gas * (0.09 / (0.09 - x)) ** 1.2 + np.random.default_rng(seed).normal(0, 1.5, len(x))
    return x, v, force


@quick
@given(st.integers(0, 999), st.floats(70, 200), st.floats(0, 12), ways, ways)
def test_gas_below_what_slow_motion_makes_is_found_where_a_line_draws_that_away(seed, gas, friction, motion, turned):
    x, v, force = digressive(seed, gas, friction)
    drawn = drawn_to_rest(CountedMotion(force, v, x))
    assert drawn is not None
    assert abs(drawn.force - gas) < 0.15 * gas
    signs = seen(x, v, force, motion, turned)
    assert (signs.force, signs.velocity, signs.by) == (turned, motion, "gas")


@quick
@given(st.integers(0, 999), st.floats(0, 60), st.floats(0, 40), st.floats(0.5, 2.0), ways, ways)
def test_and_is_never_found_the_wrong_way(seed, gas, friction, uneven, motion, turned):
    signs = seen(*digressive(seed, gas, friction, uneven=uneven), motion, turned)
    assert signs.by == "assumed" or signs.force == turned


def test_a_record_of_few_slow_samples_draws_no_line():
    x, v, force = digressive(0, 100.0, 5.0)
    assert drawn_to_rest(CountedMotion(force[::40], v[::40], x[::40])) is None
