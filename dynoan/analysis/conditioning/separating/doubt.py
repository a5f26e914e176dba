"""By how much draws of what a record leaves open are widened: its model is wrong in ways that no residual shows."""

from __future__ import annotations

import numpy as np

from dynoan.model.arrays import FloatArray, IntArray

#: by which law friction turns around decides: the factor where one law has all the evidence, by how much it is less for
#: each factor e in the number of laws that share it, the least, and that where all blocks have one speed [1]. A seal
#: follows no law to the letter. Where one law alone is left the draws do not hold what it is off by; where many are
#: they differ by that already. Judged on made worlds: errors over widths go with this number of laws, and with nothing
#: else that a record shows
ONE_LAW, FEWER, LEAST, ONE_SPEED = 1.2, 0.38, 0.91, 1.05


def doubt(chance: FloatArray, law: IntArray, *, one_speed: bool) -> float:
    """Return the factor by which draws are widened. [1]

    Parameters
    ----------
    chance
        How likely each set of expectations is, shape (sets,). [1]
    law
        The number of the friction law of each, shape (sets,).
    one_speed
        Whether all blocks of the record have one speed, which tells nothing of laws.
    """
    if one_speed:
        return ONE_SPEED
    each = np.bincount(law, chance)
    each = each[each > 0] / each.sum()
    return max(ONE_LAW + FEWER * float(np.sum(each * np.log(each))), LEAST)
