"""The joint fit that takes force apart, under every set of expectations that has hope, weighed by evidence.

In: rows of a record. Out: a `Separated`: coefficients, lags, and draws of damping and friction. Called by `condition`;
its least squares by `tables` too. Read in this order: posterior, expectations, prior, one_to_a_record, doubt,
settling_assumptions, tried, weighing, stepping, starting, ways, separation.
"""
