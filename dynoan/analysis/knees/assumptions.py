"""What finding knees takes for granted: each with its unit, its source, and what it decides.

"Judged" is our judgement, with no source; "common practice, no source" is a fact of the trade.
"""

from __future__ import annotations

#: knees a direction may have [1]; common practice, no source: bleed, valve and port give two, a blow-off one more. It
#: decides the longest curve that can be found
MOST_KNEES = 3

# The search
#: candidates where the points are too many to try the gap after each [knots]; judged. It decides how far from the
#: optimum the polish starts, and with its square how long the search takes
CANDIDATES = 130
#: basins handed on by the search [sets of knees]; judged. The optimum is missed where more lie lower on the grid than
#: its own
BASINS = 5

# The polish
#: data points tried on either side of a knee [points]; judged: the grid left it nearer than this
REACH = 24
#: a second basin is walked where its cost is within this of the best [1]; judged
NEAR = 1.05
#: up to this many points the gaps between them are wide enough to matter [points]; judged
FEW_POINTS = 4000
#: gain as a share of the cost below which walking ends [1]; judged
GAIN = 1e-8
#: a wanted gain from which on the last, finer scan is not worth its time [1]; judged
FINE = 1e-6

# How sure a knee is
#: places of a lone knee tried over the span [places]; judged. The ends of an interval are then narrowed down
LONE_PLACES = 2001
#: and of one knee of several, the others at their best for each [places]; judged
PLACES = 31
#: extent of the places tried closely about the best one, either way, a share of the span [1]; judged
CLOSE_BY = 0.05
#: places the one other knee, or each of the two others, may start from [places]; judged
STARTS_OF_ONE, STARTS_OF_TWO = 49, 12
#: steps by which the other knees are then brought to their best, shares of the span [1]; judged
SHRINKING = (0.04, 0.02, 0.01, 0.004, 0.0015, 0.0005)
