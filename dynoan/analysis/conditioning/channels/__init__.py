"""A record's channels, made even: one time base, blocks of cycles, and the velocity of each.

In: the trace of a sweep. Out: a `Record`, its `Block`s and the velocity at every sample, with what is wrong in them.
Called by `samples` and by `condition`. Read in this order: timing, noise, record, blocks, standing, crank, slopes,
velocity.
"""
