"""The entries that a past hatch is made of: eggs set, what was seen and moved on the days of the species."""

from collections.abc import Sequence
from datetime import date, time, timedelta
from typing import Any

from broodline.book.imported import FOUNDED_BY_HATCHES, UNNAMED_MACHINE
from broodline.book.stages import NOT_WRITTEN
from broodline.book.standing import Head
from broodline.exchange.brought import opened_on
from broodline.exchange.flock_rows import add_family, known_of
from broodline.exchange.hatch_counts import UNNAMED_PLACE, Counts
from broodline.exchange.row_values import Unread, name_key
from broodline.exchange.rows_in import Taking, without_empty
from broodline.trade.calendar import instant_text
from broodline.trade.species import SPECIES, Species

_DIED_DAYS, _SEEN_DAYS, _GROWN_DAYS = 3, 8, 120


def write_setting(taking: Taking, setting: str, group: Sequence[Counts], lots: Sequence[str]) -> None:
    """All entries of a setting; of one that the book has, those that the book has too: what a keeper wrote of it since
    must not be written a second time."""
    first, known = group[0], taking.standing.root_of
    body = without_empty(
        {
            "place": _place(taking, first.place),
            "species": first.species,
            "set_at": instant_text(taking.drafts.moment(first.on, time(12))),
            "lots": _lots(taking, group, lots),
            "note": _notes(group),
        }
    )
    taking.drafts.put(setting, "set", body, first.on)
    written = _write_moves(taking, group, lots, None)
    written += write_looks(taking, setting, group, lots)
    written += _write_opened(taking, setting, body["place"], group)
    for name in written:
        if setting in known and name not in known:
            del taking.drafts.entries[name]


def join_setting(taking: Taking, head: Head, group: Sequence[Counts], lots: Sequence[str]) -> None:
    """More lots of a setting that the book has. head: the entry of it that counts. Its id is in all that is made here:
    lots that were taken back can join again."""
    body = head.body.model_dump(mode="json", by_alias=True, exclude_none=True)
    _place(taking, group[0].place)
    body["lots"] = [*body["lots"], *_lots(taking, group, lots)]
    body |= without_empty({"note": _notes(group, body.get("note"))})
    name = taking.drafts.name("set", [head.id, list(lots)], group[0].on)
    taking.drafts.put(name, "set", body, group[0].on, amends=head.id)
    _write_moves(taking, group, lots, head.id)
    write_looks(taking, head.root, group, lots)
    _write_opened(taking, head.root, body["place"], group)


def write_looks(taking: Taking, setting: str, group: Sequence[Counts], lots: Sequence[str]) -> list[str]:
    """Eggs of which the row says that none was clear were candled, though no move tells it; an empty cell says
    nothing."""
    day = SPECIES[group[0].species].candle_days[0]
    written = []
    for one, lot in zip(group, lots, strict=True):
        if one.told_clear and not one.out["clear"]:
            seen = {"setting": setting, "lot": lot, "what": "candled", "day": day, "live": one.hatched + one.unhatched}
            written.append(taking.drafts.write("looked", seen, one.on + timedelta(days=day), time(20)))
    return written


def outcome(one: Counts, today: date) -> dict[tuple[str, str, str], int]:
    """(from, to, cause) -> how many of the row's eggs or chicks were moved so by now."""
    return {
        (move["from"], move["to"], NOT_WRITTEN if why == NOT_WRITTEN else ""): move["n"]
        for day, _, why, moves in _steps([("", one)], SPECIES[one.species])
        for move in moves
        if one.on + timedelta(days=day) <= today
    }


def _write_opened(taking: Taking, setting: str, place: str, group: Sequence[Counts]) -> list[str]:
    over = opened_on(group[0].on, group[0].species)
    if not any(one.unhatched for one in group) or over > taking.today:
        return []
    done = {"task": "open", "place": place, "on": over.isoformat()}
    return [taking.drafts.write("care", done, over, said=[setting])]


def _notes(group: Sequence[Counts], before: str | None = None) -> str:
    texts = (before, *(one.row.text("note") for one in group))
    return "; ".join(dict.fromkeys(text for text in texts if text))[:1000]


