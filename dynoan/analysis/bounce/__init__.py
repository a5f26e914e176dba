"""A pushed corner swinging out: its frequency and damping ratio, friction told from damping.

In go times and what was logged (shock travel, or a phone's acceleration along its own axes); out come the pushes found,
the corner's rates over its mass with their errors, and from them frequency and ratio with limits. `jobs/bounce` asks,
of a log and of the simulated corner alike. Order of reading: `axis` (which way is up), `pushes` (where the car swings
freely), `decrement` (peaks alone), `swing` (the equations), `problem` (what is to be fitted), `figures`,
`starting` (where a search begins), `limits` (what its ends tell), `fitting` (least squares),
`predicted_band` (that of a predicted swing).
"""
