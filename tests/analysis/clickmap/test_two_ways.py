"""Tests counted from both ends, and tests on two rigs: found in packs made apart from the map, and nowhere else."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from dynoan.analysis.clickmap.mapping import fit_pack
from dynoan.analysis.clickmap.tested.two_ways import counted_alike, counted_apart
from tests.worlds.packs.made import PackWorld
from tests.worlds.packs.practice import scaled
from tests.worlds.packs.rows import draw
from tests.worlds.packs.with_dynoan import _tested, as_tested, program, shock_of

#: seeds of made worlds not used in judging what is suspicious
FRESH = range(500, 506)


def _asked(world: PackWorld):
    return shock_of(world.library).adjusters, _tested(world.library, world.packs[0].name)


class TestCountedFromBothEnds:
    @pytest.mark.parametrize("seed", FRESH)
    def test_tests_are_brought_to_the_end_that_the_shocks_file_counts_from(self, seed: int):
        world = draw("map two ways 8", seed)
        adjusters, tested = _asked(world)
        alike, _ = counted_alike(adjusters, tested)
        v, wrong = world.speeds(), 0
        kind = shock_of(world.library)
        for test, run in zip(alike, world.library.runs, strict=True):
            assert run.velocity is not None
            assert run.force is not None
            true = world.force(kind.to_counted(test.from_closed), v, world.shock)
            wrong += bool(np.median(np.abs(np.interp(v, run.velocity, run.force) / true - 1.0)) > 0.1)
        assert wrong <= 1

    @pytest.mark.parametrize("row", ["regular", "any", "wrong way", "not monotone", "counted the other way"])
    def test_none_is_turned_where_all_count_alike(self, row: str):
        for seed in FRESH:
            assert not counted_apart(*_asked(draw(f"map {row} 8", seed)))

    def test_it_is_said_with_the_tests_and_the_map_holds_what_is_true(self):
        world = draw("map two ways 8", 502)
        pack = fit_pack("gravel", *_asked(world))
        assert [one.kind for one in pack.oddities][:1] == ["counted two ways"]
        assert any("counted from the other end" in note and world.shock in note for note in pack.notes)
        said = program.map(world.library, "gravel")  # type: ignore[misc]
        v = world.speeds()
        held = [(b.low <= t) & (t <= b.high) for c in world.asked
                for b, t in [(said.band(c, v, world.shock, 0.0), world.force(c, v, world.shock, 0.0))]]  # fmt: skip
        assert np.mean(held) >= 0.85


@pytest.mark.thorough
def test_two_rigs_five_percent_apart_are_suspected_and_one_is_not():
    world = draw("map two adjusters 8", 501)
    kind = shock_of(world.library)
    packs = []
    for apart in (0.0, 0.05):
        runs = [scaled(run, 1.0 + apart * (0.5 if n % 2 else -0.5)) for n, run in enumerate(world.library.runs)]
        packs.append(fit_pack("gravel", kind.adjusters, as_tested(kind, runs)))
    one, two = packs
    assert not any("two rigs" in note for note in one.notes)
    assert any("two rigs" in note for note in two.notes)
    # Nobody knows which is right: half of what is between both, or near that.
    assert 0.01 < two.compression.calibration == two.rebound.calibration < 0.025
    clicks, speed = np.full((1, len(two.compression.data.axes)), 5.0), np.array([0.1])
    sure = replace(two.compression, calibration=0.0).covariance(clicks, speed)
    more = two.compression.covariance(clicks, speed) - sure
    np.testing.assert_allclose(more, two.compression.calibration**2)
