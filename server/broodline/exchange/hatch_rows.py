"""Past hatches from rows of counts: eggs set of a family on a day, and what became of them.

Rows of one day, machine and species are one setting. What a table does not say is not invented: eggs that are in no
column did not hatch; chicks of which nothing more is said leave the counts on the day they hatched, so that they are
neither living birds of today nor part of any share that is alive at a week. The days of candling, lockdown and
hatching are those of the species.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, time, timedelta
from typing import Any

from broodline.exchange.flock_rows import add_family
from broodline.exchange.row_values import Unread, count_of, species_of
from broodline.exchange.rows_in import Row, Taking, without_empty
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


def take_hatches(taking: Taking, rows: Sequence[Row]) -> None:
    """One setting for each day, machine and species."""
    groups: dict[tuple[date, str, str], list[_Counts]] = {}
    for row in rows:
        try:
            one = _counts(taking, row)
        except Unread as fault:
            taking.refuse(row, fault)
            continue
        groups.setdefault((one.on, one.place.casefold(), one.species), []).append(one)
    for group in groups.values():
        for first in range(0, len(group), MOST_LOTS):
            _write_setting(taking, group[first : first + MOST_LOTS])


def _counts(taking: Taking, row: Row) -> _Counts:
    on = row.day("set_on", taking.today)
    name = row.text("family")
    eggs = count_of("eggs", row.value("eggs"))
    hatched = count_of("hatched", row.value("hatched"))
    if on is None:
        raise Unread("set_on", "Nothing says when the eggs were set.", "Write the day, even if about.")
    if not name:
        raise Unread("family", "Nothing says whose eggs these were.", "Write a family; one for all is a family too.")
    if not eggs:
        raise Unread("eggs", "Nothing says how many eggs were set.", "Write the number, 1 or more.")
    if hatched is None:
        raise Unread("hatched", "Nothing says how many hatched.", "Write 0 where none did.")
    told = species_of(row.value("species"))
    known = taking.families.get(name.casefold())
    species = taking.species_of[known] if known is not None else told or taking.species
    if known is None and (species is None or not taking.breed):
        message = f"There is no family named {name}."
        raise Unread("family", message, "Take the families in first, or say the breed and species of all rows.")
    if species is None or species not in SPECIES:
        raise Unread("species", f"The days of a hatch of “{species}” are not known.", "Correct the family's species.")
    if told is not None and told != species:
        raise Unread("species", f"The book says that {name} is {species}.", "Correct the row, or the family.")
    end = on + timedelta(days=SPECIES[species].period_days[1] + 1)
    if end > taking.today:
        raise Unread("set_on", f"That hatch is not over before {end.isoformat()}.", "Set those eggs in the app.")
    out = {stage: count_of(stage, row.value(stage)) or 0 for stage in AT_CANDLING}
    rest = eggs - hatched - sum(out.values())
    unhatched = count_of("unhatched", row.value("unhatched"))
    if rest < (unhatched or 0):
        raise Unread("eggs", f"{eggs} eggs were set, but more are told of.", "Correct the counts of this row.")
    died, kept = (count_of(one, row.value(one)) for one in ("died_first_week", "kept"))
    if (died or 0) + (kept or 0) > hatched:
        raise Unread("hatched", f"{hatched} hatched, but more chicks are told of.", "Correct the counts of this row.")
    return _Counts(
        row, name, on, species, row.text("place") or UNNAMED_PLACE, eggs, out, rest, hatched, died or 0, kept,
        died is not None,
    )  # fmt: skip


def _write_setting(taking: Taking, group: Sequence[_Counts]) -> None:
    first = group[0]
    families = [_family(taking, one) for one in group]
    lots = [
        {
            "lot": taking.drafts.name("lot", [one.family, one.eggs, one.place], one.on),
            "family": family,
            "n": one.eggs,
        }
        for one, family in zip(group, families, strict=True)
    ]
    notes = "; ".join(dict.fromkeys(text for one in group if (text := one.row.text("note"))))
    body = without_empty(
        {
            "place": _place(taking, first.place),
            "species": first.species,
            "set_at": instant_text(taking.drafts.moment(first.on, time(12))),
            "lots": lots,
            "note": notes[:1000],
        }
    )
    said = [first.place, first.species, notes, [lot["lot"] for lot in lots]]
    setting = taking.drafts.name("set", said, first.on)
    if setting not in taking.standing.root_of and (twice := _already(taking, group)):
        for one in twice:
            message = f"The book has eggs of {one.family} set on {one.on.isoformat()} in {one.place} already."
            taking.refuse(one.row, Unread("set_on", message, "Delete the row, or take the other back first."))
        if rest := [one for one in group if one not in twice]:
            _write_setting(taking, rest)
        return
    taking.drafts.put(setting, "set", body, first.on)
    _write_moves(taking, group, [str(lot["lot"]) for lot in lots], SPECIES[first.species])
    over = first.on + timedelta(days=SPECIES[first.species].period_days[1] + _OPENED_DAYS)
    if any(one.unhatched for one in group) and over <= taking.today:  # nobody can open those eggs any more
        done = {"task": "open", "place": body["place"], "on": over.isoformat()}
        taking.drafts.write("care", done, over, said=[setting])


def _family(taking: Taking, one: _Counts) -> str:
    known = taking.families.get(one.family.casefold())
    return known or add_family(taking, {"name": one.family, "species": one.species, "breed": taking.breed})


def _write_moves(taking: Taking, group: Sequence[_Counts], lots: Sequence[str], days: Species) -> None:
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
    told = [(lot, one) for lot, one in both if one.told_died or one.kept is not None]
    untold = [(lot, one) for lot, one in both if (lot, one) not in told]
    step(hatch_day, time(21), "left", [(lot, "hatched", "parted", one.hatched) for lot, one in untold])
    step(last_day + 1 + _SEEN_DAYS, time(12), "left",
         [(lot, "hatched", "parted", one.hatched - one.died - (one.kept or 0)) for lot, one in told])  # fmt: skip
    step(hatch_day + _GROWN_DAYS, time(12), "brooded", [(lot, "brooding", "flock", one.kept or 0) for lot, one in both])
    for day, at, why, moves in steps:
        body: dict[str, Any] = {"moves": moves, "why": why}
        if day <= last_day + 1 and why in ("candled", "lockdown", "hatch"):
            body["day"] = day
        taking.drafts.write("moved", body, on + timedelta(days=day), at)


def _already(taking: Taking, group: Sequence[_Counts]) -> list[_Counts]:
    """Rows whose eggs the book has from elsewhere than this file."""
    return [one for one in group if (one.on, one.place.casefold(), one.family.casefold()) in taking.eggs_set]


def _place(taking: Taking, name: str) -> str:
    body = {"name": name, "role": "incubator"}
    one = taking.drafts.name_once("place", body)
    known = taking.places.get(name.casefold())
    if known is not None and known != one:
        return known
    taking.drafts.put(one, "place", body)
    taking.places[name.casefold()] = one
    return one
