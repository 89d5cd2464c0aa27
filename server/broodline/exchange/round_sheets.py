"""Sheets about the daily round: machines turned, vented and watered, gauges checked, brooders looked at, tasks done."""

from collections.abc import Callable, Sequence
from typing import cast

from broodline.book.bodies_rooms import BrooderCheck, Care, GaugeChecked, Turned, Vented, Watered
from broodline.book.moments import instant, moment_ms
from broodline.book.standing import Head, Standing
from broodline.exchange.cell_words import in_words
from broodline.exchange.cells import AT, ENTRY, Names, Rows, day, ids, moment
from broodline.exchange.sheet import Column, Sheet
from broodline.trade.calendar import local_date

_ROUNDS = (
    ENTRY,
    *ids("place", "Place"),
    AT,
    Column("what", "string", "What"),
    Column("side", "string", "Side now up"),
)
_GAUGES = (
    ENTRY,
    *ids("place", "Place"),
    AT,
    Column("gauge", "string", "Gauge"),
    Column("reads", "number", "It reads", "°C or %"),
    Column("true_value", "number", "It should read", "°C or %"),
    Column("against", "string", "Held against"),
)
_BROODERS = (
    ENTRY,
    *ids("place", "Place"),
    AT,
    Column("heat_c", "number", "Heat at the chicks' backs", "°C"),
    Column("look", "string", "How the chicks lie"),
    Column("water", "boolean", "Fresh water"),
    Column("feed", "boolean", "Feed"),
    Column("litter", "boolean", "Wet litter out"),
)
_TASKS = (
    ENTRY,
    *ids("place", "Place"),
    Column("on", "date", "On", "day of the holding"),
    Column("task", "string", "Task"),
    Column("what", "string", "What", "done, or put off until then"),
    Column("until", "datetime", "Until", "UTC"),
)


def round_sheets(standing: Standing, within: Callable[[int], bool]) -> list[Sheet]:
    """within: whether what was done at a moment belongs here."""
    names = Names(standing)
    return [
        Sheet("rounds", "Turned, vents, water", _ROUNDS, _round_rows(standing, names, within), "entry_id"),
        Sheet("gauge_checks", "Gauges checked", _GAUGES, _gauge_rows(standing, names, within), "entry_id"),
        Sheet("brooder_checks", "Brooders looked at", _BROODERS, _brooder_rows(standing, names), "entry_id"),
        Sheet("tasks", "Tasks done", _TASKS, _task_rows(standing, names), "entry_id"),
    ]


def _round_rows(standing: Standing, names: Names, within: Callable[[int], bool]) -> Rows:
    heads: Sequence[Head] = [head for kind in ("turned", "vented", "watered") for head in standing.heads.get(kind, ())]
    rows: Rows = []
    for head in sorted(heads, key=lambda one: (one.at_ms, one.id)):
        if within(head.at_ms):
            one = cast(Turned | Vented | Watered, head.body)
            rows.append(
                (head.id, *names.place_cells(one.place), moment(head.at_ms), in_words("round", head.kind), one.side)
            )
    return rows


def _gauge_rows(standing: Standing, names: Names, within: Callable[[int], bool]) -> Rows:
    rows: Rows = []
    for head in standing.heads.get("gauge_checked", ()):
        if within(head.at_ms):
            one = cast(GaugeChecked, head.body)
            read = (in_words("gauge", one.gauge), one.reads, one.true_value, one.against)
            rows.append((head.id, *names.place_cells(one.place), moment(head.at_ms), *read))
    return rows


def _brooder_rows(standing: Standing, names: Names) -> Rows:
    rows: Rows = []
    for head in standing.heads.get("brooder_check", ()):
        one = cast(BrooderCheck, head.body)
        seen = (one.heat_c, in_words("look", one.look), one.water, one.feed, one.litter)
        rows.append((head.id, *names.place_cells(one.place), moment(head.at_ms), *seen))
    return rows


def _task_rows(standing: Standing, names: Names) -> Rows:
    rows: Rows = []
    zone = standing.keeper.zone
    for head in standing.heads.get("care", ()):
        one = cast(Care, head.body)
        until_ms = moment_ms(one.on) if len(one.on) > len("2026-03-01") else None
        on = one.on if until_ms is None else local_date(instant(until_ms), zone)
        is_ahead = on > local_date(instant(head.at_ms), zone) if until_ms is None else until_ms > head.at_ms
        told = (in_words("task", one.task), "put off" if is_ahead else "done", moment(until_ms))
        rows.append((head.id, *names.place_cells(one.place), day(on), *told))
    return rows
