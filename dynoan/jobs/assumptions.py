"""What jobs take for granted, with unit, source and what it decides."""

from __future__ import annotations

#: [°C] tests further apart than this differ by their oil too, which is said; common practice, no source
WARM_APART = 10.0
#: [N] gas forces further apart than this are worth a word; common practice, no source
GAS_APART = 20.0
#: [%] a stand-in that is off by more than this at some speed is none; common practice, no source
CLOSE_PCT = 10.0
#: [1] what of the mean difference counts beside the worst one in ranking stand-ins; judged: it parts those that are
#: equally bad at their worst, and no more
MEAN_COUNTS = 0.1
#: [m/s] highest speed to run a new pack at, where none is asked for; common practice, no source
TOP_SPEED = 0.5

#: [1] share of the travel that the fit of launches leaves from which their logs are doubted; judged: rough ground
#: leaves a third
MISFIT = 0.5
#: [m/s²] the car has left where its acceleration is above; judged: idling and wind shake a car by less
HAS_LEFT = 1.0
#: [s] over which acceleration is evened out first; judged: an engine's shaking goes, a start stays
EVENED_OVER = 0.1
#: [s] after the start, over which an acceleration's mean tells its sign; judged: a launch pushes at least so long
FORWARD_FOR = 1.0

#: [1] share of a run that the driven wheels spin from which no setting makes a difference; judged: the drive is then
#: far beyond what the surface holds at any load
SPUN_THROUGH = 0.8
#: [1] share of grip and drive more at which a car that goes over is said to be near to it; judged: in its last 5 % the
#: height of the front wheels grows by a third and more for each further 1 % of grip
NEAR_OVER = 0.05
#: [1] share of a run that the driven wheels spin from which it is told what decides; judged: less is a start
SPINS_FROM = 0.05
#: [1] by how much the grip when sliding is changed to see what it decides; judged: a surface is known no better
GROUND_SHARE = 0.1
#: [1] share of what foot and ground move below which the shocks hardly decide; judged: a word only
LITTLE_BESIDE = 0.2
#: [1] shares of the torque of a driver who lifts that are tried for the way that is farthest; judged: steps of 5 %
FEET = tuple(n / 20 for n in range(4, 20))
#: [1] slips of one who holds the wheels there that are tried for it; judged: about the peak and beyond
SLIPS_HELD = (0.05, 0.1, 0.15, 0.25, 0.4)
#: [m] body separation at which anti-squat is told besides at rest; common practice, no source
SEPARATION = 0.05
#: [rounds] over both axles at most in a search for aims; numerics: two or three are usual, and where they do not settle
#: it is said
MOST_TURNS = 6
#: [searches] at most where the launch shown misses a limit that the search saw kept; numerics: each is a whole search
MOST_TRIES = 3
#: [1] share of a limit that such a search keeps in hand beyond what it fell short by; numerics: more than its time step
IN_HAND = 1e-4
#: [1] weight of a limit that is broken beside what is to be made least; numerics: any large one puts limits first
LIMITS_FIRST = 1e6
#: [1] of the range of a figure to be made least that one click of turn is worth; judged: with more of it clicks stay
#: where a better launch is in reach, with none they move for differences nobody would feel
A_CLICK = 2e-4

#: [1] a time or a speed further than this factor from the median of a trial's others is asked about; judged: no setting
#: makes a car three times as quick, a slipped point makes it ten times
FAR_RESULT = 3.0
#: [1] the same from those of its own day, where there are some; judged: one course, one car: a run of two thirds of the
#: time was broken off or cut, and a speed in km/h among mph is 1.6 times too large, in m/s 2.2 times too small
FAR_OF_A_DAY = 1.5
