"""What a car's uncertain values leave open of a figure: cars drawn from its ±, and what they spread over.

A ± holds a value 19 times of 20. Cars are drawn from the normal law of that width, each with its mirror image, and the
draws straightened so that they have exactly the variance asked for and nothing in common: a figure that is straight in
the values then gets exactly the band that its slopes give it, whatever the dice, and one that is not gets what it does
over cars that may stand there. A spread may be wider to one side: each side has its own second moment about the figure
of the stated values (the two-piece normal law; S. John, Communications in Statistics 11 (1982) 879-885, from memory).
"""

from __future__ import annotations

import numpy as np

from dynoan.analysis.launch.assumptions import DRAWN_PAIRS, DRAWN_SEED
from dynoan.analysis.statistics import Z95
from dynoan.model.arrays import FloatArray


def draws(values: int) -> FloatArray:
    """Return cars as standard deviations of each of their values, shape (cars, values), each row's mirror image in it.

    Second moments are one, and nothing is shared between values. The same every time. [1]

    Parameters
    ----------
    values
        How many are uncertain, at least one.
    """
    pairs = max(DRAWN_PAIRS, 2 * values)
    dice = np.random.default_rng(DRAWN_SEED).standard_normal((pairs, values))
    left, _, right = np.linalg.svd(dice, full_matrices=False)
    half = np.sqrt(pairs) * left @ right  # the nearest draws that are straight
    return np.concatenate([half, -half])


def open_to(changes: FloatArray) -> tuple[float, float]:
    """Return how far below and above its value a figure's band reaches, both at least zero. [of the figure]

    Parameters
    ----------
    changes
        Of the figure, with each of the drawn cars, shape (cars,); not-a-number where a car has no such figure.
    """
    known = changes[np.isfinite(changes)]
    if not len(known):
        return 0.0, 0.0
    below, above = (Z95 * float(np.sqrt(2.0 * np.mean(np.maximum(way * known, 0.0) ** 2))) for way in (-1.0, 1.0))
    return below, above
