"""What fitting a curve assumes: every number a referee would question, with its source and what it decides."""

from __future__ import annotations

#: factor on the standard deviation of what a record leaves open, settled on a broad mix of made worlds
CALIBRATION = 1.0
#: 95 % of a normal lie within so many standard deviations
WITHIN = 1.96
#: growth of friction with the valve's force, standard deviation [1/N]: seals energised by pressure, side load (common
#: practice, no source: 10 to 30 % per kN where it is there at all)
LOADED_FRICTION = 1e-4
#: what a spline leaves of a real valve at the least, standard deviation: share of the force there, and of the largest
LEAST_SHARE, LEAST_SPAN = 0.001, 0.0005
