"""By how much draws of what a record leaves open are widened: its model is wrong in ways that no residual shows."""

from __future__ import annotations

import numpy as np

from dynoan.model.arrays import BoolArray, FloatArray, IntArray

#: factor on draws where all blocks have one speed [1]; judged on made worlds
ONE_SPEED_DOUBT = 1.2
#: else by which law friction turns around decides: the factor where one law has all the evidence, by how much it is
#: less for each factor e in the number of laws that share it, and the least [1]. A seal follows no law to the letter.
#: Where one law alone is left the draws do not hold what it is off by; where many are left they differ by that already.
#: Judged on made worlds: errors over widths go with this number of laws, and with nothing else that a record shows
ONE_LAW, FEWER, LEAST = 1.68, 0.48, 0.84
#: but no less where a fluid yields or a valve holds, which may be friction of any law [1]; judged on made worlds
HOLDS = 1.2


def doubt(chance: FloatArray, law: IntArray, holds: BoolArray, *, one_speed: bool) -> float:
    """Return the factor by which draws are widened. [1]

    Parameters
    ----------
    chance
        How likely each set of expectations is, shape (sets,). [1]
    law
        The number of the friction law of each, shape (sets,).
    holds
        In which of them damping stands from the first mm/s on, shape (sets,).
    one_speed
        Whether all blocks of the record have one speed.
    """
    if one_speed:
        return ONE_SPEED_DOUBT
    each = np.bincount(law, chance)
    each = each[each > 0] / each.sum()
    factor = max(ONE_LAW + FEWER * float(np.sum(each * np.log(each))), LEAST)
    return factor + float(np.sum(chance[holds])) * max(HOLDS - factor, 0.0)


def alone(factor: float) -> float:
    """Return by how much less sure friction by itself is than draws widened by a factor. [1]

    What it is told with must hold it whichever laws are left: those that share the evidence may all be off one way.
    """
    return max(ONE_SPEED_DOUBT / factor, 1.0)
