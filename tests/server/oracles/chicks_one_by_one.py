"""A slow second opinion on survival: every chick an object, walked through its days one after the other."""

from dataclasses import dataclass


@dataclass
class Chick:
    """How long a chick was seen, in whole days, and whether it was lost at the end."""

    days: int
    lost: bool


def share_alive(chicks: list[Chick]) -> list[tuple[int, int, int, float]]:
    """(day, at risk, lost, share alive) of each day on which one was lost; those no longer seen leave at day's end."""
    steps = []
    share = 1.0
    for day in range(max((chick.days for chick in chicks), default=0) + 1):
        morning = [chick for chick in chicks if chick.days >= day]
        lost = [chick for chick in morning if chick.days == day and chick.lost]
        if lost:
            share *= (len(morning) - len(lost)) / len(morning)
            steps.append((day, len(morning), len(lost), share))
    return steps