def _lots(taking: Taking, group: Sequence[Counts], lots: Sequence[str]) -> list[dict[str, Any]]:
    return [{"lot": lot, "family": _family(taking, one), "n": one.eggs} for one, lot in zip(group, lots, strict=True)]


def _family(taking: Taking, one: Counts) -> str:
    body = {"name": one.family, "species": one.species, "breed": one.breed or taking.breed}
    family = add_family(taking, body, FOUNDED_BY_HATCHES)
    kept = known_of(taking, family, "breed")
    if one.breed and kept and name_key(kept) != name_key(one.breed):
        message, remedy = f"{one.family} is known with the breed {kept}.", "Change the family in the app, or the row."
        taking.refuse(one.row, Unread("breed", message, remedy), taken=True)
    return family


def _write_moves(taking: Taking, group: Sequence[Counts], lots: Sequence[str], joined: str | None) -> list[str]:
    on, days = group[0].on, SPECIES[group[0].species]
    written = []
    for day, at, why, moves in _steps(list(zip(lots, group, strict=True)), days):
        if on + timedelta(days=day) > taking.today:
            continue
        body: dict[str, Any] = {"moves": moves, "cause" if why == NOT_WRITTEN else "why": why}
        if day <= days.period_days[1] + 1 and why in ("candled", "lockdown", "hatch"):
            body["day"] = day
        said = None if joined is None else [joined, body]
        written.append(taking.drafts.write("moved", body, on + timedelta(days=day), at, said))
    return written


def _steps(both: Sequence[tuple[str, Counts]], days: Species) -> list[tuple[int, time, str, list[dict[str, Any]]]]:
    """(day, time, why, moves) of lots with their counts."""
    hatch_day, last_day = days.period_days
    steps: list[tuple[int, time, str, list[dict[str, Any]]]] = []

    def step(day: int, at: time, why: str, moves: list[tuple[str, str, str, int]]) -> None:
        found = [{"lot": lot, "from": a, "to": b, "n": n} for lot, a, b, n in moves if n > 0]
        if found:
            steps.append((day, at, why, found))

    step(days.candle_days[0], time(20), "candled",
         [(lot, "set", stage, n) for lot, one in both for stage, n in one.out.items()])  # fmt: skip
    step(
        days.lockdown_day,
        time(20),
        "lockdown",
        [(lot, "set", "locked", one.hatched + one.unhatched) for lot, one in both],
    )
    step(hatch_day, time(20), "hatch", [(lot, "locked", "hatched", one.hatched) for lot, one in both])
    step(last_day + 1, time(12), "hatch", [(lot, "locked", "unhatched", one.unhatched) for lot, one in both])
    step(last_day + 1, time(13), "brooded", [(lot, "hatched", "brooding", one.kept or 0) for lot, one in both])
    step(hatch_day + _DIED_DAYS, time(20), "lost", [(lot, "hatched", "died", one.died) for lot, one in both])
    # Where nobody wrote who died in the first week, those of whom nothing is said may have: they leave before it.
    told = [(lot, one) for lot, one in both if one.told_died]
    untold = [(lot, one) for lot, one in both if (lot, one) not in told]
    step(
        hatch_day,
        time(21),
        NOT_WRITTEN,
        [(lot, "hatched", "parted", one.hatched - (one.kept or 0) - one.sold) for lot, one in untold],
    )
    step(last_day + 1 + _SEEN_DAYS, time(12), NOT_WRITTEN,
         [(lot, "hatched", "parted", one.hatched - one.died - (one.kept or 0) - one.sold)
          for lot, one in told])  # fmt: skip
    step(hatch_day, time(21), "left", [(lot, "hatched", "parted", one.sold) for lot, one in untold])
    step(last_day + 1 + _SEEN_DAYS, time(12), "left", [(lot, "hatched", "parted", one.sold) for lot, one in told])
    step(hatch_day + _GROWN_DAYS, time(12), "brooded", [(lot, "brooding", "flock", one.kept or 0) for lot, one in both])
    return steps


def _place(taking: Taking, name: str) -> str:
    body = {"name": name, "role": "incubator"}
    one = taking.drafts.name_once("place", body, UNNAMED_MACHINE if name == UNNAMED_PLACE else None)
    known = taking.places.get(name_key(name))
    if known is not None and known != one:
        return known
    taking.drafts.put(one, "place", body)
    taking.places[name_key(name)] = one
    return one
