"""A lone spike is told where it stands out from the noise of the samples, and noise alone is none."""

from __future__ import annotations

import numpy as np
import pytest

from importers.channels.doubts import _spikes
from importers.tables import Extent

FORCE = 700 * np.sin(np.linspace(0, 40, 3001))


@pytest.mark.parametrize(("noise", "spike", "said"), [(45.0, 0.0, False), (0.0, 200.0, True), (10.0, 400.0, True)])
def test_spikes(noise, spike, said):
    force = FORCE + np.random.default_rng(4).normal(0.0, noise or 1e-9, len(FORCE))
    force[1234] += spike
    assert bool(_spikes(force, Extent.of(force))) == said
