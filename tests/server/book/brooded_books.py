"""Books of chicks from a seeded chance: hatched or bought, moved from place to place, lost, found, weighed."""

from datetime import timedelta
from random import Random
from typing import Any

from tests.book_writer import START, BookWriter

SPECIES = ("chicken", "chicken", "duck", "bobwhite", "coturnix", "turkey", "guinea", "moa")
LIVING = ("hatched", "brooding", "growing", "flock")
GONE = ("died", "culled", "parted", "unaccounted")


def brooded_book(seed: int) -> list[dict[str, Any]]:
    """Up to three lots in up to four places over some seventy days from START."""
    chance = Random(seed)
    book = BookWriter()
    book.keeper(zone=chance.choice(["Europe/Dublin", "Pacific/Auckland", "UTC"]))
    places = [book.incubator()]
    places += [
        book.write(
            "place", {"name": f"Place {n}", "role": chance.choice(["brooder", "brooder", "pen", "hen", "hatcher"])}
        )
        for n in range(3)
    ]
    lots = [_lot(book, chance, places[0]) for _ in range(chance.randint(1, 3))]
    for _ in range(chance.randrange(30)):
        at = START + timedelta(days=chance.uniform(20, 90), hours=chance.choice([0, 0, 7]))
        _write(book, chance, places, chance.choice(lots), at)
    return book.documents


def _lot(book: BookWriter, chance: Random, box: str) -> str:
    lot, species = book.lot(), chance.choice(SPECIES)
    family = book.family(chance.choice(["Rowan", "Hazel"]), species)
    if chance.random() < 0.3:
        came: dict[str, Any] = {"lot": lot, "n": 9, "family": family, "on": "2026-03-20", "how": "given"}
        hatched = {"hatched_on": chance.choice(["2026-03-20", "2026-03-11"])} if chance.random() < 0.8 else {}
        book.write("came", {**came, **hatched, "stage": chance.choice(["brooding", "growing"])})
        return lot
    book.set_eggs(box, [(lot, family, 14)], species=species)
    for _ in range(chance.randint(1, 3)):
        out = START + timedelta(days=21, minutes=chance.choice([0, 20, 40, 900]))
        book.move(lot, "set", "hatched", chance.randint(1, 4), at=out)
    return lot


def _write(book: BookWriter, chance: Random, places: list[str], lot: str, at: Any) -> None:
    place = chance.choice(places)
    day = at.date().isoformat()
    match chance.randrange(9):
        case 0 | 1 | 2:
            where = {"place": place} if chance.random() < 0.7 else {}
            ways = [("hatched", "brooding"), ("hatched", "brooding"), ("brooding", "growing"), ("brooding", "brooding")]
            source, target = chance.choice(ways)
            book.move(lot, source, target, chance.randint(1, 6), at=at, weak=chance.random() < 0.2, **where)
        case 3:
            book.move(lot, chance.choice(LIVING), chance.choice(GONE), chance.randint(1, 2), at=at)
        case 4:
            book.move(lot, "unaccounted", chance.choice(["brooding", "died"]), 1, at=at)
        case 5:
            says = {"water": True, "litter": chance.random() < 0.5} | (
                {"heat_c": 30.0} if chance.random() < 0.5 else {}
            )
            book.write("brooder_check", {"place": place, **says}, at=at)
        case 6:
            task = chance.choice(["heat", "water", "drinkers", "litter", "feed", "eat", "weigh", "raise", "dust_bath"])
            on = "2027-01-01" if chance.random() < 0.2 else day
            book.write("care", {"task": task, "on": on} | ({"place": place} if chance.random() < 0.6 else {}), at=at)
        case 7:
            ring = {"kind": "ring", "colour": chance.choice(["blue", "red"]), "leg": "left"}
            book.write("marked", {"lot": lot, "tag": ring} | ({"on": day} if chance.random() < 0.5 else {}), at=at)
        case _:
            book.write("weighed", {"lot": lot, "birds": [{"mass_g": 500.0}], "on": day}, at=at)
