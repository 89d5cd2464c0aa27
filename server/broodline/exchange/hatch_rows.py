"""Past hatches from rows of counts: eggs set of a family on a day, and what became of them.

Rows of one day, machine and species are one setting, also where they are read at several times. What a table does not
say is not invented: eggs that are in no column did not hatch; chicks of which nothing more is said leave the counts on
the day they hatched, as not written of: neither living birds of today, nor sold, nor lost, nor part of any share that
is alive at a week. The days of candling, lockdown and hatching are those of the species.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from datetime import date
from typing import Any

from broodline.book.imported import is_imported
from broodline.book.standing import Head, Lot
from broodline.exchange.brought import day_of_setting, place_of_setting
from broodline.exchange.hatch_counts import Counts, place_name, read_counts
from broodline.exchange.hatch_entries import join_setting, outcome, write_looks, write_setting
from broodline.exchange.row_values import Unread, name_key
from broodline.exchange.rows_in import BadRow, Row, Taking, usable

MOST_LOTS = 25  # of a setting: an entry may take 8 KiB


def take_hatches(taking: Taking, rows: Sequence[Row]) -> None:
    """One setting for each day, machine and species."""
    groups: dict[tuple[date, str, str], list[Counts]] = {}
    said: dict[tuple[date, str], list[list[str]]] = {}
    refused: Counter[str] = Counter()
    rows = usable(taking, rows)
    _tell_doubled(taking, rows)
    for row in rows:
        try:
            if on := row.day("set_on", taking.today):
                said.setdefault((on, name_key(place_name(row))), []).append(_said(row))
                taking.claims.hatch(on, place_name(row), row.text("family"))
            one = read_counts(taking, row)
        except Unread as fault:
            refused[row.text("family")] += 1
            taking.refuse(row, _naming(row, fault))
            continue
        groups.setdefault((one.on, name_key(one.place), one.species), []).append(one)
    _tell_left_out(
        taking, refused, {name_key(one.row.text("family")) for group in groups.values() for one in group}, rows
    )
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


def _naming(row: Row, fault: Unread) -> Unread:
    """The fault with the name of the family whose row it is."""
    name = row.text("family")
    told = fault.message if not name or name in fault.message else f"{name}: {fault.message}"
    return Unread(fault.field, told, fault.remedy)


def _tell_left_out(taking: Taking, refused: Counter[str], read: set[str], rows: Sequence[Row]) -> None:
    """Families of which several rows were told and not one was read."""
    for name, n in refused.items():
        if name and n > 1 and name_key(name) not in read:
            message = f"Not one of the {n} rows of {name} could be read, so nothing of that family comes in."
            remedy = (
                "Put those rows right and choose the file again; the rows that are read now may be taken in before."
            )
            taking.bad.append(BadRow(rows[0].matched.table.name, 0, "family", message, remedy, as_read=True))


def _said(row: Row) -> list[str]:
    return [field for name in sorted(row.matched.columns) for field in (name, row.text(name))]


def _take_group(taking: Taking, group: Sequence[Counts], said: object) -> None:
    """A setting's id is made from all that the file says of its day and machine, rows that cannot be taken among them:
    so the same file finds what it brought, whatever came into the book besides. What a corrected or another file says
    of that day joins the setting that is there."""
    left = {taking.drafts.name("lot", [one.family, one.eggs, one.place], one.on): one for one in group}
    names = [taking.drafts.name("set", [said, part], group[0].on) for part in range(1 + len(group) // MOST_LOTS)]
    for name in names:
        known = taking.standing.settings.get(name)
        own = [lot for lot in left if known is not None and lot in known.lots]
        if known is None and name in taking.standing.root_of:  # it was taken back
            own = list(left)[:MOST_LOTS]
            for one in map(left.__getitem__, own):
                message = f"Eggs of {one.family} set on {taking.told(one.on)} in {one.place} were taken back since."
                taking.refuse(one.row, Unread("set_on", message, "Take this file back, then take it in anew."))
        if own:
            taking.lots_read |= set(own)
            write_setting(taking, name, [left.pop(lot) for lot in own], own)
    there = _there(taking, group[0])
    new = _not_there(taking, left, there)
    if new and there:
        room = min(there, key=lambda head: len(head.body.lots))
        if len(room.body.lots) + len(new) <= MOST_LOTS:
            join_setting(taking, room, list(new.values()), list(new))
            return
    lots, names = list(new), [name for name in names if name not in taking.standing.root_of]
    for name, at in zip(names, range(0, len(lots), MOST_LOTS), strict=False):
        some = lots[at : at + MOST_LOTS]
        write_setting(taking, name, [new[lot] for lot in some], some)


def _there(taking: Taking, first: Counts) -> list[Any]:
    """Heads of the settings that tables brought of that day, machine and species."""
    standing = taking.standing
    wanted = (first.on, name_key(first.place), first.species)
    return [
        head
        for head in standing.heads.get("set", ())
        if is_imported(head.root)
        and (one := standing.settings.get(head.root)) is not None
        and (day_of_setting(standing, one), place_of_setting(standing, one), one.species) == wanted
    ]


def _not_there(taking: Taking, left: dict[str, Counts], there: Sequence[Head]) -> dict[str, Counts]:
    """Rows that the book does not have yet, under the lots they become. One that it has as the row says it is known;
    one that it has otherwise is told."""
    standing = taking.standing
    free = {lot: standing.lots[lot] for head in there for lot in standing.settings[head.root].lots}
    for lot in taking.lots_read:
        free.pop(lot, None)
    rest: list[tuple[str, Counts]] = []
    for name, one in left.items():
        same = next((lot for lot in free.values() if _is_same(taking, lot, one)), None)
        if same is None:
            rest.append((name, one))
            continue
        del free[same.id]
        taking.lots_read.add(same.id)
        if same.setting and not any(look.what == "candled" for look in same.looks):
            write_looks(taking, same.setting, [one], [same.id])
    new: dict[str, Counts] = {}
    for name, one in rest:
        if name in standing.lots and standing.lots[name].setting is None:
            message = f"The book has the other rows of {taking.told(one.on)} in {one.place} without {one.family}."
            taking.refuse(one.row, Unread("set_on", message, "Take this file back, then take it in anew."))
            continue
        lot = name
        while lot in standing.lots or lot in new:
            lot = taking.drafts.name("lot", [one.family, one.eggs, one.place], one.on)
        if not _refused(taking, one, free.values()):
            new[lot] = one
    return new


def _is_same(taking: Taking, lot: Lot, one: Counts) -> bool:
    """Whether a lot is what the row says, as far as tables moved it."""
    if (lot.family, lot.n) != (taking.families.known(one.family), one.eggs):
        return False
    found: dict[tuple[str, str, str], int] = {}
    for move in lot.moves:
        if is_imported(taking.standing.root_of.get(move.entry, move.entry)):
            key = (move.source, move.target, move.cause or "")
            found[key] = found.get(key, 0) + move.n
    told = outcome(one, taking.today)
    return bool(found) and found.items() <= told.items()


def _refused(taking: Taking, one: Counts, others: Iterable[Lot]) -> bool:
    """Whether the book has these eggs otherwise than the file says. others: what tables brought of that day and machine
    and no row says."""
    message = f"The book has eggs of {one.family} set on {taking.told(one.on)} in {one.place} already"
    remedy = "Delete the row, or take the other back first."
    if (one.on, name_key(one.place), name_key(one.family)) not in taking.eggs_set:
        whose = taking.families.known(one.family)
        if whose is None or all(lot.family != whose for lot in others):
            return False
        message += ", and this row or that hatch was changed since"
        remedy = "Take this file back, then take it in anew; or correct that hatch in the app."
    taking.refuse(one.row, Unread("set_on", f"{message}.", remedy))
    return True
