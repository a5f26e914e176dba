"""What choosing takes for granted: every number a referee would question, and what it decides.

The velocities called low and high stand with the car's targets, in `dynoan.model.car`.
"""

from __future__ import annotations

import numpy as np

# When a setting fits
#: how far each ratio may be off, as a share of what is wanted, where nobody says; common practice, no source
TOLERANCE = 0.10
#: a ratio on the edge of its tolerance fits, whatever the last digit does [share]
SLACK = 1e-6
#: how close every ratio must stay for the smallest turn to do when ratios are carried over [share]. One shock on one
#: rig repeats to 1 to 2 % (common practice, no source), so two runs of it differ by as much as this.
CLOSE = 0.03

# Which of two settings comes first
#: squared misses closer than this are equal: at a miss of 1 % a difference of 0.005 %
MISS_STEP = 1e-6
#: squared change of ratio by a click, summed over adjusters; closer than this is equal
SENSITIVITY_STEP = 1e-5
#: what changing the pack counts beside turning adjusters [clicks]: more than any car turns without it
OTHER_PACK = 500
#: settings ranked where nobody says
COUNT = 10

# What is wanted like another setting
#: speeds at which a whole curve is followed, as far as it was measured [m/s]; common practice, no source
CURVE_SPEEDS = (0.025, 0.05, 0.1, 0.15, 0.2, 0.25, 0.35, 0.5)

# What would fit where nothing does
#: a share more or less of every ratio: the steps in which other springs are tried, and how many either way. A ratio
#: goes with the inverse root of the rate, so this covers 0.45 to 2.2 times the rate; what lies beyond is another car.
RATIO_STEP, RATIO_STEPS = 0.01, 40
#: how many times the ratios other springs would make them, nearest to none first
RATIO_FACTORS = tuple(
    sorted(np.exp(np.arange(-RATIO_STEPS, RATIO_STEPS + 1) * RATIO_STEP), key=lambda f: abs(np.log(f)))
)
#: a force counts as at least this much [N], so that no factor is sought that makes something of nothing
LEAST_FORCE = 1e-9
