"""What a sensor on the car wrote that is none of the car's motion: samples at the ends of its range, and drop-outs.

In goes a channel as logged, in any unit; out come the samples to doubt. `jobs/travel` and `jobs/bounce` ask, before
they look at motion. The modules stand beside each other: `dropouts` first, since a drop-out may be an extreme.
"""
