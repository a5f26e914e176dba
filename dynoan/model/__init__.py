"""The nouns: frozen records of what the trade talks about. No files, no printing, no fitting.

Everything is SI, float64, and positive in compression; clicks are as the shock's file counts them
unless a name says ``from_closed``.
"""
