"""What measuring a pushed corner takes for granted, with unit, source, and what it decides."""

from __future__ import annotations

#: travel at the wheel, to either side, for which frequency and ratio are given [m]; judged: what a push by hand passes
#: through. Shocks are not linear, so a ratio belongs to a travel
AMPLITUDE = 0.010
#: tyre rate over wheel rate where no car tells it, and the standard deviation of its logarithm [1]; common practice, no
#: source. It decides how much of the swing is on the tyre
TYRE_OVER_WHEEL, TYRE_SPREAD = 5.5, 0.3
#: the same spread where a car's file states the tyre [1]; judged: pressures and makes differ
TYRE_STATED_SPREAD = 0.15
#: unsprung over sprung mass where no car tells it, and the spread of its logarithm where one does, which is doubled
#: where none does [1]; common practice, no source
WHEEL, WHEEL_SPREAD = 0.13, 0.15
#: rebound over compression of the slow slopes, and the spread of its logarithm [1]; common practice, no source
REBOUND_OVER, REBOUND_SPREAD = 1.7, 0.5
#: slope above the knee over that below, and the spread of its logarithm [1]; common practice, no source
FAST_OVER_SLOW, FAST_SPREAD = 0.5, 0.5
#: speed at the wheel at which the slope changes, and the spread of its logarithm [m/s, 1]; common practice, no source
KNEE, KNEE_SPREAD = 0.10, 0.5
#: friction at the wheel over sprung mass, and the spread of its logarithm [m/s², 1]; common practice, no source: 20 to
#: 300 N on a corner of 250 kg. It decides how much of a decay is put down to friction where the log leaves it open
FRICTION, FRICTION_SPREAD = 0.20, 1.2
#: travel at the wheel over which friction turns, and the spread of its logarithm [m, 1]; common practice, no source:
#: seals slide at once, rubber bushes give some tenths of a millimetre. It decides how a swing comes to rest, and with
#: that how much of it is put down to friction
TURN, TURN_SPREAD = 3e-5, 1.5
#: the tyre's damping over the sprung mass, and the spread of its logarithm [1/s, 1]; common practice, no source: 30 to
#: 300 N s/m on a corner of 250 kg. It decides how long a body bounces on its tyres once friction holds the shock
TYRE_DAMPING, TYRE_DAMPING_SPREAD = 0.4, 1.0
#: frequencies a corner may have [Hz]; judged: no car on springs swings outside. They bound the search
SLOWEST, FASTEST = 0.6, 5.0
#: damping ratios a corner may have [1]; judged: as above. They bound the search
LEAST_RATIO, MOST_RATIO = 0.02, 1.2
#: share of its greatest value to which travel, and acceleration, must have fallen before a swing counts as free [1];
#: judged: a hand lets go within some 60 ms, while the car has moved by a seventh of the push
LET_GO_TRAVEL, LET_GO_ACCELERATION = 0.70, 0.80
#: share of its greatest value under which a pushed car is no longer held, and how long before that it was at most let
#: go [1, s]; judged: under the hand it may swing, but not so far; half a period of a slow car is longer
LEFT_BEHIND, FALL = 0.25, 0.3
#: a hand pushes a car so many times further than it swings back beyond its rest [1]; judged: at a ratio of 0.05 it
#: still swings back by six sevenths. It decides whether a channel of travel is turned round
OVER_SWING = 1.25
#: pushes are at least so far [m], or leave so much acceleration [m/s²], and so many times the samples' noise [1];
#: judged: a hand moves a corner by centimetres, and noise of thousands of samples stays below five times itself. They
#: decide whether there is a push at all
LEAST_PUSH_TRAVEL, LEAST_PUSH_ACCELERATION, PUSH_OVER_NOISE = 1.5e-3, 0.3, 6.0
#: share of their power that the linear decay nearest to all swings may leave [1]; measured on made logs: pushed cars
#: leave 0.32 at most, one that drives or idles 0.37 and more. It decides whether there is a decay to be fitted
NO_DECAY = 0.345
#: cycles below which a swing was cut short, and below which it is too short to tell its frequency [1, 1]; judged: with
#: what follows it at rest, even one that friction stops lasts longer. They decide which words
#: stand where the frequency is open
CUT_CYCLES, FEW_CYCLES = 0.5, 1.5
#: ratio from which a swing that leaves its frequency open does so since the shock damps it [1]; judged: from there the
#: fourth half cycle is below a hundredth of the push. It decides the same words
DAMPED_WELL = 0.4
#: share of the log's own deviation that a fit leaves where no one corner swings so [1]; judged: of one corner it leaves
#: some hundredths. It decides the same words
LEFT_MUCH = 0.15
#: swings that are fitted at most, the largest [1]; judged: more tell little more, and take their time each
MOST_SWINGS = 12
#: what is left of a swing once its clipped samples are cut off is to last so long [s], and begin with this share of the
#: largest push at least [1]; judged: most of a period
LEFT_LONG, LEFT_SHARE = 0.5, 0.1
#: a greatest value counts as a push from this share of the largest [1]; judged
PUSH = 0.35
#: a swing is followed for so many seconds at most [s]; judged: by then shocks have it at rest, and what is logged later
#: is somebody's hand
LONGEST_SWING = 3.0
#: a next greatest value is a push of its own from this share of the last, or after the longest period [1, s]; judged
AGAIN, LONGEST_PERIOD = 0.85, 1.1
#: a body that goes up was pressed down, not let go, where it went down before by this share of it and by this factor
#: more than after, or where it goes up further within so long [1, 1, s]; judged: hands press and hold in two seconds
PRESSED, PRESSED_OVER, CLOSE_BEHIND = 0.4, 2.0, 2.0
#: a push begins where this share of it is first left behind, and so long before [1, s]; judged
QUIET, BEFORE_PUSH = 0.05, 0.1
#: travel, and acceleration, are followed for so long once a swing has faded [s]; judged: travel shows where it stopped
REST_TRAVEL, REST_ACCELERATION = 0.5, 0.1
#: how far the zero of acceleration [m/s²], and of travel [m], may be off where the car stands; judged: a phone's rest
#: is plain, while friction lets a car stop somewhat beside its middle. It decides what an uneven swing is put down to
ZERO_ACCELERATION, ZERO_TRAVEL = 0.02, 0.002
#: a swing has died where it stays below this share of its push for so long [1, s]; judged: half a period and more
DIED, DIED_FOR = 0.06, 0.35
#: what is smaller than this share of a push is left out: there friction has stopped the shock [1]; judged
FADED = 0.02
#: error of frequency and of ratio that no scatter shows: laws that are not quite so [1]; judged from made corners.
#: They widen the limits
MODEL_FREQUENCY, MODEL_RATIO = 0.006, 0.04
#: the same of the frequency, times the ratio squared [1]; judged from 39 made corners with ratios of 0.45 to 0.7: a
#: swing that is over within a cycle takes its frequency from how the law is bent
MODEL_FREQUENCY_DAMPED = 0.025
#: the same of a ratio read from acceleration, where the zero of travel has no say [1]; judged from made corners
MODEL_RATIO_ACCELERATION = 0.02
#: the same, times the ratio: the more a swing is damped, the fewer half cycles tell how its law is bent [1]; judged
#: from made corners with ratios of 0.2 to 0.6
MODEL_DAMPED = 0.13
#: of a swing so damped that its frequency cannot be stated: error of the frequency over that of the ratio, times the
#: ratio squared [1]; judged from made corners: there both are misread together, by more than small errors say
OPEN_FREQUENCY = 1.5
#: standard deviation of how far a fit of two slopes misreads a bent law whatever the noise, a logarithm [1]; judged
#: from made corners. One simulated log shows it beside its own luck; it decides how much of what that shows counts
MISREADS = 0.15
#: the same of the ratio, for friction that takes out as much as the damping: a bristle gives before it slides, and how
#: far is not known [1]; judged from made corners
MODEL_FRICTION = 0.10
#: the travel that a swing tells its damping from, over that it begins with [1]; judged: it passes all below, and most
#: of the energy above. Friction takes the less beside damping the further a swing goes, so it decides what
#: MODEL_FRICTION costs a push further than 30 mm; for others the travel counts for which the ratio is given
PASSED = 1.0 / 3.0
#: gravity a phone at rest may show, as a share of 9.80665 m/s² [1]; judged: phones are off by some percent
GRAVITY_WITHIN = 0.1
#: samples a second that a swing needs; more are averaged [Hz]; judged: twenty a period of the quickest
QUICK_ENOUGH = 80.0
#: log and equations are smoothed over so long alike [s]; judged: a wheel hops at 8 to 15 Hz, a body swings below 4
SMOOTHED = 0.12
#: fewest samples a second that follow a swing [Hz]; judged
SLOWEST_RATE = 15.0
#: times its error by which friction must differ from none to be told from damping [1]; judged: 95 %
TOLD = 2.0
#: where the search begins: friction [m/s²] and share of the linear decay's damping; judged: little friction, more of it
#: and less damping, and twice so much that friction carries the decay
BEGUN = ((0.04, 1.0), (0.3, 0.6), (0.4, 0.4), (0.2, 0.3), (1.5, 0.3), (4.0, 0.15))
#: a hand was on the car again where the end of a swing, so long, leaves this share of its push and so many times what
#: the rest of it leaves; it is cut so long before [s, 1, 1, s]; judged
HAND_END, HAND_SHARE, HAND_OVER, HAND_BEFORE = 0.25, 0.1, 4.0, 0.2
#: a body bounces on its tyres between these frequencies, seen so long after it was let go and for so long at least,
#: where a sine leaves less than this share of the power [Hz, s, s, 1]; judged: friction holds most shocks after a cycle
RINGS, SWUNG, RINGS_FOR, RINGS_SHARE = (2.4, 7.0), 1.0, 0.5, 0.6
#: stiffness by that frequency over the body's; judged: tyres are four times as stiff as springs and more [1]
RINGS_STIFFER = 1.7
#: then a search begins with friction that turns over so little travel [m]; judged: it holds without giving
HELD = 1e-5
#: what else fits as well: its cost is higher by less than this [1]; numerics: half of chi-square's 95 % with one
#: degree of freedom
AS_GOOD = 1.92
#: ends of a first search that cost more than so many times the best are not followed [1]; judged
FOLLOWED = 2.5
#: ends of a search that differ less in the logarithms of rate, damping and friction are one [1] (numerics)
APART = 0.1
#: friction of a shock that neither the dyno nor the car's file tells, and what it may be at least and at most [N];
#: common practice, no source: what taking a record apart begins with, 18 ± 15 N. It decides how sure a prediction is
USUAL_FRICTION, LEAST_FRICTION, MOST_FRICTION = 18.0, 3.0, 48.0
#: how long the hand on the simulated corner takes to let go [s]; judged: as people push
LET_GO_TIME = 0.04
#: pushes on the simulated corner, at most, as deep as those of the log [1]; judged: between the least and the largest
MADE_PUSHES = 4
#: depth of a first push on the simulated corner, by which a phone's pushes are measured [m]; numerics
FIRST_PUSH = 0.03
#: samples a second of the simulated log, at most [Hz]; numerics: no fit takes more
MADE_RATE = 100.0
#: of the noise that is laid on the simulated log as on the real one [1]; numerics
MADE_SEED = 2617
#: step of the simulated corner [s]; judged: a fortieth of the quickest wheel hop
MADE_STEP = 5e-4
#: a measured ratio whose limits lie further apart than this factor cannot agree with anything [1]; judged
TOO_WIDE = 2.0
#: a frequency is stated where its limits lie within this share to either side, a ratio where they lie no further apart
#: than this factor [1, 1]; judged: of a swing that friction stops after few half cycles they don't
STATED_FREQUENCY, STATED_RATIO = 0.02, 4.0
#: a frequency is shown with its limits, and not as one that cannot be told, where these lie within this share to either
#: side [1]; judged: a tenth still tells a spring from the next but one
SHOWN_FREQUENCY = 0.10
#: a phone's time without a unit is in the one in which a log of 5 to 1,000 samples a second steps so: its factor, and
#: the least and greatest step [s, that unit]; judged: no two of them meet. It decides the unit
PHONE_STEPS = {"s": (1.0, 1e-3, 0.2), "ms": (1e-3, 1.0, 200.0), "µs": (1e-6, 1e3, 2e5), "ns": (1e-9, 1e6, 2e8)}
#: share of rows whose time may stand still or fall, as phones write that hand over several at once [1]; judged: those
#: rows are left out
FALLEN_ROWS = 0.02
#: how far what is written may be off where the car's file gives no ±, as a share of it: another spring, ratios that
#: were measured, a driver and fuel that were on the scale or not; where it gives one, so many times the ± [1, 1];
#: judged. They decide what is offered to explain a swing that differs
MAY_BE_OFF = {"spring": 0.4, "spring_ratio": 0.2, "mass": 0.25, "shock_ratio": 0.2}
TIMES_STATED = 2.0
#: clicks come near a swing that differs where the energy they take out is off by less than this share of it [1]; judged
NEAR_CLICKS = 0.1
