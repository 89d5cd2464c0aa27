"""Writes the book that this version leaves behind, once for each released schema:

    python -m tests.old_books.write_old_book tests/old_books/1

book.db      the server's database, made by the command `broodline` and a phone's pushes
phone.json   the phone's IndexedDB: each store of each database with its keys and values
standing.json   what both add up to, worked out by the version that wrote them; never written anew
"""

import json
import sys
import tempfile
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, sync_playwright

from broodline.book.fold import fold
from broodline.book.standing import standing_json
from broodline.book.wire import read_entry
from tests.book_writer import BookWriter, entry_id
from tests.browser.hands import on_server, only_here, pair, tap, wait_until_it_works_offline
from tests.browser.phones import Phone
from tests.browser.serving import Served, wait_until

DUMP = """async () => {
  const answer = (request) => new Promise((done) => { request.onsuccess = () => done(request.result); });
  const databases = {};
  for (const { name, version } of await indexedDB.databases()) {
    const db = await answer(indexedDB.open(name));
    const stores = {};
    for (const store of db.objectStoreNames) {
      const open = db.transaction(store).objectStore(store);
      const indexes = Object.fromEntries([...open.indexNames].map((name) => [name, open.index(name).keyPath]));
      const keys = await answer(open.getAllKeys());
      const values = await answer(db.transaction(store).objectStore(store).getAll());
      stores[store] = { keyPath: open.keyPath, indexes, rows: keys.map((key, i) => [key, values[i]]) };
    }
    databases[name] = { version, stores };
    db.close();
  }
  return databases;
}"""


def first_book() -> list[dict[str, Any]]:
    """Corrections, an entry taken back, eggs of unknown family, what a newer app wrote: all that must be read later."""
    book = BookWriter()
    book.keeper(region="uk", altitude_m=120)
    box = book.incubator()
    rowan, hazel = book.family("Rowan"), book.family("Hazel")
    first, second = book.lot(), book.lot()
    setting = book.set_eggs(box, [(first, rowan, 16), (second, hazel, 14)])
    book.move(first, "set", "clear", 2, why="candled", day=7)
    wrong = book.move(second, "set", "blood_ring", 3, why="candled", day=7)
    book.write(
        "moved",
        {"moves": [{"lot": second, "from": "set", "to": "blood_ring", "n": 1}], "why": "candled", "day": 7},
        amends=wrong,
    )
    book.take_back(book.move(first, "set", "cracked", why="candled", day=7))
    book.look(setting, first, live=14, day=7)
    book.write("moved", {"moves": [{"among": [first, second], "from": "set", "to": "hatched", "n": 2}], "why": "hatch"})
    book.move(first, "set", "hatched", 9, why="hatch", day=21)
    book.write("moon_phase", {"phase": "waxing", "10": 0.5}, mood={"z": None})
    book.write("family", {"name": "Alder"}, v=2)
    return book.documents


def write(folder: Path) -> None:
    """Make the three files. The phone holds one entry that it had not sent yet; the server has it."""
    with tempfile.TemporaryDirectory() as place, sync_playwright() as driver:
        served = Served(Path(place) / "book")
        source = Path(place) / "first.jsonl"
        source.write_text("".join(json.dumps(one) + "\n" for one in first_book()), encoding="utf-8")
        served.run("import", str(source))
        served.start()
        phone = Phone(driver, Path(place) / "phone")
        try:
            databases = phone_with_one_waiting(served, phone)
        finally:
            phone.close()
            served.kill()
        served.run("devices", "revoke", served.run("devices")["devices"][0]["id"])
        folder.mkdir(parents=True)
        served.run("backup", str(folder / "book.db"))
        entries = [read_entry(document) for document in served.entries()]
    write_json(folder / "phone.json", databases)
    write_json(folder / "standing.json", standing_json(fold(entries)))


def phone_with_one_waiting(served: Served, phone: Phone) -> dict[str, Any]:
    page: Page = phone.open(served.url)
    pair(page, served.url, served.code(), "Old phone")
    on_server(page)
    wait_until_it_works_offline(page)
    served.freeze()
    page.goto(f"{served.url}/setting/{entry_id(5)}/tally/hatch")
    tap(page, "Hatched")
    wait_until(lambda: only_here(page) == 1)
    databases: dict[str, Any] = page.evaluate(DUMP)
    served.thaw()
    on_server(page)
    return databases


def write_json(path: Path, value: object) -> None:
    path.write_text(json.dumps(value, ensure_ascii=False, indent=1, sort_keys=True) + "\n", encoding="utf-8")


if __name__ == "__main__":
    write(Path(sys.argv[1]))
