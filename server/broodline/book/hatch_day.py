"""When the chicks of a lot came out: the look by which half of them were.

Mirrored in pwa/src/book/hatch-day.ts over tests/vectors/whereabouts.json. Where no chick is known to be of a lot, those
count that may be. Chicks that came as a lot hatched at noon (UTC) of the day that was written with them; nothing is
known without it.
"""

from collections.abc import Iterable
from itertools import accumulate
from typing import cast

from broodline.book.bodies_flock import Came
from broodline.book.moments import DAY_MS, HOUR_MS, MINUTE_MS, day_of_text, instant
from broodline.book.out_of_shell import out_of_shell
from broodline.book.standing import Lot, Move, Setting, Standing
from broodline.book.whereabouts import Brood
from broodline.trade.calendar import local_date

LOOK_MS = 30 * MINUTE_MS
_EPOCH_DAY = day_of_text("1970-01-01").toordinal()


def hatched_ms(standing: Standing, lot: Lot) -> int | None:
    """Milliseconds since 1970 of the look by which half of a lot's chicks were out; None where nobody wrote it."""
    if lot.came:
        on = _written_on(standing, lot)
        return None if on is None else noon_ms(on)
    setting = None if lot.setting is None else standing.settings.get(lot.setting)
    if setting is None:
        return None
    own = out_of_shell(lot.moves)
    return _half_ms(standing, setting, own or out_of_shell(move for move in setting.among if lot.id in move.among))


def brood_hatched_ms(standing: Standing, brood: Brood) -> int | None:
    """As `hatched_ms`, of a brood; of unknown family, the look by which half of those were."""
    lot = standing.lots[brood.lot]
    setting = standing.settings.get(lot.setting or "")
    if setting is None or not brood.among:
        return hatched_ms(standing, lot)
    shared = [move for move in setting.among if set(move.among) <= set(brood.among)]
    return _half_ms(standing, setting, out_of_shell(shared)) or hatched_ms(standing, lot)


def _half_ms(standing: Standing, setting: Setting, out: list[Move]) -> int | None:
    if not out:
        return None
    counted = list(accumulate(move.n for move in out))
    half_ms = next(move.at_ms for move, so_far in zip(out, counted, strict=True) if 2 * so_far >= counted[-1])
    seen = [*(move.at_ms for move in out), *_seen_at(standing, setting)]
    return next(end for end in _look_ends(seen) if end >= half_ms)


def hatched_on(standing: Standing, lot: Lot) -> str | None:
    """The day by which half of a lot's chicks were out, in the holding's zone; of chicks that came, as written."""
    if lot.came:
        return _written_on(standing, lot)
    born_ms = hatched_ms(standing, lot)
    return None if born_ms is None else local_date(instant(born_ms), standing.keeper.zone)


def whole_days(since_ms: int, now_ms: int) -> int:
    """Whole days since a moment; below zero before it."""
    return (now_ms - since_ms) // DAY_MS


def noon_ms(day: str) -> int:
    """Noon, UTC, of a calendar day."""
    return (day_of_text(day).toordinal() - _EPOCH_DAY) * DAY_MS + 12 * HOUR_MS


def _written_on(standing: Standing, lot: Lot) -> str | None:
    bodies = (cast(Came, head.body) for head in standing.heads.get("came", ()))
    came = next((body for body in bodies if body.lot == lot.id and body.n is not None), None)
    return None if came is None else came.hatched_on


def _seen_at(standing: Standing, setting: Setting) -> list[int]:
    """All that was seen at the hatch of a setting: it may make a look last longer."""
    lots = [standing.lots[name] for name in setting.lots]
    out = [*out_of_shell(setting.among), *(move for lot in lots for move in out_of_shell(lot.moves))]
    return [*(move.at_ms for move in out), *(look.at_ms for lot in lots for look in lot.looks if look.what == "hatch")]


def _look_ends(events: Iterable[int]) -> list[int]:
    """When each look ended: it takes in all within 30 minutes of its beginning."""
    ends: list[int] = []
    began_ms = 0
    for at_ms in sorted(events):
        if ends and at_ms <= began_ms + LOOK_MS:
            ends[-1] = at_ms
        else:
            began_ms = at_ms
            ends.append(at_ms)
    return ends
