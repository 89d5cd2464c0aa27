"""Books of eggs before setting, from a seeded chance: gathered, sold, set from days of laying or of one hen."""

from datetime import UTC, datetime, timedelta
from random import Random
from typing import Any

from tests.book_writer import BookWriter

BEGIN = datetime(2026, 3, 1, 20, 0, tzinfo=UTC)


def gathering_book(seed: int) -> list[dict[str, Any]]:
    """Two families and a dozen days; some entries corrected, some taken back, some batches by post."""
    chance = Random(seed)
    book = BookWriter()
    book.keeper(chance.choice(["Europe/Dublin", "Pacific/Auckland", "America/Denver"]))
    families = [book.family("Rowan"), book.family("Hazel")]
    hens = [book.write("bird", {"name": name, "sex": "female"}) for name in ("Clover", "Teasel")]
    box = book.incubator()
    written: list[str] = []
    for _ in range(chance.randrange(5, 30)):
        day = BEGIN + timedelta(days=chance.randrange(12), hours=chance.randrange(12))
        on = day.date().isoformat()
        family = chance.choice(families)
        kind = chance.choice(["gathered", "gathered", "gathered", "eggs_out", "set"])
        if kind == "gathered":
            kept = chance.randrange(7)
            body = {"family": family, "on": on, "n": kept + chance.randrange(2), "kept": kept}
            body |= {"dam": chance.choice(hens)} if chance.random() < 0.3 else {}
        elif kind == "eggs_out":
            body = {"family": family, "on": on, "n": chance.randint(1, 4), "how": "eaten"}
        else:
            body = {"place": box, "species": "chicken", "set_at": day.isoformat().replace("+00:00", "Z")}
            body["lots"] = [_batch(chance, book, family, hens, day) for family in families]
        change = chance.random()
        amends = {"amends": chance.choice(written)} if written and change < 0.1 else {}
        written.append(book.write(kind, body, at=day, **amends))
        if change > 0.95:
            book.take_back(chance.choice(written))
    return book.documents


def _batch(chance: Random, book: BookWriter, family: str, hens: list[str], day: datetime) -> dict[str, Any]:
    lot: dict[str, Any] = {"lot": book.lot(), "family": family, "n": chance.randint(1, 9)}
    for name, ago in (("laid_from", 6), ("laid_to", 2)):
        if chance.random() < 0.4:
            lot[name] = (day - timedelta(days=chance.randrange(ago))).date().isoformat()
    if chance.random() < 0.2:
        lot["dams"] = [{"bird": chance.choice(hens)}]
    if chance.random() < 0.15:
        lot["from"] = {"who": "A. Moss", "posted": True}
    return lot
