"""The tested curves of one pack as one table a direction, with shock, date and temperature of each.

In: `Tested` settings. Out: `DirectionData`: damping over clicks and speeds at one temperature, counted from one end,
and what plain least squares say of it. Called by all that fits. Read in this order: setting, loss_per_kelvin, friction,
states, data, two_ways, plain_least_squares.
"""
