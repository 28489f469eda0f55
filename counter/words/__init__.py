"""One vocabulary: what words on lamp, label or holder speak of, in every language, whole or worn.

Lives here: folding a text once before anything looks into it (`_fold`), topics with their words and stems
(`_topics`, from resources/words.json), words that name a family of lamps (`_families`), and words that say nothing of
one (`_plain`, from resources/plain-words.json). A sale never rests on these lists: words in none of them hold it too.

May import counter.paths alone.
"""

from counter.words._families import Family, Trait, families, other_family
from counter.words._fold import Folded, fold, plains
from counter.words._plain import is_beside, is_only_of, is_order, is_plain, names_kind
from counter.words._topics import (
    LONGEST,
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
    "LONGEST",
    "PRINTED",
    "UV_TOPICS",
    "Family",
    "Folded",
    "Match",
    "Saying",
    "Topic",
    "Trait",
    "danger_in",
    "families",
    "fold",
    "is_beside",
    "is_danger",
    "is_harmless",
    "is_only_of",
    "is_order",
    "is_plain",
    "matches",
    "names_kind",
    "other_family",
    "plains",
    "sayings",
    "speaks_of",
    "table",
]
