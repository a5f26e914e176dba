"""How the compiled half-car lays out what it takes and gives: flat arrays, and what stands where in them.

A block holds `LANES` settings side by side; the order of its flat arrays is [quantity · LANES + lane].
"""

from __future__ import annotations

from dynoan.analysis.launch.hinges import HINGES

LANES = 16  #: settings side by side: two or four vector registers of doubles

# The dampers of a block: one side is one direction of one axle, its knots then its gains; the kernel's `_side` is
# written out for eight hinges
SIDE = 2 * HINGES * LANES
BLOCK = 4 * SIDE  #: front compression, front rebound, rear compression, rear rebound

# The states: the first four, then their rates in the same order; up and nose-up positive [m, rad, m/s, rad/s]
HEAVE, PITCH, FRONT_WHEEL, REAR_WHEEL = range(4)
RATES = 4  #: the rate of a state stands so much behind it
STATES = 8

# The columns of the table of the road and of the drive asked for, at half steps
FRONT_ROAD, REAR_ROAD, FRONT_WANTED, REAR_WANTED = range(4)  #: heights [m], forces [N]

# The parameters of the car, as `packing.packed` fills them: the body, six of each axle, the driven tyres
(SPRUNG, INERTIA, TO_FRONT, TO_REAR, HEIGHT, FRONT_UNSPRUNG, REAR_UNSPRUNG, FRONT_STATIC, REAR_STATIC, FRONT_TYRE,
 REAR_TYRE, FRONT_SLOPE, REAR_SLOPE, GRIP) = range(14)  # fmt: skip
SPRING, GAS, PRELOAD, BUMP, DROOP, STOP_RATE = range(6)  #: within an axle
FRONT_AXLE, REAR_AXLE = 14, 20  #: where an axle's begin
FRONT_DRIVEN, REAR_DRIVEN, DRIVEN_STATIC, DRIVEN_CHANGE = range(26, 30)
PARAMETERS = 30

# The figures of a run
(NOSE_RISE, NOSE_RATE, TAIL_LIFT, TAIL_SQUAT, LOAD_LEAST, LOAD_DIP, LOAD_SQUARES, PITCH_PEAK, PITCH_RATE_PEAK,
 DRIVE_SUM, FRONT_LIFTED, ON_STOPS) = range(12)  # fmt: skip
FIGURES = 12
#: what each becomes; sums over the steps are scaled by `run_figures`
FIGURE_NAMES = {
    NOSE_RISE: "nose_rise_m", NOSE_RATE: "nose_rise_rate_m_s", TAIL_LIFT: "rear_lift_m", TAIL_SQUAT: "rear_squat_m",
    LOAD_LEAST: "driven_load_least_n", LOAD_DIP: "driven_load_dip_n", LOAD_SQUARES: "driven_load_rms_n",
    PITCH_PEAK: "pitch_peak_rad", PITCH_RATE_PEAK: "pitch_rate_peak_rad_s", DRIVE_SUM: "drive_force_mean_n",
    FRONT_LIFTED: "front_wheel_lift_s", ON_STOPS: "on_stops_s",
}  # fmt: skip
