"""What taking a trace apart assumes: every number a referee would question, with its source and what it decides.

"Judged" is our judgement; where it says "on made worlds", on records as `tests/worlds` makes them.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

# How the fit is carried out (numerics)
#: rows the joint fit works on; the estimates change no more beyond that [rows]; numerics
ENOUGH = 25_000
#: clusters to judge scatter by, at least [1]; judged: fewer tell it too badly to weigh by
FEWEST = 8
#: residuals beyond this count less, in standard deviations (Huber, 1964: 1.345 costs 5 %; wider, since lag leaves
#: structure that must keep its say; common practice, no source): in the joint fit, and in the points of the curve [1]
HUBER_FIT, HUBER_POINTS = 2.5, 3.0
#: residuals are cut off here where fits are compared, in standard deviations of the noise [1]; judged: so far off is a
#: fault of the record, not of a fit
BOUND = 20.0


# Gas
#: polytropic exponent taken for the gas, between slow (1) and fast (1.4): what a record shows of it is its bend
#: alone [1]; common practice, no source
POLYTROPIC = 1.2
#: gas gives its warmth away within about these times [s]; charges behind a piston or in a bag of a shock take 1 to
#: 20 s; common practice, no source
GAS_SETTLES = (0.5, 2.0, 8.0)
#: by which share gas is stiffer before it does, standard deviation: none to 0.4 (nitrogen), and so much force over half
#: a stroke where its rate is not known yet [N]; judged: about the middle of that range
GAS_STIFFER, GAS_STIFFER_FIRST = 0.25, 1.5

# Which samples are used
#: where cycles of constant speed are less than this share of all that moves, all that moves is used [1]; judged: a
#: speed that was run for one turn tells most of gas and friction where it is the slowest
MOSTLY_STEADY = 0.6
#: fewer cycles of constant speed are not used alone [cycles]; judged: one or two may be anything
ENOUGH_CYCLES = 3
#: nor is anything else used where speed between them is known no better than this [m/s]; judged: friction turns around
#: over 0.5 to 6 mm/s
NOISY_SPEED = 0.002

# Temperature
#: a drift with temperature is looked for from this range on [K]; its standard deviation, share of the force [1/K];
#: common practice, no source
LEAST_WARMING, DRIFT = 3.0, 0.004

# Speeds
#: blocks whose top speeds differ by less than this factor are one speed [1]; judged: rigs step theirs by more
ONE_SPEED = 1.5
#: runs of one setting are one record where their strokes' middles differ by less than this share of a stroke, and where
#: that leaves no more than so many times the square of what is left of each by itself [1]; judged: else
#: something changed between them that no one fit can hold
SAME_MIDDLE, AGREE = 0.05, 1.6

# Velocity
#: scale of a recorded velocity that no displacement beside it holds, standard deviation, a share [1]; common practice,
#: no source: transducers of speed are good to 1 %, their amplifiers and units are set by hand
UNCHECKED_SCALE = 0.02

# Shape of damping
#: spline edges near zero [m/s], and the ratio of the edges above them [1]; judged: finer than valves bend
FIRST_EDGES, EDGE_RATIO = (0.0002, 0.0005, 0.001, 0.002, 0.004, 0.007, 0.011, 0.016), 1.17
#: by which share the slope changes over a factor e of speed, standard deviation: little below the first of these speeds
#: [m/s], where all flow goes through bleed and leaks, more above the second, where valves open [1];
#: judged: a knee changes the slope by a factor of two or more, a bleed hardly
BLEED_SPEEDS, SLOPE_CHANGE = (0.02, 0.05), (0.15, 0.9)
#: slope below which it counts as this share of the secant [1]; judged: logarithms need some
SLOPE_FLOOR = 0.15
#: and below the first of those speeds it may be so many times the secant there [1], for a valve that stands up before:
#: tried where more than so many times as much is left over there as above and as noise makes [1], and believed where it
#: leaves less than this share of that [1]. Not where all blocks have one speed: lag and friction look like that there.
#: Judged on made worlds, where it leaves 5 to 75 % with such valves and 85 % or more with others
STEEP_START, LEFT_OVER, FAR_LESS = 3.0, 2.0, 0.8
#: below this speed [m/s] both directions' damping is about as strong where it starts alike, to a share of it, standard
#: deviation, or to so much [N]: nearly the same bleeds and leaks pass the oil; common practice, no source
EVEN_BELOW, EVEN_SHARE, EVEN_AT_LEAST = 0.008, 0.6, 10.0
#: the share where they start in different ways: a valve that is steep at rest one way alone has nearly all of it on one
#: side, which is twice the mean [1]; judged
UNEVEN_SHARE = 2.0

# Friction laws tried together, each with a coefficient that is not negative
TURNING_SPEEDS = (0.0005, 0.001, 0.002, 0.0035, 0.0055)  #: [m/s]; common practice, no source: 0.5-6 mm/s
#: where breakaway is gone [m/s]; common practice, no source: seals of rubber 1-15 mm/s
STRIBECK_SPEEDS = (0.003, 0.007, 0.014)
#: travel over which friction turns [m]; common practice, no source: rubber 0.01-0.4 mm
PRESLIDING = (0.000012, 0.00003, 0.00008, 0.0002, 0.0004)
#: force of bent bristles by their rate over that by how far they are bent [s]; common practice, no source: up to 1 ms
BRISTLE = 0.0005
#: of each law, and of each law of breakaway, standard deviation of the half normal [N]; judged: above what seals rub
FRICTION_SCALE = 40.0
BREAKAWAY_SCALE = 12.0
#: all breakaway together over the sliding friction of its kind: a seal that sticks rubs a fifth more, half more at the
#: most [1]; common practice, no source. Without it a steep start of the damping passes for breakaway of hardly a
#: friction
BREAKAWAY_SHARE = 0.2


@dataclass(frozen=True)
class FrictionKind:
    """One kind of friction: its level about `usual`, what turns it around, breakaway as a share of its level."""

    usual: float  #: mean of all laws together [N]
    spread: float  #: its standard deviation [N]
    laws: tuple[str, ...]
    breakaway: float
    common: float  #: how common it is, share
    away: tuple[str, ...] = ()  #: laws of breakaway


_TURNS = tuple((f"turn {a:g}", f"turn {b:g}") for a, b in pairwise(TURNING_SPEEDS))
_SLIDES = tuple((f"slide {a:g}", f"slide {b:g}") for a, b in pairwise(PRESLIDING))
_AWAY = tuple(f"breakaway {s:g}" for s in STRIBECK_SPEEDS)
_AWAYS = tuple(tuple(f"away {s:g} {a:g}" for s in STRIBECK_SPEEDS) for a in (*PRESLIDING[:-2], PRESLIDING[-3]))
#: seals and guides of a shock without load rub with 5 to 40 N, over 100 N are met, less than 5 N now and then, none
#: hardly ever (the last kinds: little, and no telling how it turns around; none) [N]; common practice, no source. A
#: shock's friction turns around in one way, over one speed or one travel (those next to each other make up any
#: between): several of them together could make up for any start of the damping. Evidence weighs them
FRICTION_KINDS = (
    *(FrictionKind(18.0, 15.0, laws, 0.0, 0.4 / len(_TURNS)) for laws in _TURNS),
    *(FrictionKind(18.0, 70.0, laws, 0.25, 0.2 / len(_TURNS), _AWAY) for laws in _TURNS),
    *(FrictionKind(18.0, 30.0, laws, 0.25, 0.25 / len(_SLIDES), away)
      for laws, away in zip(_SLIDES, _AWAYS, strict=True)),
    FrictionKind(0.0, 3.0, tuple(f"turn {a:g}" for a in TURNING_SPEEDS), 0.0, 0.08),
    FrictionKind(0.0, 1.5, (), 0.0, 0.04),
)  # fmt: skip
#: the first of them is expected while lags settle, mean and standard deviation [N]; common practice, no source
USUAL_FRICTION, FRICTION_SPREAD = 18.0, 15.0
#: of a shock whose force goes beyond so much [N] seals are larger, and rub by such a power of that more [1]: those of
#: trucks with 30 to 250 N; common practice, no source
USUAL_PEAK, LARGER_SEALS = 3000.0, 0.7
#: friction more at one end of the stroke, a share of it: guides under bending rub by a third more there [1]; common
#: practice, no source
TRAVEL_SHARE = 0.3
#: laws by which that turns around, of friction that turns over a speed and of that over a travel; judged [m/s, m]
TRAVEL_LAWS = ("turn 0.002", "slide 3e-05")
#: by which share friction is more in compression and less in rebound than its mean [1]: a lip rubs a fifth more one
#: way; common practice, no source. A valve that is steep at rest one way alone looks the same
TILT_SHARE = 0.22
#: beyond such a share of its mean [1], and so much [N], no lip makes it: then so little of `TILT_SHARE` is tried [1],
#: and believed where it leaves no more than so many times as much [1]; judged: few slow rows tell it from gas force
TILT_MOST, TILT_SMALL, TILT_HARDLY, NOT_MORE = 0.6, 2.0, 0.05, 1.5
#: as which of `TURNING_SPEEDS` has it, where friction turns around over a travel, or as it may; judged [m/s]
TILT_SPEED = 0.002
#: where it turns around over a travel it goes from the one level to the other as if both were one, and gas force
#: takes the rest: a share of friction by which that may be so beside what a record tells, standard deviation [1];
#: judged
TILT_UNSEEN = 0.12
#: friction that turns around over some mm/s and a fluid that yields over some more are one to a record: by how much
#: what yields may be friction, standard deviation [N]; and by which share of the evidence it is judged whether friction
#: turns around as slowly as that [1]; from which of `TURNING_SPEEDS` on [m/s]. Judged on made worlds
SAME_AS_YIELD, SAME_TEMPER, SAME_SPEED = 14.0, 0.3, 0.002
#: by which share a seal rubs more or less than one level says, standard deviation [1], and from what speed on that is
#: so for good [m/s]: at rest it holds up to a twelfth more, and less once it slides; common practice, no source
LEVEL_UNTOLD, LEVEL_UNTIL = 0.05, 0.01
#: and by how much at least [N], where that is less than such a share of the largest force [1]: no seal is told to the
#: newton; judged
LEVEL_LEAST, LEVEL_LEAST_SHARE = 1.0, 0.0015
#: behind a spring that gives so much [m/N] hardly any friction may be so many times the usual, standard deviation [1];
#: judged on a made shock behind a bush
GIVES_MUCH, BEHIND_SPRING = 5e-7, 1.4
#: damping starts at once where such a share of that at so many m/s is there at `LEVEL_UNTIL` [1]; judged: of an orifice
#: 0.45 is. And by which share of what it starts with it may do so unlike in compression and rebound, of a valve that is
#: all there at once, standard deviation [1]; judged: a valve holds up to twice as much one way
STARTS_AT_ONCE, STARTED_BY, UNLIKE_STARTS = 0.5, 0.05, 0.14
#: how likely it is that friction stronger than usual is a valve that holds from rest, where neither a fluid is taken to
#: yield nor a bleed to pass oil there [1]; judged on made worlds: behind a spring the two are one to a record. From
#: twice `FRICTION_SPREAD` beyond the usual on some of what is beyond may be, from four times on all
VALVE_INSTEAD = 0.3

# Priors of the joint fit: standard deviations of effects that are there or not
#: gas force over travel [N/m]; common practice, no source
GAS_RATE = 8000.0
#: lengths of gas columns tried, in half strokes [1]; common practice, no source: from hardly any gas left to none felt
COLUMNS = (1.15, 1.4, 2.0, 4.0, float("inf"))
#: gas force beyond what such columns make at the ends of the stroke [N]; common practice, no source
GAS_BEND = 5.0
#: a force channel ahead of displacement by [s]; common practice, no source
EARLY = 0.001
#: friction of a guide under side load over the force, where a rod leans most: a rod of 3 to 7 radii, a guide that
#: rubs with 0.03 to 0.08 [1]; how common it is; and what share of the evidence is believed, since fade and luck of
#: turns look a little like it. Judged on made worlds
SIDE_LOAD, SIDE_LOADED, SIDE_EVIDENCE = 0.01, 0.1, 0.7
#: a crank's rod leans where the mean of its motion lies so much of the half stroke off its middle [1]; numerics: one of
#: twelve radii by a fiftieth; judged: turns left out take a yoke's off by less
LEANS = 0.015
#: of the cell over a record, share of the peak force [1], and what one of 5 to 10 kN drifts beside it [N]; common
#: practice, no source
ZERO_DRIFT, ZERO_DRIFT_LEAST = 0.01, 8.0
MASS = 1.0  #: moving on the cell [kg]; common practice, no source
#: of damping over a record, share: by how much warm oil lets it fall, and by how much it may rise as oil cools or foam
#: settles [1]; common practice, no source. Where speeds come in rising order, a rise with time and one with speed are
#: one to a record
FADE, GROWTH = 0.04, 0.005
#: by what share of it damping falls less at speed, where it is turbulent and hangs on the oil's density, than at low
#: speed, where it hangs on viscosity: mean and standard deviation [1]; the speed from which on it does [m/s]; judged,
#: between valves that are one or the other throughout
FADE_LESS, FADE_LESS_SD, FADE_LESS_FROM = 0.25, 0.3, 0.1
LAG = 0.005  #: of the force channel [s]; common practice, no source
LAG_SPREAD = 1e-6  #: variance of its response, at least [s²]; common practice, no source
GIVE, AIR = 8e-7, 1e-6  #: of oil and mounts, and of air at zero force [m/N]; common practice, no source
AIR_FORCE = 150.0  #: force at which the give of air has fallen to a quarter [N]; common practice, no source
#: of damping from turn to turn, share, and how many turns that is worth [1]; common practice, no source
TURN_SCATTER, TURNS_KNOWN = 0.002, 4.0
#: gas and zero of a trace: mean [N], standard deviation [N], and its part that goes with the peak force [1], for a
#: cell that is off or was set to zero under load; common practice, no source. Gas pushes: a valve that holds one way
#: alone, and gas that pulls beside one that holds both ways, are one to a record
OFFSET, OFFSET_OPEN, OFFSET_SHARE = 120.0, 150.0, 0.03
#: effects beside the splines that residuals have paid for [1]; judged: about as many as a record tells
PAID = 12
#: draws from what the joint fit leaves open [1]; numerics: a spread is known to some 13 % from them
DRAWS = 32
#: what is less likely than this gets no draw [1]; judged: less than one draw would be its
NO_DRAW = 0.02
#: bins of a cycle in which model error is looked for [1]; judged: fine enough for a knee, full enough to tell
PHASES = 48
#: variance of model error by what its residuals show, since the fit has absorbed most of it, and of noise likewise
#: [1]; judged on a broad mix of made worlds
MODEL_ERROR, WHITE_ERROR = 3.0, 2.0
#: a spring that holds the valve back for less than this share of a row's time does not miss how force turns [1]; judged
#: on records without one
SHARP_FROM = 0.1
#: that of model error about zero speed, so many times more [1], within so many [m/s]; judged on made worlds
REVERSAL_ERROR, REVERSAL = 4.0, 0.015
#: how force may start from zero, force ~ v^(1 + exponent): a fluid that yields (-9), a valve that holds far more one
#: way than the other, as preload or a check makes it (-8), digressive from the start or thins (two of them), leaks,
#: an orifice with a leak beside it (two of them, named by the leak's share of the flow at the first of `BLEED_SPEEDS`;
#: no power), an orifice alone, one that opens late; how common, and what share of the evidence is believed, since the
#: laws are rough [1]; judged: valves of both kinds are met, most of them orifices or leaks or both
YIELDS, ONE_YIELDS, LEAK_BESIDE, LITTLE_LEAK = -9.0, -8.0, 0.5, 0.2
STARTS = (YIELDS, ONE_YIELDS, -0.55, -0.3, 0.0, LEAK_BESIDE, LITTLE_LEAK, 1.0, 1.5)
STARTS_PRIOR = (0.07, 0.02, 0.03, 0.03, 0.14, 0.21, 0.21, 0.18, 0.12)
TEMPER = 0.7
#: the same where all blocks have one speed: there lag, gas and friction imitate any law, so that a way which is a
#: little wrong looks far likelier than it is [1]; judged on made worlds
TEMPER_ONE_SPEED = 0.15
#: one passage whose flow is laminar first and turbulent then, whose forces add up, named by the laminar share of the
#: slope at the first of `BLEED_SPEEDS` [1]: in tables alone, where rows begin later and it stands for the other
#: two; judged
LAMINAR_FIRST = 0.3
#: starts tried with all kinds of friction, and the one of them tried first; by how much less likely, in logarithm, a
#: kind may be with that one to be tried with the other two, and (each with the share of the evidence that is believed)
#: with these to be tried with the other starts, and starts to be tried apart; and with how many kinds of friction
#: directions are tried apart [1]; judged: each start more takes its time, and what is far less likely has no say
FIRST_STARTS, LOOSEST, DEAD, NO_HOPE, SOME_HOPE, APART = (YIELDS, 0.0, 1.0), YIELDS, 30.0, 3.0, 6.0, 3
#: exponent of the slope near zero where a fluid yields [1]: what is more than its yield thins with speed, as in the law
#: of Herschel and Bulkley (1926, quoted from memory); judged
YIELDS_THEN = -0.3
#: speeds over which a fluid yields [m/s], and how much of the peak force that may be [1]; judged: above those over
#: which friction turns, below those of a knee
YIELD_SPEEDS, YIELD_SHARE = (0.006, 0.01, 0.017, 0.028), 0.25
