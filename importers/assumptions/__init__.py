"""What the importers take for granted: every threshold and tolerance that decides how a file is understood.

A module a room, for all who use what stands in it. The lines above a value say, in this order: unit in brackets, what
the value decides, and where it comes from: `judged`, with the reason (tuned on the files in fixtures/layouts),
`common practice, no source`, `measured`, or `numerics`, which costs time or memory and changes no answer. Sizes that
only cost time or memory in one place stay where they are used.
"""
