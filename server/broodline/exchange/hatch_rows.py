"""Past hatches from rows of counts: eggs set of a family on a day, and what became of them.

Rows of one day, machine and species are one setting. What a table does not say is not invented: eggs that are in no
column did not hatch; chicks of which nothing more is said leave the counts on the day they hatched, as not written of:
neither living birds of today, nor sold, nor lost, nor part of any share that is alive at a week. The days of candling,
lockdown and hatching are those of the species.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, time, timedelta
from typing import Any

from broodline.book.imported import UNNAMED_MACHINE
from broodline.book.stages import NOT_WRITTEN
from broodline.exchange.flock_rows import add_family, said_or_asked
from broodline.exchange.row_values import Unread, name_key, species_of
from broodline.exchange.rows_in import Row, Taking, usable, without_empty
from broodline.trade.calendar import instant_text
from broodline.trade.species import SPECIES, Species

AT_CANDLING = ("clear", "blood_ring", "quitter", "cracked", "rotten")
UNNAMED_PLACE = "Incubator before this book"
MOST_LOTS = 25  # of a setting: an entry may take 8 KiB
_DIED_DAYS, _OPENED_DAYS, _SEEN_DAYS, _GROWN_DAYS = 3, 3, 8, 120


@dataclass(frozen=True, slots=True)
class _Counts:
    row: Row
    family: str
    on: date
    species: str
    place: str
    eggs: int
    out: dict[str, int]
    unhatched: int
    hatched: int
    died: int
    kept: int | None
    told_died: bool
    told_clear: bool


def take_hatches(taking: Taking, rows: Sequence[Row]) -> None:
    """One setting for each day, machine and species."""
    groups: dict[tuple[date, str, str], list[_Counts]] = {}
    said: dict[tuple[date, str], list[list[str]]] = {}
    rows = usable(taking, rows)
    _tell_doubled(taking, rows)
    for row in rows:
        try:
            if on := row.day("set_on", taking.today):
                said.setdefault((on, name_key(_place_name(row))), []).append(_said(row))
            one = _counts(taking, row)
        except Unread as fault:
            taking.refuse(row, fault)
            continue
        groups.setdefault((one.on, name_key(one.place), one.species), []).append(one)
    for (on, place, species), group in groups.items():
        _take_group(taking, group, [place, species, said[on, place]])


def _tell_doubled(taking: Taking, rows: Sequence[Row]) -> None:
    """A row copied by mistake looks like a second batch of that family: both are read, and it is told."""
    first: dict[tuple[str, ...], int] = {}
    for row in rows:
        key = tuple(row.text(name) for name in row.matched.columns)
        if key in first:
            message = f"It says the same as row {first[key]}; both were read."
            taking.refuse(row, Unread("eggs", message, "Delete one of them if it stands there by mistake."),
                          taken=True, as_read=True)  # fmt: skip
        first.setdefault(key, row.line.number)


def _said(row: Row) -> list[str]:
    return [field for name in sorted(row.matched.columns) for field in (name, row.text(name))]


def _place_name(row: Row) -> str:
    return row.text("place") or UNNAMED_PLACE


def _take_group(taking: Taking, group: Sequence[_Counts], said: object) -> None:
    """A setting's id is made from all that the file says of its day and machine, rows that cannot be taken among them:
    so the same file finds what it brought, whatever came into the book besides, and a file that says anything else of
    that day finds nothing of its own."""
    lots = [taking.drafts.name("lot", [one.family, one.eggs, one.place], one.on) for one in group]
    names = [taking.drafts.name("set", [said, part], group[0].on) for part in range(1 + len(group) // MOST_LOTS)]
    if not any(name in taking.standing.root_of for name in names):
        new = [pair for pair in zip(group, lots, strict=True) if not _refused(taking, pair[0], pair[1])]
        for part, first in enumerate(range(0, len(new), MOST_LOTS)):
            some = new[first : first + MOST_LOTS]
            _write_setting(taking, names[part], [one for one, _ in some], [lot for _, lot in some])
        return
    left = dict(zip(lots, group, strict=True))
    for name in names:
        known = taking.standing.settings.get(name)
        own = [lot for lot in left if known is not None and lot in known.lots]
        if known is None and name in taking.standing.root_of:  # it was taken back
            own = list(left)[:MOST_LOTS]
            for one in map(left.__getitem__, own):
                message = f"Eggs of {one.family} set on {taking.told(one.on)} in {one.place} were taken back since."
                taking.refuse(one.row, Unread("set_on", message, "Take this file back, then take it in anew."))
        if own:
            _write_setting(taking, name, [left.pop(lot) for lot in own], own)
    for lot, one in left.items():
        if not _refused(taking, one, lot):
            message = f"The book has the other rows of {taking.told(one.on)} in {one.place} without {one.family}."
            taking.refuse(one.row, Unread("set_on", message, "Take this file back, then take it in anew."))


def _refused(taking: Taking, one: _Counts, lot: str) -> bool:
    """Whether the book has these eggs from elsewhere than what the file says of that day."""
    if (one.on, name_key(one.place), name_key(one.family)) not in taking.eggs_set:
        return False
    message = f"The book has eggs of {one.family} set on {taking.told(one.on)} in {one.place} already"
    remedy = "Delete the row, or take the other back first."
    if lot in taking.standing.lots:
        message += ", and the rows of that day were changed since"
        remedy = "Take the file back as it was, then take this one in; or correct that hatch in the app."
    taking.refuse(one.row, Unread("set_on", f"{message}.", remedy))
    return True


def _counts(taking: Taking, row: Row) -> _Counts:
    on = row.day("set_on", taking.today)
    name = row.text("family")
    eggs = row.count("eggs")
    hatched = row.count("hatched")
    if on is None:
        raise Unread("set_on", "Nothing says when the eggs were set.", "Write the day, even if about.")
    if not name:
        raise Unread("family", "Nothing says whose eggs these were.", "Write a family; one for all is a family too.")
    if not eggs:
        raise Unread("eggs", "Nothing says how many eggs were set.", "Write the number, 1 or more.")
    if hatched is None:
        raise Unread("hatched", "Nothing says how many hatched.", "Write 0 where none did.")
    told = species_of(row.value("species"))
    known = taking.whose(row, name)
    if known is not None and taking.families.known(name) is None:
        name = taking.families.names[known]
    species, breed = (taking.species_of[known], "") if known is not None else said_or_asked(taking, told, "")
    if known is None and (species is None or not breed):
        message = f"There is no family named {name}."
        raise Unread("family", message, "Take the families in first, or say the breed and species of all rows.")
    if known is None:
        first = taking.families.new(name)
        if name_key(first) != name_key(name):
            taking.tell_reading(row, name, first)
            name = first
    if species is None or species not in SPECIES:
        raise Unread("species", f"The days of a hatch of “{species}” are not known.", "Correct the family's species.")
    if told is not None and told != species:
        raise Unread("species", f"The book says that {name} is {species}.", "Correct the row, or the family.")
    end = on + timedelta(days=SPECIES[species].period_days[1] + 1)
    if end > taking.today:
        raise Unread("set_on", f"That hatch is not over before {taking.told(end)}.", "Set those eggs in the app.")
    out = {stage: row.count(stage) or 0 for stage in AT_CANDLING}
    rest = eggs - hatched - sum(out.values())
    unhatched = row.count("unhatched")
    if rest < (unhatched or 0):
        raise Unread("eggs", f"{eggs} eggs were set, but more are told of.", "Correct the counts of this row.")
    died, kept = (row.count(one) for one in ("died_first_week", "kept"))
    if (died or 0) + (kept or 0) > hatched:
        raise Unread("hatched", f"{hatched} hatched, but more chicks are told of.", "Correct the counts of this row.")
    return _Counts(
        row, name, on, species, _place_name(row), eggs, out, rest, hatched, died or 0, kept,
        died is not None, row.count("clear") is not None,
    )  # fmt: skip


def _write_setting(taking: Taking, setting: str, group: Sequence[_Counts], lots: Sequence[str]) -> None:
    """All entries of a setting; of one that the book has, those that the book has too: what a keeper wrote of it since
    must not be written a second time."""
    first, known = group[0], taking.standing.root_of
    families = [_family(taking, one) for one in group]
    notes = "; ".join(dict.fromkeys(text for one in group if (text := one.row.text("note"))))
    body = without_empty(
        {
            "place": _place(taking, first.place),
            "species": first.species,
            "set_at": instant_text(taking.drafts.moment(first.on, time(12))),
            "lots": [
                {"lot": lot, "family": family, "n": one.eggs}
                for one, lot, family in zip(group, lots, families, strict=True)
            ],
            "note": notes[:1000],
        }
    )
    taking.drafts.put(setting, "set", body, first.on)
    written = _write_moves(taking, group, lots, SPECIES[first.species])
    written += _write_looks(taking, setting, group, lots)
    over = first.on + timedelta(days=SPECIES[first.species].period_days[1] + _OPENED_DAYS)
    if any(one.unhatched for one in group) and over <= taking.today:  # nobody can open those eggs any more
        done = {"task": "open", "place": body["place"], "on": over.isoformat()}
        written.append(taking.drafts.write("care", done, over, said=[setting]))
    for name in written:
        if setting in known and name not in known:
            del taking.drafts.entries[name]


def _family(taking: Taking, one: _Counts) -> str:
    return add_family(taking, {"name": one.family, "species": one.species, "breed": taking.breed})


def _write_moves(taking: Taking, group: Sequence[_Counts], lots: Sequence[str], days: Species) -> list[str]:
    on = group[0].on
    hatch_day, last_day = days.period_days
    steps: list[tuple[int, time, str, list[dict[str, Any]]]] = []

    def step(day: int, at: time, why: str, moves: list[tuple[str, str, str, int]]) -> None:
        found = [{"lot": lot, "from": a, "to": b, "n": n} for lot, a, b, n in moves if n > 0]
        if found and on + timedelta(days=day) <= taking.today:
            steps.append((day, at, why, found))

    both = list(zip(lots, group, strict=True))
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
        [(lot, "hatched", "parted", one.hatched - (one.kept or 0)) for lot, one in untold],
    )
    step(last_day + 1 + _SEEN_DAYS, time(12), NOT_WRITTEN,
         [(lot, "hatched", "parted", one.hatched - one.died - (one.kept or 0)) for lot, one in told])  # fmt: skip
    step(hatch_day + _GROWN_DAYS, time(12), "brooded", [(lot, "brooding", "flock", one.kept or 0) for lot, one in both])
    written = []
    for day, at, why, moves in steps:
        body: dict[str, Any] = {"moves": moves, "cause" if why == NOT_WRITTEN else "why": why}
        if day <= last_day + 1 and why in ("candled", "lockdown", "hatch"):
            body["day"] = day
        written.append(taking.drafts.write("moved", body, on + timedelta(days=day), at))
    return written


def _write_looks(taking: Taking, setting: str, group: Sequence[_Counts], lots: Sequence[str]) -> list[str]:
    """Eggs of which the row says that none was clear were candled, though no move tells it; an empty cell says
    nothing."""
    day = SPECIES[group[0].species].candle_days[0]
    written = []
    for one, lot in zip(group, lots, strict=True):
        if one.told_clear and not one.out["clear"]:
            seen = {"setting": setting, "lot": lot, "what": "candled", "day": day, "live": one.hatched + one.unhatched}
            written.append(taking.drafts.write("looked", seen, one.on + timedelta(days=day), time(20)))
    return written


def _place(taking: Taking, name: str) -> str:
    body = {"name": name, "role": "incubator"}
    one = taking.drafts.name_once("place", body, UNNAMED_MACHINE if name == UNNAMED_PLACE else None)
    known = taking.places.get(name_key(name))
    if known is not None and known != one:
        return known
    taking.drafts.put(one, "place", body)
    taking.places[name_key(name)] = one
    return one
