"""What a force may be made of: damping that rises, gas, friction, lag and all else, as columns beside each other.

In: rows. Out: the columns of the joint fit, linearised about how far it has come. Called by `separating`, and by
`tables` for the splines. Read in this order: splines, shape, effects, rest_assumptions, resting, state, valve,
columns.
"""
