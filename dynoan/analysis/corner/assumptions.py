"""What the formulas of a corner take for granted: every number a referee would question, and what it decides.

The velocities at which a ratio is called low and high stand with the car's targets, in `dynoan.model.car`; how near
the top speed still counts as measured, with the curve, in `dynoan.model.curve`.
"""

from __future__ import annotations

from dynoan.units import INCH

# The motions at which a nonlinear damper is given one number. A larger swing is a faster one, so that a digressive
# damper gets a lower ratio.
#: suspension travel of a body swing, at the wheel, zero to peak [m]; common practice, no source
BODY_AMPLITUDE = 0.020
#: the same of a wheel-hop swing [m]; common practice, no source
HOP_AMPLITUDE = 0.005
#: standard deviation of a random velocity at the shock [m/s]; common practice, no source
SIGMA = 0.10
#: the same three for a car in a library of US units: 0.8 in, 0.2 in and 4 in/s [m, m, m/s]; common practice, no source
US_BODY_AMPLITUDE, US_HOP_AMPLITUDE, US_SIGMA = 0.8 * INCH, 0.2 * INCH, 4 * INCH

# What a car's file may leave unsaid
#: radius of gyration about the axis along the car, as a share of half the track [1]; common practice, no source.
#: It decides the roll frequency where the file states no roll inertia.
ROLL_GYRATION = 0.6
#: between the wheels of an axle [m]; common practice, no source. A track that is wrong in both axles alike cancels out
#: of the roll frequency as long as the roll inertia is estimated too.
USUAL_TRACK = 1.5

# How far evidence reaches
#: a Gaussian is taken to end at so many standard deviations (95 % of the time is within): up to there a curve must be
#: measured for a value in random motion not to be called extrapolated [1]; common practice, no source
GAUSSIAN_END = 2.0

# How sums and searches are carried out (numerics: no result moves by more than the last digits shown)
#: points per quarter cycle or per side of the bell: a knee between two of them costs less than 1e-8 of the result
#: [1]; numerics
MOTION_POINTS = 1 << 13
#: how far the bell is integrated, in standard deviations: beyond lie 2e-19 of it [1]; numerics
BELL_END = 9.0
#: half the step over which a slope is taken [m/s]: far less than lies between two speeds of any curve; numerics
TANGENT_STEP = 1e-5
#: an eigenvalue swings where its imaginary part is a larger share of it than this [1]; numerics
SWINGS = 1e-9
#: what a radian of roll counts beside a metre of heave when a mode is named, as an arm [m]; judged: half a usual track
ROLL_ARM = 0.7
