"""A keeper of twelve families: ten of hens and two of ducks, nine hatches in a season, four seasons before it."""

from datetime import UTC, datetime, timedelta
from random import Random

from broodline.book.fold import fold
from broodline.book.standing import Standing
from tests.book_writer import START, BookWriter

NOW = datetime(2026, 12, 1, 12, tzinfo=UTC)
HENS = ("Alder", "Birch", "Cedar", "Elder", "Hazel", "Juniper", "Rowan", "Sorrel", "Spindle", "Whitebeam")
DUCKS = ("Sedge", "Water mint")
MACHINES = ("Loft box", "Kitchen incubator", "Old forced-air cabinet")
SET_DAYS = (0, 9, 18, 30, 41, 55, 70, 92)
"""Of hens' eggs, after the first; the ducks' are set on day 20."""
TOO_FEW_COUNTED = 7


def twelve_families() -> Standing:
    """The book, the same each time. The last hatch of hens still runs; one family of hens set none this season."""
    book, chance = BookWriter(), Random(12)
    book.keeper(region="uk")
    places = [book.incubator(name) for name in MACHINES]
    hens = {name: book.family(name) for name in HENS}
    ducks = {name: book.family(name, "duck") for name in DUCKS}
    for year in range(1, 5):
        _hatch(book, chance, places[0], hens, START - timedelta(days=365 * year), one_look=True)
    here = {name: family for name, family in hens.items() if name != "Whitebeam"}
    lots: list[str] = []
    for at, days in enumerate(SET_DAYS):
        some = {name: family for place, (name, family) in enumerate(here.items()) if (place + at) % 3 or at == 0}
        lots += _hatch(book, chance, places[at % 3], some, START + timedelta(days=days), one_look=at == 3)
    _hatch(book, chance, places[1], ducks, START + timedelta(days=20), species="duck", period=28)
    book.set_eggs(places[2], [(book.lot(), family, 9) for family in here.values()], set_at=NOW - timedelta(days=3))
    for lot in lots[:TOO_FEW_COUNTED]:
        book.write("counted", {"lot": lot, "stage": "hatched", "n": 1, "ledger": 3}, at=NOW)
    for name, family in here.items():
        hen = book.write("bird", {"name": f"{name} hen", "sex": "female", "family": family})
        book.write("penned", {"family": family, "since": "2026-02-01", "sires": [], "dams": [{"bird": hen}]})
        book.write("gathered", {"family": family, "on": "2026-02-20", "n": 1, "kept": 1})
    return fold(book.entries())


def _hatch(
    book: BookWriter,
    chance: Random,
    place: str,
    families: dict[str, str],
    set_at: datetime,
    *,
    species: str = "chicken",
    period: int = 21,
    one_look: bool = False,
) -> list[str]:
    """Fourteen eggs of each, laid up to three weeks before: candled, hatched and opened. Gives the lots."""
    lots = {family: book.lot() for family in families.values()}
    laid = str((set_at - timedelta(days=chance.randrange(2, 22))).date())
    book.set_eggs(place, [(lot, family, 14) for family, lot in lots.items()], set_at=set_at, species=species)
    body = book.documents[-1]["body"]
    for one in body["lots"]:
        one["laid_from"] = one["laid_to"] = laid
    for lot in lots.values():
        clear, chicks = chance.randrange(0, 5), chance.randrange(4, 9)
        if clear:
            book.move(lot, "set", "clear", clear, at=set_at + timedelta(days=8), why="candled")
        middle = 0 if one_look else chance.randrange(1, chicks - 2)
        for days, n in ((-0.5, chicks - middle - (0 if one_look else 1)), (0, middle), (0.5, 0 if one_look else 1)):
            if n:
                book.move(lot, "set", "hatched", n, at=set_at + timedelta(days=period + days), why="hatch")
        book.move(lot, "set", "unhatched", 14 - clear - chicks, at=set_at + timedelta(days=period + 2), why="hatch")
        book.move(lot, "unhatched", chance.choice(("dead_early", "dead_mid", "dead_late", "dead_internal_pip")),
                  at=set_at + timedelta(days=period + 3), why="opened")  # fmt: skip
        if chance.random() < 0.3:
            book.move(lot, "hatched", "died", at=set_at + timedelta(days=period + 5), why="lost")
    return [*lots.values()]
