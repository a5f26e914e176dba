"""The two directions of a table of peaks whose heads are in any language, or of which only one is known."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.errors import ReadError
from dynoan.model.sweep import Source
from importers.sweeps.making import make_sweep
from tests.importers.making import part_of

V = [25.0, 51, 102, 254]
C = [250.0, 411, 583, 810]
R = [397.0, 662, 956, 1326]


def sweep_of(compression, rebound, **more):
    columns = {"Speed (mm/s)": V, compression: C, rebound: R, **more}
    return make_sweep(part_of(columns), Source("rig.csv", "", "text", ""))


def forces_of(made):
    f = made.sweep.channels["force"]
    return f[f > 0].tolist(), (-f[f < 0]).tolist()


HEADS = [
    ("Compressie (N)", "Rebound (N)"), ("Kompr. (N)", "Rebound (N)"), ("Kompresi (N)", "Rebound (N)"),
    ("Compressed (N)", "Extended (N)"), ("Compressie (N)", "Extensie (N)"), ("Stlačenie (N)", "Roztiahnutie (N)"),
    ("Bump (N)", "Returning (N)"), ("압축력 (N)", "인장력 (N)"), ("Nyomó erő (N)", "Húzó erő (N)"),
    ("Stiskanje (N)", "Raztezanje (N)"), ("Kompressionskraft (N)", "Rebound (N)"), ("Compression (N)", "Recoil (N)"),
]  # fmt: skip


@pytest.mark.parametrize(("compression", "rebound"), HEADS)
def test_a_direction_is_known_by_how_its_word_begins(compression, rebound):
    made = sweep_of(compression, rebound)
    assert forces_of(made) == (C, R)
    assert made.sweep.warnings == ()


@pytest.mark.parametrize(
    ("compression", "rebound"),
    [("CD (N)", "RD (N)"), ("Ingoing (N)", "Outgoing (N)"), ("Druk (N)", "Trek (N)"), ("CVP (N)", "RVP (N)")],
)
def test_two_heads_may_say_together_what_neither_says_alone(compression, rebound):
    made = sweep_of(compression, rebound)
    assert forces_of(made) == (C, R)
    assert made.sweep.warnings == (
        f"'{compression}' and '{rebound}' were taken as the forces of compression and rebound",
    )


@pytest.mark.parametrize(
    ("compression", "rebound"), [("Puristus (N)", "Foo (N)"), ("Foo (N)", "Rebound (N)"), ("In (N)", "Return (N)")]
)
def test_the_other_of_two_force_columns_is_the_other_direction_and_that_is_said(compression, rebound):
    made = sweep_of(compression, rebound)
    assert forces_of(made) == (C, R)
    assert any("a word not known here, is taken as the force of" in said for said in made.sweep.warnings)


@pytest.mark.parametrize(
    ("other", "forces"),
    [("Previous (N)", R), ("Hysteresis (N)", R), ("Force (N)", R), ("Foo (N)", C), ("Foo (N)", [120.0, 119, 121, 118]),
     ("Foo (N)", [3.0, 4, 6, 8])],
)  # fmt: skip
def test_a_column_that_speaks_against_it_is_left_out_and_named(other, forces):
    made = make_sweep(part_of({"Speed (mm/s)": V, "Comp (N)": C, other: forces}), Source("rig.csv", "", "text", ""))
    assert forces_of(made) == (C, [])
    assert any(f"'{other}'" in said for said in made.sweep.warnings)


def test_with_a_third_force_column_it_is_asked():
    with pytest.raises(ReadError, match="force could be 'Foo"):
        sweep_of("Comp (N)", "Foo (N)", **{"Bar (N)": np.array(R) * 1.1})


def test_what_is_in_newtons_is_no_adjuster():
    made = sweep_of("Bump (N)", "Return (N)")
    assert made.sweep.clicks == {}
    assert forces_of(made) == (C, R)
