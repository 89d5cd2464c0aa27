"""What to bear in mind with the counts of a setting: clears that were not opened, old eggs, no diagnosis."""

from collections.abc import Mapping, Sequence
from typing import Any

from broodline.book.standing import Lot, Setting, Standing
from broodline.trade.breakout import CLEAR_NOTE, NO_DIAGNOSIS_NOTE
from broodline.trade.sources import origin
from broodline.trade.storage import COMMERCIAL_PER_DAY, FIRST_WEEK_DAYS, READ_UP_TO_DAYS, storage_points


def notes_json(
    standing: Standing,
    setting: Setting,
    lots: Sequence[Lot],
    ages: Mapping[str, int | None],
    pattern: Sequence[Mapping[str, Any]],
) -> list[dict[str, str]]:
    """[{words, source}]. ages: days of the oldest egg of each lot when set, None where not known."""
    notes = [CLEAR_NOTE] if setting.stages.get("clear", 0) > 0 else []
    notes += [NO_DIAGNOSIS_NOTE] if pattern else []
    told = [{"words": note.value, "source": origin(note)} for note in notes]
    for lot in lots:
        age = ages[lot.id]
        if age is not None and age > FIRST_WEEK_DAYS:
            told.append({"words": _age_words(standing, lot, age), "source": origin(COMMERCIAL_PER_DAY)})
    return told


def storage_json(age_days: int | None) -> dict[str, Any] | None:
    """{oldest_days, commercial_points, source}: what eggs of that age lose in commercial flocks; None where not known.

    commercial_points is None beyond the days that were studied.
    """
    if age_days is None:
        return None
    points = storage_points(age_days)
    return {"oldest_days": age_days, "commercial_points": points, "source": origin(COMMERCIAL_PER_DAY)}


def _age_words(standing: Standing, lot: Lot, age: int) -> str:
    family = standing.families.get(lot.family or "")
    whose = "The eggs" if family is None else f"{family.name}'s eggs"
    old = f"{whose} were up to {age} days old when set."
    points = storage_points(age)
    if points is None:
        return f"{old} Nothing was read about more than {READ_UP_TO_DAYS} days; the longer they lie, the fewer hatch."
    return (
        f"{old} Commercial flocks lose {points:.1f} points of hatch by then; that is an average of broilers and says "
        "nothing of a rare breed."
    )
