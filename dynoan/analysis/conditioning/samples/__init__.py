"""The samples that tell of damping: thinned to rows, without those that play in a joint spoils.

In: a record, its blocks and velocity. Out: `Rows`, each with the friction laws averaged as its force was; runs of one
setting put together. Called by what takes force apart. Read in this order: rubbing, gas_heat, rows, phases, turning,
play, together.
"""
