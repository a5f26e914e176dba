"""What taking a trace apart assumes: every number a referee would question, with its source and what it decides."""

from __future__ import annotations

from dataclasses import dataclass

# How the fit is carried out (numerics)
#: rows the joint fit works on; the estimates change no more beyond that [rows]
ENOUGH = 25_000
#: clusters to judge scatter by, at least
FEWEST = 8
#: an effect that the others make up to one part in this cannot be told from them (one speed: x² is a function of v)
COLLINEAR = 1e4
#: residuals beyond this count less, in standard deviations (Huber, 1964: 1.345 costs 5 %; wider, since lag leaves
#: structure that must keep its say; common practice, no source): in the joint fit, and in the points of the curve
HUBER_FIT, HUBER_POINTS = 2.5, 3.0
#: residuals are cut off here where fits of different weights are compared, in standard deviations
BOUND = 3.0

# Friction
#: speeds over which friction turns around, tried in turn [m/s]; common practice, no source
TURNING = (0.002, 0.001, 0.0005, 0.004)
#: χ² above the least from which a turning speed is out of the question
OUT = 12.0
#: share of friction that is not clear enough to take out, or of its error, that is doubted: most often none is there
SPLIT_BIAS = 0.1
#: friction is taken out where it exceeds so many standard errors
CLEAR_FRICTION = 4.0
#: standard error up to which "no friction" may be said [N]
NO_FRICTION = 10.0

# Lag
MOST_DELAY = 0.01  #: of the force channel, either way [s]; common practice, no source
#: in series with the valve: negative by no more than errors explain, and no softer than a rubber bush [m/N]
LEAST_COMPLIANCE, MOST_COMPLIANCE = -1e-6, 2e-5
#: delay and compliance are told apart where their errors are correlated less than this
MOST_CORRELATION = 0.985
#: and the delay is known to this [s]
KNOWN_DELAY = 4e-4
#: at one speed a delay above this is not believed [s]; common practice, no source
PLAUSIBLE_DELAY = 0.005


@dataclass(frozen=True)
class Step:
    """The longest step of a linearised effect: beyond it overshoots where the curve is steep."""

    delay: float = 0.0015  #: [s]
    compliance: float = 4e-7  #: [m/N]


LONGEST_STEP = Step()

# Gas
#: gas force over travel beyond this is none [N/m]
STEEPEST = 4000.0
#: polytropic exponent taken for the gas, between slow (1) and fast (1.4): what a record shows of it is its bend alone
POLYTROPIC = 1.2
#: a curvature of the gas force is kept where it exceeds so many standard errors
CLEAR_CURVATURE = 4.0

# Temperature
#: a drift with temperature is looked for from this range on [K], and kept where it exceeds so many standard errors
#: and this share of the force per kelvin
LEAST_WARMING, CLEAR_DRIFT, LEAST_DRIFT = 3.0, 6.0, 3e-4

# Speeds
#: blocks whose top speeds differ by less than this factor are one speed
ONE_SPEED = 1.5
