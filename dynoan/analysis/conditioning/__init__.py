"""A record as the rig left it, taken apart: what is left is damping force against valve velocity.

In: sweeps of one setting. Out: a `Conditioned` of each direction's points, with gas, friction, lag and what was found.
Called by `fitting`, which makes a curve of it. Read in this order: assumptions, timing, record, blocks, velocity,
rubbing, rows, play, splines, shape, effects, resting, state, columns, prior, posterior, weighing, model_error,
open_end, untold, separation, trace_model, result, words, condition; table_assumptions, flat_rows and peak_table are the
short way for peak tables.
"""
