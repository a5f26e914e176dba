"""The worlds are physically right: held against figures from outside, closed forms and conservation of energy.

Figures named "check values" were derived from the definition named beside them, or read in the source named.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from numpy.testing import assert_allclose
from scipy.integrate import trapezoid
from scipy.optimize import brentq

from tests.worlds import builders
from tests.worlds.friction import Friction, bristles
from tests.worlds.gas import ATMOSPHERE, GasColumn
from tests.worlds.motions import FINE_HZ, Motion, Path, run
from tests.worlds.rigs import Chain, gap, low_passed, play, record, stepped, through_spring
from tests.worlds.rows import BY_NAME
from tests.worlds.valves import CEILING, SOFT, STIFF, VALVES, FloatArray, Valve, balance, bleed, draw_valve
from tests.worlds.world import World, shaft, simulate

DT = 1.0 / FINE_HZ
SILENT = Chain(rate_hz=FINE_HZ, white=0.0, x_noise=0.0)
NO_GAS = GasColumn(rod_m=0.01, pressure_pa=ATMOSPHERE, column_m=1.0, exponent=1.0)
NOTHING = Friction()


def dashpot(coefficient: float) -> Valve:
    return Valve("dashpot", lambda u: coefficient * u, lambda u: coefficient * u)


def sine(hz: float, half: float, cycles: int = 8) -> Path:
    """A sine of so many whole cycles that starts at full speed."""
    time = np.arange(round(cycles / hz * FINE_HZ)) * DT
    w = 2.0 * np.pi * hz
    x = half * np.sin(w * time)
    return Path(time, x, half * w * np.cos(w * time), -(w**2) * x, hz * time)


def response(out: FloatArray, hz: float) -> tuple[float, float]:
    """Gain and phase [deg] of a settled response to sin(wt), from its last four whole cycles."""
    count = round(4 / hz * FINE_HZ)
    phasor = 2.0 * np.mean(out[-count:] * np.exp(-2j * np.pi * hz * DT * np.arange(out.size - count, out.size)))
    return abs(phasor), float(np.degrees(np.angle(phasor * 1j)))


class TestFriction:
    def test_lugre_settles_on_its_published_level(self):
        """Canudas de Wit et al., IEEE TAC 40 (1995), table I; its steady-state formula, σ2 v = 0.4 v added."""
        law = Friction(level_n=1.0, breakaway=0.5, stribeck_m_s=1e-3, presliding_m=1e-5, turning="lugre")
        speeds = np.array([0.0005, 0.001, 0.002, 0.005, 0.1, 0.002986316416])
        expected = [1.389600392, 1.184339721, 1.009957819, 1.002, 1.04, 1.001261499]
        held = [law.along(np.full(20_000, v), 1e-4, np.zeros(20_000), np.zeros(20_000))[-1] + 0.4 * v for v in speeds]
        assert_allclose(held, expected, rtol=1e-5)
        assert_allclose(law.steady(speeds, 0.0) + 0.4 * speeds, expected, rtol=1e-5)

    def test_dahl_from_rest(self):
        """Check values: F = Fc (1 - exp(-σ x / Fc)), 50 N, 0.5 MN/m, at 10 to 500 µm."""
        force = bristles(np.full(5000, 1e-3), np.full(5000, 50.0), 1e-4, 5e5, 0.0)
        at = np.array([100, 500, 1000, 2000, 5000]) - 1
        assert_allclose(force[at], [4.758129098, 19.67346701, 31.60602794, 43.23323584, 49.66310265], rtol=1e-6)

    @pytest.mark.parametrize(
        ("peak", "turn", "share"),
        [(0.02, 0.002, 0.995850615), (0.02, 0.005, 0.9724110872), (0.1, 0.005, 0.9989696744)],
    )
    def test_energy_of_a_smooth_turn(self, peak: float, turn: float, share: float):
        """Check values: energy per cycle of F tanh(v/vt) over 4 F X, by integration."""
        path = sine(1.0, peak / (2.0 * np.pi), cycles=1)
        force = Friction(level_n=30.0, turn_m_s=turn).along(path.v, DT, np.zeros_like(path.v), np.zeros_like(path.v))
        assert_allclose(np.sum(force * path.v) * DT / (4.0 * 30.0 * peak / (2.0 * np.pi)), share, rtol=1e-6)

    def test_presliding_friction_depends_on_travel_alone(self):
        slow, fast = (bristles(np.full(4000, v), np.full(4000, 20.0), 1e-4 * 0.01 / v, 2e5, 0.0) for v in (0.01, 0.1))
        assert_allclose(slow, fast, rtol=1e-9)


class TestGas:
    def test_strut(self):
        """Check values: 8 mm rod, 10 MPa gauge, 20 cm³, in by 100 mm: p V^n = const, absolute pressure."""
        area = 0.25 * np.pi * 0.008**2
        for exponent, force in ((1.0, 673.1044799), (1.2, 713.5245027)):
            column = GasColumn(0.008, 1e7 + ATMOSPHERE, 2e-5 / area, exponent)
            assert_allclose(column.force([0.0, 0.1]), [502.6548246, force], rtol=1e-6)

    def test_what_a_shop_takes_out(self):
        column = builders.clean(np.random.default_rng(1)).gas
        assert_allclose(replace(column, removed="all").kept([-0.01, 0.01]), 0.0)
        assert_allclose(replace(column, removed="static").kept(0.01), column.force(0.01) - column.force(0.0))


class TestValves:
    def test_balance_against_a_root_finder(self):
        slot = balance(lambda p: 0.1 * bleed(p, 0.3))
        roots = [brentq(lambda p, u=u: 0.1 * (0.3 * p + 0.7 * np.sqrt(p)) - u, 0.0, 1e3) for u in (0.01, 0.1, 1.0)]
        assert_allclose(slot(np.array([0.01, 0.1, 1.0])), roots, rtol=1e-5)

    @pytest.mark.parametrize("law", VALVES)
    @pytest.mark.parametrize("seed", range(4))
    def test_laws_dissipate_rise_and_are_of_the_right_size(self, law: str, seed: int):
        top, speeds = 1.2, np.geomspace(0.01, 1.2, 200)
        valve = draw_valve(np.random.default_rng(seed), top, law)
        for side in (1.0, -1.0):
            force = side * valve(side * speeds)
            assert np.all(force > 0.0)
            assert force[-1] <= CEILING * 1.001
            assert float(side * valve(side * 0.25)) <= STIFF * 1.05
            assert float(side * valve(side * 0.25)) >= 0.2 * SOFT
            assert law in ("hump", "asymmetric") or np.all(np.diff(force) > 0.0)
        assert_allclose(valve.through(0.0), 0.0, atol=1e-9)

    @pytest.mark.parametrize("law", VALVES)
    def test_no_law_is_made_of_lines_and_parabolas(self, law: str):
        """A parabola through three points of [u, 1.5 u] misses the law in between, in most such windows."""
        valve, misses = draw_valve(np.random.default_rng(3), 1.2, law), []
        for low in np.geomspace(0.012, 0.7, 25):
            speeds = low * np.linspace(1.0, 1.5, 5)
            force = valve.compression(speeds)
            parabola = np.polyval(np.polyfit(speeds[::2], force[::2], 2), speeds)
            misses.append(np.abs(parabola - force).max() / force.max())
        assert np.mean(np.array(misses) > 1e-5) > 0.7


class TestChain:
    FIRST = ([0.9950371902, 0.894427191, 0.7071067812, 0.4472135955], [-5.71059, -26.56505, -45.0, -63.43495])
    BUTTERWORTH = ([0.9999500037, 0.9701425001, 0.7071067812, 0.242535625], [-8.12969, -43.31386, -90.0, -136.68614])
    BESSEL = ([0.9969051583, 0.9212066525, 0.7071067812, 0.3230247796], [-7.80164, -38.84255, -74.3303, -118.39428])

    @pytest.mark.parametrize(
        ("order", "bessel", "figures"), [(1, False, FIRST), (2, False, BUTTERWORTH), (2, True, BESSEL)]
    )
    def test_low_pass_gain_and_phase(self, order: int, bessel: bool, figures: tuple[list[float], list[float]]):
        """Check values: by definition; Bessel (-3 dB at fc) by the coefficients of Op Amps for Everyone, table 16.6."""
        chain = Chain(low_pass_hz=50.0, order=order, bessel=bessel)
        for share, gain, phase in zip((0.1, 0.5, 1.0, 2.0), *figures, strict=True):
            hz = 50.0 * share
            found = response(low_passed(np.sin(2.0 * np.pi * hz * DT * np.arange(20_000)), chain), hz)
            assert_allclose(found, (gain, phase), rtol=2e-3)

    @pytest.mark.parametrize(("order", "bessel", "ms"), [(1, False, 1.59155), (2, False, 2.25079), (2, True, 2.16714)])
    def test_low_pass_delays_what_is_slow(self, order: int, bessel: bool, ms: float):
        """Check values: a1 / (2 pi fc) at 100 Hz; on a ramp the output lags by just that."""
        ramp = DT * np.arange(5000)
        out = low_passed(ramp, Chain(low_pass_hz=100.0, order=order, bessel=bessel))
        assert_allclose(1e3 * (ramp[-1] - out[-1]), ms, rtol=1e-3)

    def test_late_force(self):
        """Check values: 2.25 ms on 4 Hz, 25 mm, 2000 N s/m, 609 N/m: area factor, false energy, force at zero speed."""
        path, rig = sine(4.0, 0.025), replace(SILENT, delay_s=2.25e-3)
        late = record(path, 2000.0 * path.v + 609.0 * path.x, rig, np.random.default_rng(0)).force
        work = np.mean(late[-2500:] * path.v[-2500:]) / 4.0
        viscous = np.pi * 2000.0 * 2.0 * np.pi * 4.0 * 0.025**2
        assert_allclose(work, 0.9984015501 * viscous - 0.06758309472, rtol=1e-6)
        bump, droop = late[-2500 + 625], late[-2500 + 1875]  # a quarter and three quarters into the last cycle
        elastic = 609.0 * 0.025 * np.cos(8.0 * np.pi * 2.25e-3)
        assert_allclose(0.5 * (bump - droop) - elastic, 71.02328509, rtol=1e-3)

    @pytest.mark.parametrize(("half", "peak", "force"), [(0.05, 1.0, 30.0), (0.025, 1.0, 60.0), (0.05, 0.5, 7.5)])
    def test_moving_mass(self, half: float, peak: float, force: float):
        """Check values: 1.5 kg on the cell, m V² / X at the stroke ends."""
        path = sine(peak / (2.0 * np.pi * half), half)
        seen = record(path, np.zeros_like(path.x), replace(SILENT, mass_kg=1.5), np.random.default_rng(0))
        assert_allclose(seen.force.max(), force, rtol=1e-4)
        assert seen.force[np.argmax(path.x)] < 0.0

    def test_converter_steps(self):
        """Check values: 16 bits over +/- 10 kN are 0.30518 N, rms 0.088097 N."""
        values = np.random.default_rng(0).uniform(-9e3, 9e3, 200_000)
        rounded = stepped(values, 1e4, 16)
        assert_allclose(np.std(rounded - values), 0.08809665973, rtol=5e-3)
        assert_allclose(np.min(np.diff(np.unique(rounded))), 0.3051757812, rtol=1e-6)

    def test_recorded_velocity_has_a_lag_and_a_scale_of_its_own(self):
        path, rig = sine(4.0, 0.025), replace(SILENT, v_lag_hz=8.0, v_scale=1.05)
        seen = record(path, path.v, rig, np.random.default_rng(0)).velocity / (2.0 * np.pi * 4.0 * 0.025)
        gain, phase = response(seen, 4.0)
        assert_allclose((gain, phase - 90.0), (1.05 * 0.894427191, -26.56505), rtol=3e-3)

    def test_encoder_gives_as_many_samples_to_every_turn(self):
        path = run(Motion((0.1, 0.5), detail=0.1))
        times = record(path, path.v, replace(SILENT, per_turn=16), np.random.default_rng(0)).time
        turns = np.interp(times, path.time, path.turns).astype(int)
        assert np.all(np.abs(np.bincount(turns)[:-1] - 16) <= 1)


class TestMechanics:
    def test_series_spring_is_a_first_order_lag(self):
        """Check values of the first-order low-pass: a dashpot c behind a spring k has its corner at k / (2 pi c)."""
        table, hz = np.array([[-9.0, 0.0, 9.0], [-9.0, 0.0, 9.0]]) * [[1.0], [2000.0]], 10.0
        for share, gain, phase in (
            (0.1, 0.9950371902, -5.710593),
            (0.5, 0.894427191, -26.565051),
            (1.0, 0.70710678, -45.0),
        ):
            stiffness = 2000.0 * 2.0 * np.pi * hz / share
            v = np.sin(2.0 * np.pi * hz * DT * np.arange(20_000))
            force = through_spring(v, np.ones_like(v), table, (stiffness, 0.0, 1.0, 1.0), DT)
            found = response(force / 2000.0, hz)
            assert_allclose(found, (gain, phase), rtol=6e-3)

    def test_air_softens_the_spring_near_zero_force(self):
        """A shut valve behind it: dF/dx = k / (1 + r / (1 + F/Fa)²), integrated by hand."""
        shut, v = np.array([[-1e-6, 0.0, 1e-6], [-1e9, 0.0, 1e9]]), np.full(4000, 1e-3)
        force = through_spring(v, np.ones_like(v), shut, (2e6, 5.0, 100.0, 1.0), 1e-6)
        assert_allclose(force + 5.0 * 100.0 * force / (100.0 + force), 2e6 * 1e-9 * np.arange(1, 4001), rtol=2e-2)

    def test_slack_takes_its_width_from_the_stroke_where_friction_holds_the_shaft(self):
        path = sine(2.0, 0.02)
        ahead = gap(path.x, np.zeros_like(path.v), 2e-4, DT)
        assert_allclose(np.ptp((path.x + ahead)[5000:]), 0.04 - 2e-4, rtol=1e-6)
        assert_allclose((path.x + ahead)[5000:] - 1e-4, play(path.x, 1e-4)[5000:], atol=1e-12)

    def test_slack_carries_no_force_and_gas_keeps_a_slow_joint_closed(self):
        """A dashpot of 1500 N s/m against 150 N of gas gets slack where the machine outruns 0.1 m/s in rebound."""
        column = GasColumn(0.01, 150.0 / (0.25e-4 * np.pi) + ATMOSPHERE, 1e3, 1.0)
        shock = World(dashpot(1500.0), Friction(), column, Motion((0.5,), shape="sine"), SILENT, backlash_m=2e-4)
        path = run(shock.motion)
        x, v = shaft(shock, path)
        ahead = x - path.x + 1e-4
        between = (ahead > 1e-9) & (ahead < 2e-4 - 1e-9)
        assert between.sum() > 50
        assert_allclose(np.quantile(np.abs(150.0 + 1500.0 * v[between]), 0.9), 0.0, atol=1.0)
        slow = replace(shock, motion=Motion((0.09,), shape="sine"))
        assert_allclose(shaft(slow, run(slow.motion))[1], run(slow.motion).v)

    def test_energy_of_a_dashpot(self):
        """Energy per cycle pi c w X² (any textbook of vibration), for every machine's sine."""
        for schedule in ("staircase", "amplitude"):
            motion = Motion((0.5,), 0.025, "sine", schedule, cycles=4)
            rig = replace(SILENT, rate_hz=5000)
            one = simulate(World(dashpot(1500.0), NOTHING, NO_GAS, motion, rig), "dashpot", 0, np.random.default_rng(0))
            middle = slice(round(0.9 * 5000), round((0.9 + 2 * np.pi * 0.025 / 0.5) * 5000) + 1)
            work = trapezoid(one.force[middle], one.displacement[middle])
            assert_allclose(work, np.pi * 1500.0 * 0.5 * 0.025, rtol=2e-3)

    @pytest.mark.parametrize("seed", range(3))
    def test_a_faultless_record_is_the_sum_of_its_truths(self, seed: int):
        rng = np.random.default_rng(seed)
        one = simulate(replace(builders.clean(rng, "poppet"), chain=SILENT), "clean", seed, rng)
        v = np.gradient(one.displacement, DT)
        parts = one.truth(v) + one.friction(v) + one.gas(one.displacement)
        assert_allclose(one.force, parts, atol=2e-3 * np.abs(one.force).max())

    def test_truth_of_a_fading_shock_is_its_mean_state(self):
        rng = np.random.default_rng(2)
        world = BY_NAME["fade strong"].build(rng)
        one = simulate(world, "fade strong", 2, rng)
        assert 0.05 <= one.fade <= 0.08
        assert_allclose(one.truth(0.2), (1.0 - 0.5 * one.fade) * world.valve(0.2), rtol=1e-6)
