"""The verbs: pure functions of nouns. No files, no printing, no plotting."""
