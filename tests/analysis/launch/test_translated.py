"""The compiled step from its kept translation: of this source, alike with what numba makes of it, without numba."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import llvmlite
import numpy as np
import pytest

from dynoan.analysis.launch.drive import full_grip
from dynoan.analysis.launch.from_car import half_car
from dynoan.analysis.launch.large import rows, translated
from dynoan.analysis.launch.large.model import large_car
from dynoan.analysis.launch.large.sealed import SOURCES, seal
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.launch.sides import sides
from dynoan.machine_code import array_parts
from tests.analysis.launch_cars import FLAT, ROUGH, curves, damping, kestrel

of_newer = pytest.mark.skipif(
    tuple(int(part) for part in llvmlite.__version__.split(".")[:2]) < (0, 45), reason="its LLVM reads other pointers"
)
AGAIN = "python -m fixtures.make_machine_code"
LAUNCH = """
import sys
from dynoan.analysis.launch.drive import full_grip
from dynoan.analysis.launch.scene import Scene
from dynoan.analysis.launch.large.compare import launch_large
from dynoan.analysis.launch.large.model import large_car
from dynoan.analysis.launch.from_car import half_car
from tests.analysis.launch_cars import FLAT, kestrel, linear
car = kestrel()
half = half_car(car)
launch_large(large_car(car, half), Scene(full_grip(half, FLAT), FLAT, 0.5), linear(car, 3e3))
print("numba" in sys.modules)
"""


def launched():
    car = kestrel()
    half = half_car(car, curves(car))
    large = large_car(car, half)
    levels = sides(*damping(car, lsc=3, hsc=3, lsr=3, hsr=3))
    return [
        rows.run(large, levels, [Scene(full_grip(half, surface), surface, 1.0)], [(i, 0) for i in range(3)], keep=keep)
        for surface in (FLAT, ROUGH)
        for keep in (True, False)
    ]


class TestKeptTranslation:
    def test_it_is_of_the_source_as_it_stands(self):
        first = translated.KEPT.read_text(encoding="utf-8").splitlines()[0]
        assert first == f"; {seal()}", f"one of {SOURCES} changed: {AGAIN}"

    def test_it_holds_nothing_of_one_machine(self):
        text = translated.KEPT.read_text(encoding="utf-8")
        assert not any(word in text for word in ("target ", "x86", "NRT_", "attributes", "_ZN", "/work", "/home"))

    @of_newer
    def test_it_can_be_used_here(self):
        assert translated.from_translation() is not None

    @pytest.mark.thorough
    def test_it_is_what_numba_makes_of_the_source(self, monkeypatch):
        """Compiles, some five seconds."""
        found = launched()
        source = translated.from_source()
        monkeypatch.setattr(rows, "step_of_car", lambda: source)
        for ours, compiled in zip(found, launched(), strict=True):
            np.testing.assert_allclose(ours.states, compiled.states, rtol=1e-9, atol=1e-9)
            np.testing.assert_allclose(ours.kept, compiled.kept, rtol=1e-9, atol=1e-6)
            np.testing.assert_allclose(ours.figures, compiled.figures, rtol=1e-9, atol=1e-9)

    @of_newer
    def test_a_first_launch_needs_no_compiler(self, tmp_path):
        env = os.environ | {"NUMBA_CACHE_DIR": str(tmp_path), "PYTHONPATH": str(Path(__file__).parents[3])}
        done = subprocess.run([sys.executable, "-c", LAUNCH], env=env, capture_output=True, text=True, check=True)
        assert done.stdout.strip() == "False"
        assert list(tmp_path.iterdir()) == []


class TestOfNoUse:
    """Where the translation does not serve, the source is compiled instead, and never anything else run."""

    def test_of_another_source(self, tmp_path, monkeypatch):
        other = tmp_path / "compiled.ll"
        other.write_text("; of something else\n" + translated.KEPT.read_text(encoding="utf-8"), encoding="utf-8")
        monkeypatch.setattr(translated, "KEPT", other)
        assert translated.from_translation() is None

    def test_not_understood(self, tmp_path, monkeypatch):
        other = tmp_path / "compiled.ll"
        other.write_text(f"; {seal()}\ndefine nonsense", encoding="utf-8")
        monkeypatch.setattr(translated, "KEPT", other)
        assert translated.from_translation() is None

    def test_missing(self, tmp_path, monkeypatch):
        monkeypatch.setattr(translated, "KEPT", tmp_path / "none.ll")
        assert translated.from_translation() is None

    def test_a_function_missing(self, monkeypatch):
        monkeypatch.setattr(translated, "_CALLED", ("no_such_function_anywhere",))
        assert translated.from_translation() is None

    def test_then_the_source_is_taken(self, monkeypatch):
        monkeypatch.setattr(translated, "from_translation", lambda: None)
        monkeypatch.setattr(translated, "from_source", lambda: "compiled")
        translated.step.cache_clear()
        try:
            assert translated.step() == "compiled"
        finally:
            translated.step.cache_clear()

    def test_an_array_of_another_kind_is_refused(self):
        with pytest.raises(TypeError, match="whole array"):
            array_parts(np.zeros((4, 4))[:, ::2], "f", 2)
        with pytest.raises(TypeError, match="float64"):
            array_parts(np.zeros((4, 4), dtype=np.float32), "f", 2)
