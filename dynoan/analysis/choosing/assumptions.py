"""What choosing takes for granted: every number a referee would question, and what it decides.

The velocities called low and high stand with the car's targets, in `dynoan.model.car`.
"""

from __future__ import annotations

# When a setting fits
#: how far each ratio may be off, as a share of what is wanted, where nobody says [1]; common practice, no source
TOLERANCE = 0.10
#: a ratio on the edge of its tolerance fits, whatever the last digit does [1]; numerics
SLACK = 1e-6
#: how close every ratio must stay for the smallest turn to do when ratios are carried over [1]. One shock on one
#: rig repeats to 1 to 2 % (common practice, no source), so two runs of it differ by as much as this.
CLOSE = 0.03

# Which of two settings comes first
#: squared misses closer than this are equal: at a miss of 1 % a difference of 0.005 % [1]; judged: nobody
#: could measure it
MISS_STEP = 1e-6
#: squared change of ratio by a click, summed over adjusters; closer than this is equal [1]; judged
SENSITIVITY_STEP = 1e-5
#: what changing the pack counts beside turning adjusters [clicks]; judged: more than any car turns without it
OTHER_PACK = 500
#: a miss this much smaller is not worth a turn or another pack [1]: what targets do not decide stays as it is. One
#: shock on one rig repeats to 1 to 2 % (common practice, no source)
STAY = 0.01
#: the same where fewer ratios are wanted than there are adjusters, as a share of the tolerance: then one adjuster
#: alone, in whole clicks, is preferred to two that hit the number with strange clicks [1]; judged
OPEN_SHARE = 0.5
#: settings looked at for each one that is ranked, as several come to the same once what is undecided stays; never
#: fewer than for `COUNT`, so that who asks for fewer is told the same best [1];
#: judged
LOOKED_AT = 4
#: settings ranked where nobody says [1]; judged: a page holds them
COUNT = 10

# What is wanted like another setting
#: speeds at which a whole curve is followed, as far as it was measured [m/s]; common practice, no source
CURVE_SPEEDS = (0.025, 0.05, 0.1, 0.15, 0.2, 0.25, 0.35, 0.5)

# What would fit where nothing does
#: other springs are sought between these times the ratios there are now, least and its inverse: beyond are rates from
#: 1/25 to 25 times, which is no change of springs [1]; judged
LEAST_FACTOR = 0.2
#: rates that differ by more than this factor are said to be hardly a change of springs [1]; common practice, no source
HARDLY_SPRINGS = 2.0
#: so many of the rates that could fit are tried, nearest to the present one first [1]; judged
MOST_SPRINGS = 40
#: how far within a span of rates that fit one is tried, as a share of it [1] (numerics)
INSIDE = 1e-6
#: a spring counts as at least this much [N/m], where gas alone would be too stiff; numerics
LEAST_SPRING = 1.0
#: a force counts as at least this much [N], so that no factor is sought that makes something of nothing;
#: numerics
LEAST_FORCE = 1e-9
