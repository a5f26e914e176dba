"""The user's guide: a Markdown file a topic in ``pages/``, in the order of the numbers that their names begin with.

A page begins with ``# Title`` and a paragraph of one sentence, which stands in the list of topics. ``tests/guide`` runs
every ``console`` fence as it stands; ``python -m tests.guide.renew`` writes its output and its pictures anew.
"""

from dynoan.guide.topics import Topic, picture, topic, topics

__all__ = ["Topic", "picture", "topic", "topics"]
