"""When the chicks of a lot came out: the look by which half of them were. Mirrored in pwa/src/book/hatch-day.ts.

Chicks that came as a lot hatched at noon (UTC) of the day that was written with them; nothing is known without it.
"""

from itertools import accumulate
from typing import cast

from broodline.book.bodies_flock import Came
from broodline.book.moments import DAY_MS, HOUR_MS, MINUTE_MS, day_of_text
from broodline.book.stages import CHICK_STAGES
from broodline.book.standing import Lot, Standing

LOOK_MS = 30 * MINUTE_MS
_EPOCH_DAY = day_of_text("1970-01-01").toordinal()


def hatched_ms(standing: Standing, lot: Lot) -> int | None:
    """Milliseconds since 1970 of the look by which half of a lot's chicks were out; None where nobody wrote it."""
    if lot.came:
        return _written_ms(standing, lot)
    setting = None if lot.setting is None else standing.settings.get(lot.setting)
    out = [(move.at_ms, move.n) for move in lot.moves if move.target == "hatched" and move.source not in CHICK_STAGES]
    if setting is None or not out:
        return None
    ends = _look_ends([*out, *_others(standing, lot)])
    out.sort()
    counted = list(accumulate(n for _, n in out))
    half_ms = next(at_ms for (at_ms, _), so_far in zip(out, counted, strict=True) if 2 * so_far >= counted[-1])
    return next(end for end in ends if end >= half_ms)


def whole_days(since_ms: int, now_ms: int) -> int:
    """Whole days since a moment; below zero before it."""
    return (now_ms - since_ms) // DAY_MS


def noon_ms(day: str) -> int:
    """Noon, UTC, of a calendar day."""
    return (day_of_text(day).toordinal() - _EPOCH_DAY) * DAY_MS + 12 * HOUR_MS


def _written_ms(standing: Standing, lot: Lot) -> int | None:
    bodies = (cast(Came, head.body) for head in standing.heads.get("came", ()))
    came = next((body for body in bodies if body.lot == lot.id and body.n is not None), None)
    return None if came is None or came.hatched_on is None else noon_ms(came.hatched_on)


def _others(standing: Standing, lot: Lot) -> list[tuple[int, int]]:
    """All else that was seen at the hatch of the setting: it may make a look last longer."""
    setting = standing.settings[cast(str, lot.setting)]
    lots = [standing.lots[name] for name in setting.lots]
    moves = [*setting.among, *(move for one in lots for move in one.moves)]
    out = [(move.at_ms, 0) for move in moves if move.target == "hatched" and move.source not in CHICK_STAGES]
    return out + [(look.at_ms, 0) for one in lots for look in one.looks if look.what == "hatch"]


def _look_ends(events: list[tuple[int, int]]) -> list[int]:
    """When each look ended: it takes in all within 30 minutes of its beginning."""
    ends: list[int] = []
    began_ms = 0
    for at_ms, _ in sorted(events):
        if ends and at_ms <= began_ms + LOOK_MS:
            ends[-1] = at_ms
        else:
            began_ms = at_ms
            ends.append(at_ms)
    return ends
