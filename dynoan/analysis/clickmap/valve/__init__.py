"""The hydraulic view of a pack: one valve of bleed, leak, blow-off and port fitted to all its tested curves.

In: `DirectionData`. Out: a `FittedDirection` whose trend is a valve's, with how each adjuster opens and which way it
is counted. Called by `every_click.views`, plans and `mapping`. Read in this order: law, slopes, prior, trend, fit,
backward, openings, crossing, hydraulic, at_rest.
"""
