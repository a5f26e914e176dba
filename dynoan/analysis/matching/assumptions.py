"""What matching takes for granted: each with its unit, its source, and what it decides."""

from __future__ import annotations

from collections.abc import Mapping

from dynoan.units import INCH, Shown

#: what a pair may differ by, of the mean force [%]; common practice, no source
TOLERANCE_PCT = 5.0
#: middle speeds of the bands, where both curves hold them [m/s]; common practice, no source
MATCH_SPEEDS = (0.05, 0.1, 0.15, 0.25, 0.4)
#: the same in a library of US units: round in in/s [m/s]; common practice, no source
US_MATCH_SPEEDS = tuple(INCH * s for s in (2, 4, 6, 10, 16))
#: either, by the units of a library [m/s]; common practice, no source
SPEEDS: Mapping[Shown, tuple[float, ...]] = {"metric": MATCH_SPEEDS, "us": US_MATCH_SPEEDS}
#: how far a band reaches to either side of its speed, a share of it [1]; judged: a tenth calls one shock two where a
#: table and a trace place a knee apart; half-way to the next speed tells the mean of 35 to 70 mm/s as that at 50
BAND_REACH = 0.2
#: differences are shares of the force, but of no less than this [N]; common practice, no source
FELT = 60.0
#: scatter from taking a shock off the rig and on again, standard deviation, a share of force [1]; common practice, no
#: source. It decides how sure a difference between single runs is
REPEATABILITY = 0.003
#: quantile of a band's interval [1]: 97.5 % a band, since the errors of one direction hang together, so both directions
#: then hold at once 19 times in 20 (numerics: two-sided normal quantile of 0.9875, Bonferroni for two)
Z_BOTH = 2.2414
#: more repeats than this nobody runs [1]; common practice, no source
MOST_REPEATS = 20
#: what a click turned must gain before it is worth turning, and what turning one more adjuster must [%]; judged
WORTH_A_CLICK = 0.05
WORTH_AN_ADJUSTER = 0.3
#: two curves that never differ by more than this share beyond a crossing are alike there, not crossing [1]; judged
ALIKE_SHARE = 0.01
#: with fewer points in a direction their scatter says nothing [1]; judged
FEWEST_POINTS = 5
#: tables whose speeds differ by no more than this share are of the same speeds [1]; common practice, no source
ALIKE_SPEEDS = 0.02
#: a point is never taken to be better than this share of its force [1]; common practice, no source
LEAST_SCATTER = 0.002
#: how much below the lowest speed of a curve a table's point may lie and still be held against it [1]; common practice,
#: no source
LEAST_HELD = 0.95
#: speeds from a table's first point to its last at which it is held against a curve [1]; numerics
BETWEEN_POINTS = 40
#: a table's force scatters as a share of itself and of this share of its highest [1]; common practice, no source: part
#: of a cell's error is the same newtons everywhere
FLOOR_SHARE = 0.15
