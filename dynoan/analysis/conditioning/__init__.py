"""A record as the rig left it, taken apart: what is left is damping force against valve velocity.

In: sweeps of one setting. Out: a `Conditioned` of each direction's points, with gas, friction, lag and what was found.
Called by `fitting`, which makes a curve of it. Read in this order: assumptions; the folders channels, samples, forces,
left_open, separating and found, each of which knows only those before it; condition, which goes that way. tables is
the short way, for peak tables.
"""
