"""How old chicks and birds are on a day, and what is dated before they can have been out of the shell.

A day is a calendar day and a hatch lasts into the next: less than a day before the first was out is no fault. Mirrored
in pwa/src/book/hatch-ages.ts.
"""

from collections.abc import Iterable

from broodline.book.birds import lot_of
from broodline.book.bodies_flock import Bird
from broodline.book.hatch_day import hatched_ms, hatched_on, noon_ms
from broodline.book.moments import DAY_MS, day_of_text
from broodline.book.out_of_shell import out_of_shell
from broodline.book.standing import Lot, Move, Standing


def age_on(standing: Standing, lot: Lot | None, on: str) -> int | None:
    """Days of the holding's calendar since a lot hatched, 0 before it; None where nobody wrote it."""
    born = None if lot is None else hatched_on(standing, lot)
    return None if born is None else max(0, (day_of_text(on) - day_of_text(born)).days)


def first_out_ms(standing: Standing, lot: Lot) -> int | None:
    """When the first that may be of a lot was out; of chicks that came, what was written; None where nothing was."""
    if lot.came:
        return hatched_ms(standing, lot)
    setting = standing.settings.get(lot.setting or "")
    shared = () if setting is None else setting.among
    return _first([*lot.moves, *(move for move in shared if lot.id in move.among)])


def is_before_hatch(standing: Standing, lot: Lot | None, at_ms: int) -> bool:
    """Whether a moment lies more than a day before the first of a lot was out."""
    first_ms = None if lot is None else first_out_ms(standing, lot)
    return first_ms is not None and at_ms < first_ms - DAY_MS


def is_unhatched(standing: Standing, bird: Bird | None, on: str) -> bool:
    """Whether a bird was not out on a day: by the day written with it, or by the one lot it can be of."""
    if bird is None:
        return False
    written = bird.hatched_on is not None and on < bird.hatched_on
    return written or is_before_hatch(standing, standing.lots.get(lot_of(bird) or ""), noon_ms(on))


def _first(moves: Iterable[Move]) -> int | None:
    out = out_of_shell(moves)
    return out[0].at_ms if out else None
