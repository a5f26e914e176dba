"""How lags settle and ways to explain a record are followed: every number with its source and what it decides.

"Judged" is our judgement; where it says "on made worlds", on records as `tests/worlds` makes them.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Step:
    """The longest step of a linearised effect: beyond it overshoots where the curve is steep."""

    lag: float = 0.003  #: [s]
    spread: float = 2e-5  #: [s²]
    give: float = 8e-7  #: [m/N]
    air: float = 2e-6  #: [m/N]


#: of each effect [units above]; numerics: it decides how soon a fit ends, not where
LONGEST_STEP = Step()

# Where to start from
#: net of starting values for lag [s] and give [m/N], rows it is tried on, and how many of the best are followed [1];
#: judged: the net is as close as basins are wide, and two of them often lie near
LAG_NET, GIVE_NET, FEW_ROWS, BASINS = (0.0, 0.003, 0.008), (0.0, 3e-7, 8e-7, 1.6e-6), 1000, 2
#: of each law of friction as long as lag is not known [N]; judged: friction must not take what damping behind a
#: spring does
FRICTION_FIRST = 8.0
#: exponent of the slope near zero while lag settles [1]; common practice, no source: an orifice, the commonest bleed
BLEEDS = 1.0

# How long a way is followed
#: rows on which lags settle: beyond that they change no more [rows]; numerics
SOME_ROWS = 6000
#: rounds in which friction and lag settle: from either start, from the better one, and on all rows [1];
#: judged: enough for `STILL` to end most
TRIED, FOLLOWED, SETTLED = 2, 4, 2
STILL = 0.001  #: they have settled where a round lowers the loss by less than this share [1]; numerics

# Which ways count
#: two ways to explain a record are both kept within this factor of their loss, and then each counts for at least this
#: share, evidence between them tempered [1]; judged on made worlds: models that are all a little wrong
TIE, EACH_WAY, TEMPER_OF_WAYS = 1.6, 0.25, 0.1
#: mean square of the force by which the lags of two ways differ, over the noise's, below which they are one way [1];
#: judged: on records of simulated rigs it is under 0.02 or well above. And by how much friction may differ, as a share
#: of the largest force [1]: a valve that stands from the first mm/s on passes for far more of it one way than the other
LATE_ALIKE, RUB_ALIKE = 0.02, 0.02
