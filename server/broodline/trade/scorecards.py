"""Judging by points: what a fault costs, and whether a score card adds up.

Each section has its points; a fault takes its share of them, and the score is 100 less all cuts. A printed card may be
misprinted: its points are added up before it is used.

    >>> score({"comb": 10, "type": 90}, {"comb": 0.75}), is_whole({"type": 25, "comb": 10})
    (97.5, False)
"""

from collections.abc import Mapping

WHOLE = 100


def is_whole(card: Mapping[str, float]) -> bool:
    """Whether the points of a card add up to 100."""
    return sum(card.values()) == WHOLE


def score(card: Mapping[str, float], good: Mapping[str, float]) -> float:
    """The score of a bird. good: section -> how good it is, 0 to 1; sections not named are perfect.

    Raises ValueError for a card that does not add up, a section that is not on it, or a share outside 0 to 1.
    """
    if not is_whole(card):
        raise ValueError(f"the points of this card add up to {sum(card.values())}, not {WHOLE}")
    if not good.keys() <= card.keys() or not all(0 <= share <= 1 for share in good.values()):
        raise ValueError("a section that is not on the card, or a share outside 0 to 1")
    return WHOLE - sum(card[section] * (1 - share) for section, share in good.items())
