"""Made worlds: shocks and rigs with a known truth, for trying whatever turns a record into a damping curve.

In goes the name of a row and a seed, out comes a `Record`: what a file would hold, what a user would state, and the
truth beside it. `score` holds a fit against the truth, row by row. Nothing in here knows how a curve is fitted, nor
imports anything that does. Order of reading: valves, friction, gas (the shock); motions, rigs (the dyno); world, rows,
score.
"""
