"""What stands where in the arrays of the compiled car at large angles."""

from __future__ import annotations

#: states of a row: place, height and pitch of the body, travel of both axles; their rates; wheel speeds; work done on
#: the car, so that the energy can be held against it; how far down the driver's foot is, where he holds a slip
X, Z, PITCH, FRONT, REAR = range(5)
RATES = 5  #: the rate of one of these stands so much behind it
FRONT_SPIN, REAR_SPIN, WORK, FOOT = 10, 11, 12, 13
STATES = 14

# The car: the body, the wheelie bar, then the axles
(SPRUNG, INERTIA, RADIUS, HEIGHT, WHEELBASE, BAR_BEHIND, BAR_ABOVE, BAR_RATE, SLIPS, RATIO) = range(10)
STOP_HINGES = 12  #: of a stop, both wheels together
NO_HINGE = 1e9  #: travel at which a hinge that is none would begin [m]
#: within an axle. STUCK: the friction that holds it where it stood; GRIPS: the inverse hyperbolic tangent of that as a
#: share of all friction; from STOPS on: where the hinges of the bump stop begin, what they add, the same of the droop
#: stop
(PLACE, UNSPRUNG, STATIC, TYRE, TYRE_DAMPING, SPRING, GAS, PRELOAD, FRICTION, HELD, SPIN, SHARE, DRIVEN, THROUGH,
 STUCK, GRIPS, STOPS) = range(17)  # fmt: skip
AXLE = STOPS + 4 * STOP_HINGES  #: parameters of an axle
AXLES = (10, 10 + AXLE)  #: where an axle's parameters begin
CHANGE = 10 + 2 * AXLE  #: of the driven load per drive force in the steady state, by load transfer alone
PARAMETERS = CHANGE + 1
POWERS = 6  #: of the polynomials of a path

# The ground of a row: grip that limits a force; shape, factor and peak of the slip law; the slip that the driver holds
# on it, 0 where his foot stays down, and the time his foot takes; the power of its load by which a tyre's grip falls;
# the road's height where the front and where the rear
# wheels stood, from which heights count
GRIP, SHAPE, FACTOR, PEAK, HOLDS, FOOT_TIME, FALLS, STOOD = range(8)
GROUNDS = 9

# What is kept of a row at each step, besides the states: of both axles, then once
LOAD, FORCE, DAMPER, WHEEL, WHEEL_RATE, ROAD, SLIP = range(0, 14, 2)  #: of the front; the rear's stands one behind
BAR, ENERGY = 14, 15
KEPT = 16

# The figures of a row, taken at every step whether or not the motion is kept
(NOSE_RISE, NOSE_RATE, TAIL_SQUAT, TAIL_LIFT, PITCH_PEAK, FRONT_HEIGHT, LOAD_LEAST, LOAD_SQUARES, SPUN, DISTANCE,
 SPEED, OVER, LIFTED) = range(13)  # fmt: skip
FIGURES = 13
#: room that running a row needs: states and rates at a step's stages, and what both axles do
WORK_ROOM = (8, 32)
