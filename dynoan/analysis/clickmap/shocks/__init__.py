"""How shocks of one pack, and the states they were in, lie off from one another.

In: a fitted direction. Out: how far each state is off and how well that is known, which shocks are odd, what a loss
may be at other clicks, and words for it. Called by `valve` and `every_click`. Read in this order: effects, odd_shocks,
losses, words.
"""
