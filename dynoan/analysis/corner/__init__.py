"""One wheel's mass, spring and damper: rates, frequencies, damping ratios, and how the corners stand to one another.

In: a corner of the car and the curve on it. Out: ratios with their bands. Called by the jobs and by `choosing`.
Read in this order: assumptions, vibration, modes, car_modes, quarter_car, equivalent_damping, rates,
ratio_measures, secants, ratios, balance.
"""
