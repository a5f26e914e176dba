"""What formulas ask of what they are given: one rule for zero, negative, infinite and unknown."""

from __future__ import annotations

import numpy as np
import pytest

from dynoan.analysis.checks import positive, positive_number
from dynoan.errors import QuantityError


@pytest.mark.parametrize("value", [0.0, -0.0, -3.0, np.inf, -np.inf, np.nan])
def test_what_no_mass_can_be_is_refused_alone_and_among_others(value):
    with pytest.raises(QuantityError, match="mass must be a finite number above zero, found"):
        positive_number("mass", value)
    with pytest.raises(QuantityError, match=rf"found {value:g}$"):
        positive("mass", [[240.0, 260.0], [value, 250.0]])


def test_the_rest_goes_through_in_its_shape():
    assert positive("mass", 5e-324) == 5e-324
    assert positive("mass", np.full((2, 3), 240.0)).shape == (2, 3)
    assert isinstance(positive_number("mass", 240), float)
