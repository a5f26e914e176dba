"""What the launch takes for granted: every number a referee would question, with its source and what it decides.

How the pitch inertia is estimated where the car's file states none is in `dynoan.analysis.inertia`; at small angles
(`model`) the friction of the seals, drag, the damping of the tyres and the change of the height of the centre of
gravity are left out.
"""

from __future__ import annotations

# The car
#: rate of a bump or droop stop at one wheel [N/m]; common practice, no source. Real stops are progressive. It decides
#: how far a wheel goes beyond its travel and how hard the body is hit.
STOP_RATE = 300e3
#: a travel that no wheel reaches, where the car's file states none [m]; numerics: there is no stop then, which is said
NO_STOP = 10.0
#: a stop farther away than this is none [m]; judged: no car has so much travel
STATED_STOP = 1.0
#: share of the drive force at the front where all wheels drive and the file states none [1]; common practice, no source
FRONT_DRIVE = 0.5

#: loaded radius of the wheels where the file states none [m]; common practice, no source. It decides how far the body
#: moves back as it pitches, and little below 5°.
WHEEL_RADIUS = 0.30
#: of one driven wheel with tyre and brake where the file states none [kg·m²]; common practice, no source
WHEEL_INERTIA = 0.9
#: speed of a wheel's travel at which the friction of the seals has turned over [m/s]; common practice, no source
FRICTION_TURN = 0.004
#: travel of a wheel over which friction lets go that held the car where it stood [m]; common practice, no source: a
#: seal's lip rolls over some tenths of a millimetre before it slides
FRICTION_GIVES = 2e-4
#: most of the friction that may hold a car where it stands, of the whole: an even law over all of it has so much within
#: 95 % [1]; judged: nobody knows which way a car last rolled. It decides bands alone
MOST_STUCK = 0.95
#: links are followed no farther along the travel than this [m]; common practice, no source
FARTHEST = 0.15

# The drive
#: time over which the drive comes in [s]; common practice, no source. It decides the fastest nose rise.
RISE = 0.15
#: where nobody says how the drive comes in, it takes so many times less or more than that, 19 times of 20 [1]; common
#: practice, no source: a dropped clutch bites within 0.04 s, one that is let slip takes 0.15 s to the limit of the
#: tyres. It decides most of the band of the fastest nose rise.
RISE_UNKNOWN = 2.0
#: the drive asked for where there is no other wish, over what the driven tyres hold at rest: so much that the grip
#: limits it all the way even with load transfer [1]; judged
MORE_THAN_GRIP = 2.0
#: time in which the foot of a driver who holds a slip goes from the floor to off when the wheels run away [s]; judged.
#: It moves the slower the nearer the slip is. It decides how long wheels spin before he has caught them.
FOOT_TIME = 0.3
#: a torque is about what the driven tyres hold where it is between so many times that, at rest [1]; judged: decides a
#: sentence only. A car reckoned otherwise, whose tyres roll 0.3 m until their force has come in, spun 0.73 s there in
#: the place of 1.94 s on two rough roads with open clicks, and as long as without it at 0.83 and at 1.38 times that
AT_THE_EDGE = (0.9, 1.3)
#: speed of a spinning wheel's tread beyond which a torque is said to be none of a gear that a car leaves the line in
#: [m/s]; judged: decides a word only
FASTEST_TREAD = 60.0
#: slips that a driver can hold [1]; judged. Below, no wheel drives; above, nobody would call it holding.
HELD_SLIPS = (0.01, 1.0)
#: a friction coefficient that limits nothing, for a measured acceleration [1]; numerics
NO_LIMIT = 1e9
#: friction coefficients above this are refused [1]; no tyre on any ground has more; common practice, no source
MOST_GRIP = 5.0

# The ground
#: where on the made-up road the front wheels stand [m]; judged: the rear ones and what rolls back lie on it too
START = 50.0
#: samples of the road behind where the rear wheels stand [1] (numerics: what lies between samples takes
#: their neighbours)
BEHIND = 4
#: waves of the road [cycle/m]; judged. Longer ones lift the whole car and would pass for nose rise, shorter ones the
#: tyre swallows.
ROAD_BAND = (0.1, 2.83)

# How long
#: of a launch [s]; common practice, no source
DURATION = 3.0
#: shorter and longer launches are mistakes [s]; judged
SHORTEST, LONGEST = 0.05, 30.0

# How it is carried out (numerics)
#: time step [s]; numerics: errors of 1e-5 of the range on the benchmark's washboard road, see
#: `tests/benchmarks/bench_launch.py`
STEP = 2.5e-4
#: a trace is kept at every so many seconds [s]; numerics
KEPT = 2e-3
#: share of all work by which the energy may miss before it is said [%]; judged: decides a word only
ENERGY_MISS = 0.1

# The figures
#: the last share of the run that counts as its end [1]; judged. It decides loads, rise and pitch "at the end".
END = 0.1
#: share of the end value within which the pitch has settled [1]; common practice, no source: the usual settling time
#: (so K. Ogata, *Modern Control Engineering*, ch. 5; from memory)
SETTLED = 0.05
#: a drive force this much below the asked counts as limited by the grip [N]; numerics
BARELY = 1e-6

# Damper curves as hinge sums (numerics)
#: points of the wheel-speed grid a curve is taken on, and its first speed after zero [m/s]; numerics
GRID, SLOWEST = 160, 0.002
#: share of the top force below which an error counts as an absolute one [1]; judged. It decides how much slow speeds,
#: where a car spends most of its time, count beside fast ones.
FLOOR = 0.08
#: density of knots on a straight line, over the top speed [1]; numerics: keeps them apart where any would do
EVEN = 0.02
#: a knot's share of the bend may be so many times the mean one, the excess capped in so many rounds: a sharp knee must
#: not draw all knots into one cell of the grid [1]; numerics
CAP, CAPPING = 1.5, 12
#: pull of a knot toward the curve, as a share of the normal equations: settles knots that no grid point lies between
#: [1]; numerics
PULL = 1e-6
#: keeps shares of no force at all finite [N]; numerics
NO_FORCE = 1e-9
#: settings whose curves are turned into hinges at a time [1]; numerics
CURVES_AT_ONCE = 1024

# What the car's own ± leave open (numerics)
#: cars drawn with their mirror images, at least; with more uncertain values twice as many as these. It decides how well
#: a figure that is bent in the values is known: from 24 cars a spread is known to some 15 % [1]; numerics
DRAWN_PAIRS = 12
#: of the dice [1]; numerics
DRAWN_SEED = 8608
#: roads on which the drawn cars are run, for figures that the road decides [1]; numerics
DRAWN_ROADS = 4

# The search over clicks (numerics but for TIE)
#: up to so many settings all run at the scene's own step [1]; numerics
FINE = 2000
#: step of the first pass where there are more [s]; the rms load is then off by 0.1 % of its range;
#: numerics
COARSE_STEP = 2e-3
#: of the first pass at large angles, for settings that stay stable in it [s]; numerics: it ranks as well as 1 ms does,
#: 0.99 of the rank agreement of the fine step's for the load's unsteadiness, where two roads stand for six
LONG_STEP = 4e-3
#: share of the range of a figure within which two settings are equally good [1]; judged. It decides when the setting
#: nearest to what is on the car wins.
TIE = 1e-3
#: threads that run blocks of settings, at most [1]; numerics
MOST_THREADS = 8
#: the most settings that are searched [1]; judged: beyond it the search is refused
MOST_SETTINGS = 1_000_000
