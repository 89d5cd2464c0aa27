"""Sheets about eggs: gathered, sent away, set, looked at, moved, counted and weighed."""

from collections.abc import Set
from typing import cast

from broodline.book.bodies_eggs import Counted, EggsOut, EggsWeighed, Gathered, Moved, SetLot
from broodline.book.bodies_eggs import Set as EggsSet
from broodline.book.bodies_flock import Came
from broodline.book.moments import instant
from broodline.book.problems import stage_words
from broodline.book.stages import STAGES
from broodline.book.standing import Lot, Standing
from broodline.exchange.cell_words import in_words
from broodline.exchange.cells import AT, BATCH, ENTRY, Names, Rows, day, ids, moment
from broodline.exchange.sheet import Cell, Column, Sheet
from broodline.trade.calendar import local_date

_SETTINGS = (
    Column("setting_id", "string", "Setting (id)"),
    *ids("place", "Place"),
    Column("species", "string", "Species"),
    Column("set_at", "datetime", "Set at", "UTC"),
    Column("lockdown_day", "number", "Lockdown on day", "days since setting; empty: the species' own"),
    Column("locked_at", "datetime", "Lockdown at", "UTC"),
    *ids("hatcher", "Hatcher"),
    Column("eggs", "integer", "Eggs set"),
    Column("running", "boolean", "Still running"),
    Column("note", "string", "Note"),
    Column("plan_id", "string", "Planned in note (id)"),
)
_LOTS = (
    BATCH,
    Column("setting_id", "string", "Setting (id)", "empty where chicks came as a batch"),
    *ids("family", "Family"),
    Column("began_on", "date", "Set or came on", "day of the holding"),
    Column("n", "integer", "Eggs set or chicks come"),
    Column("laid_from", "date", "Laid from"),
    Column("laid_to", "date", "Laid to"),
    Column("dams", "string", "Hens", "with their chance where several are possible"),
    Column("one_hen", "boolean", "All of one hen"),
    Column("bought_in", "boolean", "Bought in"),
    Column("from", "string", "Eggs from"),
    Column("posted", "boolean", "Posted"),
    Column("arrived", "date", "Eggs arrived on"),
    Column("sign", "string", "Sign on the shell"),
    Column("missing", "integer", "Chicks missing"),
    *(Column(f"now_{stage}", "integer", f"Now {stage_words(stage)}", "eggs or chicks") for stage in STAGES),
)
_LOOKS = (
    ENTRY,
    BATCH,
    AT,
    Column("what", "string", "What"),
    Column("day", "integer", "Day", "days since setting"),
    Column("live", "integer", "Live"),
    Column("unsure", "integer", "Not sure"),
    Column("pipped", "integer", "Pipped"),
    Column("none", "boolean", "None out or pipped yet"),
    Column("setting_id", "string", "Setting (id)"),
)
_MOVES = (
    ENTRY,
    Column("batch_id", "string", "Batch (id)", "empty where the family is not known"),
    Column("among", "string", "Among batches (ids)"),
    AT,
    Column("from", "string", "From"),
    Column("to", "string", "To"),
    Column("n", "integer", "Eggs or chicks"),
    Column("why", "string", "Why"),
    Column("day", "integer", "Day", "days since setting"),
    Column("cause", "string", "Cause"),
    Column("to_whom", "string", "To whom", "of those sold or given"),
    *ids("place", "Place"),
    Column("helped", "boolean", "Helped out"),
    Column("weak", "boolean", "Weak"),
    Column("settles_id", "string", "Settles a count (entry id)"),
)
_GATHERED = (
    ENTRY,
    *ids("family", "Family"),
    Column("on", "date", "On"),
    Column("n", "integer", "Gathered"),
    Column("kept", "integer", "Kept for setting"),
    *ids("dam", "Hen"),
    *ids("store", "Kept in"),
)
_EGGS_OUT = (
    ENTRY,
    *ids("family", "Family"),
    Column("on", "date", "On"),
    Column("n", "integer", "Eggs"),
    Column("how", "string", "How"),
    Column("to", "string", "To"),
)
_COUNTS = (
    ENTRY,
    BATCH,
    AT,
    Column("stage", "string", "Stage"),
    Column("n", "integer", "Counted by hand"),
    Column("ledger", "integer", "The book's figure then"),
)
_WEIGHED = (
    ENTRY,
    Column("setting_id", "string", "Setting (id)"),
    BATCH,
    AT,
    Column("n", "integer", "Eggs"),
    Column("gross_g", "number", "With the tray", "g"),
    Column("tare_g", "number", "The tray", "g"),
)


def egg_sheets(standing: Standing, settings: Set[str] | None) -> list[Sheet]:
    """settings: only these; None: all, and the chicks that came as batches too."""
    names = Names(standing)
    lots = [lot for lot in standing.lots.values() if settings is None or lot.setting in settings]
    chosen = {lot.id for lot in lots}
    as_set = _as_set(standing)
    batches = [_lot_row(standing, names, lot, as_set.get((lot.setting or "", lot.id))) for lot in lots]
    return [
        Sheet("settings", "Settings", _SETTINGS, _setting_rows(standing, names, settings), "setting_id"),
        Sheet("batches", "Batches", _LOTS, batches, "batch_id"),
        Sheet("looks", "Looks", _LOOKS, [row for lot in lots for row in _look_rows(lot)]),
        Sheet("moves", "Moves", _MOVES, _move_rows(standing, names, lots)),
        Sheet("gathered", "Eggs gathered", _GATHERED, _gathered_rows(standing, names), "entry_id"),
        Sheet("eggs_out", "Eggs sold or eaten", _EGGS_OUT, _out_rows(standing, names), "entry_id"),
        Sheet("counts", "Counts by hand", _COUNTS, _count_rows(standing, chosen), "entry_id"),
        Sheet("eggs_weighed", "Eggs weighed", _WEIGHED, _weight_rows(standing, names, settings), "entry_id"),
    ]


