"""One vocabulary: what words on lamp, label or holder speak of, in every language, whole or worn.

Lives here: folding a text once before anything looks into it (`_fold`), and topics with their words and stems
(`_topics`, from resources/words.json). A sale never rests on these lists: words in none of them hold it too.

May import counter.paths alone.
"""

from counter.words._fold import Folded, fold, plains
from counter.words._topics import (
    PRINTED,
    UV_TOPICS,
    Match,
    Saying,
    Topic,
    danger_in,
    is_danger,
    is_harmless,
    matches,
    sayings,
    speaks_of,
    table,
)

__all__ = [
    "PRINTED",
    "UV_TOPICS",
    "Folded",
    "Match",
    "Saying",
    "Topic",
    "danger_in",
    "fold",
    "is_danger",
    "is_harmless",
    "matches",
    "plains",
    "sayings",
    "speaks_of",
    "table",
]
