"""How a map is tabulated, what a click is worth, what stands in for a curve (tables, authority, equivalent)."""

from __future__ import annotations

#: tabulated speeds of a direction, zero among them [1]; numerics: between them force is interpolated
TABLE_SPEEDS = 49
#: how far the tables go beyond the highest tested speed [1]; judged: the last piece is carried on so far, within bands
#: that widen
MARGIN = 1.3
#: half of a band is never less than this share of force [1]; common practice, no source
LEAST_BAND = 0.01
#: at how many positions of each adjuster, and speeds, the band is worked out [1]; numerics: between them it is
#: interpolated
BAND_POSITIONS, BAND_SPEEDS = 6, 8

#: a click that moves no force by this share is dead [1]; common practice, no source
DEAD_SHARE = 0.003
#: fewer dead clicks in a row are not told of [clicks]; judged: made screws are first taken to be dead over two
FEWEST_DEAD = 2
#: an adjuster has a say where a click moves force by this share [1]; common practice, no source
SAY_SHARE = 0.01
#: speeds at which authority is given [m/s]; common practice, no source
AUTHORITY_SPEEDS = (0.025, 0.05, 0.1, 0.15, 0.25, 0.4, 0.5)
#: the same where people read inches: 1, 2, 4, 6, 10, 16, 20 in/s [m/s]; common practice, no source
AUTHORITY_SPEEDS_US = tuple(0.0254 * s for s in (1, 2, 4, 6, 10, 16, 20))

#: speeds at which a setting is held against the curve it stands in for, where the data hold them [m/s]; common
#: practice, no source: a rig's usual peaks, closer where the knee lies
EQUIVALENT_SPEEDS = (0.025, 0.05, 0.075, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5)
