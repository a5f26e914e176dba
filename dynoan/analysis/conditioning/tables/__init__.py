"""Peak tables: the short way from one force a speed and direction to points of damping.

In: the rows of a peak table. Out: a `Conditioned`, as of a trace, with what the table cannot tell in its band. Called
by `condition`. Read in this order: assumptions, gas, slips, flat_rows, problem, repeated_speeds, peak_table.
"""
