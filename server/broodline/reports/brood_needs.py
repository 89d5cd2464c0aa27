"""What a brood needs by its age: heat, room, feed and water, each a range with its sources, never one exact number."""

from collections.abc import Callable, Iterable, Sequence
from typing import Any

from broodline.book.standing import Lot, Standing
from broodline.book.whereabouts import broods_with
from broodline.trade.brooding import WHERE, Range, heat_at, looks_like, looks_source, space_at
from broodline.trade.feeding import (
    LOOK,
    feed_cells,
    feed_change,
    feed_g_a_day,
    feed_g_between,
    grit_mm,
    memory_words,
    note_for,
    protein_at,
    source_words,
    water_cells,
    water_ml_a_day,
    with_spread,
)
from broodline.trade.sources import Cell, origin

FOUR_WEEKS = 28
_G_PER_KG = 1000
DateOf = Callable[[int], str | None]


def heat_json(standing: Standing, lot: Lot, species: str, age: int | None, date_of: DateOf) -> dict[str, Any] | None:
    """{low_c, high_c, by_chicks, where, next: {on, day, low_c, high_c, by_chicks} or None, off_from, off_on, looks,
    source}; None where none is asked.

    by_chicks: heat is needed, no figure was read, the chicks say how much. off_from, off_on: the days between which
    heat ends by what was read, it is asked for until the later. None under a hen, for grown birds, for a species no
    source speaks of, and where no age is known.
    """
    roles = {place.role for one in broods_with(standing, lot) if (place := standing.places.get(one.place or ""))}
    heat = None if age is None or roles == {"hen"} else heat_at(species, age)
    if heat is None:
        return None
    following = None if heat.next_day is None else heat_at(species, heat.next_day)
    looks = [(look, looks_like(look)) for look in ("spread", "huddled", "away", "one_side")]
    return {
        "low_c": heat.low_c,
        "high_c": heat.high_c,
        "by_chicks": heat.published_f is None,
        "where": WHERE,
        "next": None
        if heat.next_day is None
        else {
            "on": date_of(heat.next_day),
            "day": heat.next_day,
            "low_c": None if following is None else following.low_c,
            "high_c": None if following is None else following.high_c,
            "by_chicks": following is not None and following.published_f is None,
        },
        "off_from": None if heat.off_days is None else date_of(int(heat.off_days[0])),
        "off_on": None if heat.off_days is None else date_of(int(heat.off_days[1])),
        "looks": [{"look": look, "words": said.value} for look, said in looks if said is not None],
        "looks_source": looks_source(species),
        "source": origin(heat.cell),
        "status": heat.cell.status,
    }


def space_json(species: str, age: int | None, n: int | None, date_of: DateOf) -> dict[str, Any] | None:
    """{floor_m2, feeder_cm, drinker_cm, each for all n birds; per_bird, next_on, sources}; None where none was read."""
    room = None if age is None else space_at(species, age)
    if room is None:
        return None
    parts = {"floor_m2": room.floor_m2, "feeder_cm": room.feeder_cm, "drinker_cm": room.drinker_cm}
    return {
        **{name: _times(part, n) for name, part in parts.items()},
        "per_bird": {name: _times(part, 1) for name, part in parts.items()},
        "next_on": None if room.next_day is None else date_of(room.next_day),
        "sources": _sources(room.cells),
    }


def feed_json(species: str, age: int | None, n: int | None, date_of: DateOf) -> dict[str, Any]:
    """{today_g, four_weeks_kg: for all n birds, [low, high] or None; per_bird_g, by_source, memory, sources, meat...}.

    All of layers and old breeds; meat: the same of fast growing meat birds, which eat far more, by sources of their
    own. by_source: [{kind, source}], of today; four_weeks: {by_source, ...} of those that speak of all four weeks.
    memory: words where figures are from memory, else None. A range of one source alone has a stated spread.
    """
    if age is None or age < 0:
        words = "Nobody wrote when they hatched." if age is None else "They had not hatched by then."
        return {"today_g": None, "four_weeks_kg": None, "words": words, "sources": []}
    protein, change, note = protein_at(species, age), feed_change(species), note_for(species)
    slow, fast = (_eaten(species, age, n, growth) for growth in ("slow", "fast"))
    return {
        **slow,
        "meat": {name: part for name, part in fast.items() if name != "per_bird_g"},
        "protein": None
        if protein is None
        else {"stage": protein.stage, "pct": list(protein.percent), "sources": _sources(protein.cells)},
        "change": None
        if change is None
        else {
            "from": date_of(int(change[0][0])),
            "to": date_of(int(change[0][1])),
            "words": change[1].unit,
            "source": origin(change[1]),
        },
        "grit_mm": None if (grit := grit_mm(species, age)) is None else list(grit[0]),
        "note": None if note is None else note.value,
        "words": f"{slow['words']} {LOOK}" if slow["words"] else "No source was read for what these eat at this age.",
    }


def _eaten(species: str, age: int, n: int | None, growth: str) -> dict[str, Any]:
    """Feed of today and of four weeks by the sources that speak of all those days."""
    behind = feed_cells(species, age, age + 1, growth)
    behind_weeks = feed_cells(species, age, age + FOUR_WEEKS, growth)
    today = _reckoned(feed_g_a_day(species, age, growth), behind)
    weeks = _reckoned(feed_g_between(species, age, age + FOUR_WEEKS, growth), behind_weeks)
    return {
        "today_g": _times(today, n),
        "four_weeks_kg": _times(weeks, None if n is None else n / _G_PER_KG),
        "per_bird_g": _times(today, 1),
        "four_weeks": _behind(behind_weeks),
        **_behind(behind),
    }


def water_json(species: str, age: int | None, n: int | None) -> dict[str, Any]:
    """{range_ml: for all n birds a day, [low, high] or None; per_bird_ml, words, by_source, memory, sources}."""
    figures = [] if age is None else water_cells(species, age)
    drunk = None if age is None else _reckoned(water_ml_a_day(species, age), figures)
    return {
        "range_ml": _times(drunk, n),
        "per_bird_ml": _times(drunk, 1),
        **_behind(figures),
    }


def _times(ends: Range | None, n: float | None) -> list[float] | None:
    """For n of them; None where no figure was read, or nobody knows how many they are."""
    return None if ends is None or n is None else [end * n for end in ends]


def _reckoned(ends: Range | None, figures: Sequence[tuple[str, Cell]]) -> Range | None:
    return with_spread(ends, [figure for _, figure in figures])


def _behind(figures: Sequence[tuple[str, Cell]]) -> dict[str, Any]:
    """Which source speaks of which birds, whether they differ, and whether figures are from memory."""
    cells = [figure for _, figure in figures]
    return {
        "words": source_words(cells) if cells else None,
        "by_source": [{"kind": kind, "source": origin(figure)} for kind, figure in figures],
        "memory": memory_words(cells),
        "sources": _sources(cells),
    }


def _sources(figures: Iterable[Cell]) -> list[str]:
    return list(dict.fromkeys(origin(figure) for figure in figures))
