"""Every click of every pack scored against what is wanted, exactly; and what to do where nothing fits.

In: click maps, a car, targets, limits. Out: ranked settings with bands. Called by the jobs. Read
in this order: assumptions, aims, ranges, points, score, search, at_setting, choice, one_pack, choose, advice, carry.
"""
