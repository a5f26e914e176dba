"""The launch at large angles: a car that lifts its front wheels, stands on a wheelie bar, spins its tyres or goes over.

In: a car, its links, a drive and a road; out: motion, loads and energy of many settings side by side. Called by
`launch.compare`. Read in this order: model (what the car is), motion (the equations), springs, tyre, arrays (rows of
cars side by side), run_arrays; then what is compiled of it.
"""
