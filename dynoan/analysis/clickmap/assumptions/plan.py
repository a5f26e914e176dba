"""Which runs to pay for (plan, plan_model)."""

from __future__ import annotations

#: a run that takes less than this off the expected error is not worth its money [%]; common practice, no source
WORTH_A_RUN = 0.15
#: positions of each adjuster that candidates are drawn from [1]; judged: ends, middle and between; a pack of three
#: adjusters has 125 candidates so
LEVELS = 5
#: speeds at which errors are weighed, shares of the top speed [1]; judged: by ratio, below the knee and above alike
WEIGHED_SPEEDS = (0.05, 0.12, 0.25, 0.5, 1.0)
#: error of a planned run's curve, standard deviation, a share of force [1]; common practice, no source
RUN_ERROR = 0.008
#: what the trend is taken to miss before tests say so, a share of force [1]; judged: a little over
#: what maps expect, since too small a one would spare runs that are needed
PLANNED_DISCREPANCY = 0.025
#: with more tests than this a plan takes openings and discrepancy from them [1]; judged: fewer tell a valve, not both
PLANNED_FROM = 4
#: peak speeds a run should hold [m/s]; common practice, no source
LADDER = (0.025, 0.05, 0.1, 0.15, 0.25, 0.4, 0.5, 0.7, 1.0)