def _setting_rows(standing: Standing, names: Names, settings: Set[str] | None) -> Rows:
    plans = {head.root: cast(EggsSet, head.body).plan for head in standing.heads.get("set", ())}
    return [
        (
            one.id,
            *names.place_cells(one.place),
            one.species,
            moment(one.set_at_ms),
            one.lockdown_day,
            moment(one.locked_at_ms),
            *names.place_cells(one.locked_place),
            sum(standing.lots[lot].n for lot in one.lots),
            one.runs,
            one.note,
            names.root(plans.get(one.id)),
        )
        for one in sorted(standing.settings.values(), key=lambda setting: (setting.set_at_ms, setting.id))
        if settings is None or one.id in settings
    ]


def _came_on(standing: Standing, lot: Lot) -> str | None:
    """The day a batch that was not set here came."""
    coming = (cast(Came, head.body) for head in standing.heads.get("came", ()))
    return next((one.on for one in coming if one.lot == lot.id and one.n), None)


def _as_set(standing: Standing) -> dict[tuple[str, str], SetLot]:
    """What was written of each batch as it was set, by setting and batch."""
    return {
        (head.root, one.lot): one for head in standing.heads.get("set", ()) for one in cast(EggsSet, head.body).lots
    }


def _lot_row(standing: Standing, names: Names, lot: Lot, as_set: SetLot | None) -> tuple[Cell, ...]:
    setting = standing.settings.get(lot.setting or "")
    zone = standing.keeper.zone
    began = _came_on(standing, lot) if setting is None else local_date(instant(setting.set_at_ms), zone)
    eggs_from = None if as_set is None else as_set.from_
    return (
        lot.id,
        lot.setting,
        *names.family_cells(lot.family),
        day(began),
        lot.n,
        day(lot.laid_from),
        day(lot.laid_to),
        None if as_set is None else names.shares(as_set.dams),
        None if as_set is None else as_set.one_hen,
        lot.bought_in,
        *((None,) * 3 if eggs_from is None else (eggs_from.who, eggs_from.posted, day(eggs_from.arrived))),
        lot.sign,
        lot.missing,
        *(lot.stages.get(stage, 0) for stage in STAGES),
    )


def _look_rows(lot: Lot) -> Rows:
    return [
        (
            look.entry,
            look.lot,
            moment(look.at_ms),
            look.what,
            look.day,
            look.live,
            look.unsure,
            look.pipped,
            look.none,
            lot.setting,
        )
        for look in lot.looks
    ]


def _move_rows(standing: Standing, names: Names, lots: list[Lot]) -> Rows:
    among = [
        move
        for setting in {lot.setting: None for lot in lots if lot.setting is not None}
        for move in standing.settings[setting].among
    ]
    told = {head.id: cast(Moved, head.body) for head in standing.heads.get("moved", ())}
    return [
        (
            move.entry,
            move.lot,
            " ".join(move.among) or None,
            moment(move.at_ms),
            stage_words(move.source),
            stage_words(move.target),
            move.n,
            move.why,
            move.day,
            in_words("cause", move.cause),
            told[move.entry].who,
            *names.place_cells(move.place),
            move.helped,
            move.weak,
            names.root(told[move.entry].settles),
        )
        for move in [*(move for lot in lots for move in lot.moves), *among]
    ]


def _gathered_rows(standing: Standing, names: Names) -> Rows:
    rows: Rows = []
    for head in standing.heads.get("gathered", ()):
        body = cast(Gathered, head.body)
        family = names.family_cells(body.family)
        rows.append(
            (
                head.id,
                *family,
                day(body.on),
                body.n,
                body.kept,
                *names.bird_cells(body.dam),
                *names.place_cells(body.store),
            )
        )
    return rows


def _out_rows(standing: Standing, names: Names) -> Rows:
    rows: Rows = []
    for head in standing.heads.get("eggs_out", ()):
        body = cast(EggsOut, head.body)
        family = names.family_cells(body.family)
        rows.append((head.id, *family, day(body.on), body.n, body.how, body.to))
    return rows


def _count_rows(standing: Standing, chosen: Set[str]) -> Rows:
    found = [(head, cast(Counted, head.body)) for head in standing.heads.get("counted", ())]
    return [
        (head.id, body.lot, moment(head.at_ms), stage_words(body.stage), body.n, body.ledger)
        for head, body in found
        if body.lot in chosen
    ]


def _weight_rows(standing: Standing, names: Names, settings: Set[str] | None) -> Rows:
    found = [(head, cast(EggsWeighed, head.body)) for head in standing.heads.get("eggs_weighed", ())]
    return [
        (head.id, names.root(body.setting), body.lot, moment(head.at_ms), body.n, body.gross_g, body.tare_g)
        for head, body in found
        if settings is None or names.root(body.setting) in settings
    ]
