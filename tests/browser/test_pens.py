"""Pens written down with no server near: put together, a bird that got in, another cock, parts; and a pair ruled out.

The server then tells the parents of a batch: the figures beside the checks are worked by hand from the pens.
"""

import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.book_writer import BookWriter
from tests.browser.audit import assert_sound
from tests.browser.hands import day, follow, go, on_server, pair, pick, tap, wait_until_it_works_offline
from tests.browser.phones import Phone
from tests.browser.serving import Served


def flock(served: Served, folder: Path) -> tuple[BookWriter, dict[str, str]]:
    book = BookWriter()
    book.keeper()
    rowan, hazel = book.family("Rowan"), book.family("Hazel")
    birds = {"rowan": rowan, "hazel": hazel}
    for name, sex, family in (
        ("Bram", "male", rowan), ("Cass", "male", rowan), ("Ada", "female", rowan), ("Bea", "female", rowan),
        ("Dorn", "male", hazel), ("Eve", "female", hazel), ("Fay", "female", hazel),
    ):  # fmt: skip
        birds[name] = book.write("bird", {"name": name, "sex": sex, "family": family})
    # Dorn and Eve stand with Fay since long; Eve will move to Rowan's pen.
    hens = [{"bird": birds["Eve"]}, {"bird": birds["Fay"]}]
    book.write("penned", {"family": hazel, "since": day(200), "sires": [{"bird": birds["Dorn"]}], "dams": hens})
    take_in(served, folder / "flock.jsonl", book)
    return book, birds


def take_in(served: Served, file: Path, book: BookWriter) -> None:
    file.write_text("".join(json.dumps(one) + "\n" for one in book.documents), encoding="utf-8")
    served.run("import", str(file))


def choose(page: Page, *names: str) -> None:
    for name in names:
        page.get_by_role("switch", name=name, exact=True).tap()
        expect(page.get_by_role("switch", name=name, exact=True)).to_be_checked()


def test_pens_from_the_phone_are_the_parents_that_the_server_tells(
    served: Served, new_phone: Callable[..., Phone], tmp_path: Path
) -> None:
    book, birds = flock(served, tmp_path)
    page = new_phone().open(served.url)
    pair(page, served.url, served.code())
    wait_until_it_works_offline(page)
    on_server(page)
    served.stop()

    go(page, "/families")
    follow(page, "Breeding pens")
    expect(page.get_by_role("heading", level=1)).to_have_text("1 pen stands today")
    tap(page, "Put a pen together")
    page.get_by_label("Family", exact=True).select_option(label="Rowan")
    page.get_by_label("Since", exact=True).fill(day(40))
    tap(page, "Write the pen down")
    expect(page.get_by_text("Choose one bird at least.")).to_be_visible()
    choose(page, "Bram")
    expect(page.get_by_text("Choose a hen.")).to_be_visible()
    choose(page, "Ada", "Bea")
    page.evaluate("document.documentElement.dataset.theme = 'hatch-room'")
    assert_sound(page)
    page.evaluate("document.documentElement.dataset.theme = 'day'")
    tap(page, "Write the pen down")
    expect(page.get_by_role("heading", level=1)).to_have_text("2 pens stand today")

    tap(page, "A bird got in: Pen of Rowan")
    page.get_by_label("Which one").select_option(label="Dorn, Hazel")
    page.get_by_label("From", exact=True).fill(day(20))
    page.get_by_label("Until", exact=True).fill(day(19))
    assert_sound(page)
    tap(page, "Write it down")
    expect(page.get_by_text("All that was written: 2 entries")).to_be_visible()

    tap(page, "Change who stands here: Pen of Rowan")
    page.get_by_label("Since", exact=True).fill(day(10))
    choose(page, "Cass")
    page.get_by_role("switch", name="Bram", exact=True).tap()
    page.get_by_text("2 birds of another family").click()
    choose(page, "Eve")
    expect(page.get_by_text("Eve: no longer in Pen of Hazel from that day.")).to_be_visible()
    expect(page.get_by_text(re.compile("^Pen of Rowan, since .*, ends that day.$"))).to_be_visible()
    pick(page, "No")
    for name, part in (("Ada", "60"), ("Bea", "20"), ("Eve", "10")):
        page.get_by_label(f"{name}, percent").fill(part)
    tap(page, "Write the pen down")
    expect(page.get_by_text("Hens: the parts sum to 90 %, not to 100 %.")).to_be_visible()
    assert_sound(page)
    page.get_by_label("Eve, percent").fill("20")
    tap(page, "Write the pen down")
    expect(page.get_by_role("link", name="Ada (60 %)")).to_be_visible()
    assert_sound(page)

    go(page, f"/bird/{birds['Eve']}")
    expect(page.get_by_text(re.compile("^Pen of Rowan, since"))).to_be_visible()
    tap(page, "Never pair")
    page.get_by_label("What it carries").fill("crest, short legs")
    tap(page, "Write down what it carries")
    expect(page.get_by_label("What is ruled out")).to_be_visible()
    page.get_by_label("Never with").select_option(label="Bram")
    page.get_by_label("Why, if you like").fill("he pecks her")
    assert_sound(page)
    tap(page, "Rule this pair out")
    expect(page.get_by_text("Eve and Bram: he pecks her")).to_be_visible()

    lot, late, left = book.lot(), book.lot(), book.lot()
    box = book.incubator()
    lots = [
        {"lot": lot, "family": birds["rowan"], "n": 12, "laid_from": day(5), "laid_to": day(5)},
        {"lot": late, "family": birds["rowan"], "n": 6, "laid_from": day(15), "laid_to": day(15)},
        {"lot": left, "family": birds["hazel"], "n": 6, "laid_from": day(5), "laid_to": day(5)},
    ]
    book.write("set", {"place": box, "species": "chicken", "set_at": f"{day(4)}T09:00:00Z", "lots": lots})
    take_in(served, tmp_path / "eggs.jsonl", book)
    served.start()
    on_server(page)

    def parents(of: str) -> dict[tuple[str, str], float]:
        told = served.run("report", "brood", of)["parents"]["pairs"]
        return {(pair["sire"], pair["dam"]): pair["chance"] for pair in told}

    # Laid 5 days ago: Cass stands there, Bram left 5 and Dorn 14 days before, all within the 21 days of chickens
    # (Lippincott): a third each. Eve stood with Dorn till 5 days before and has met no Bram, so hers are half his.
    found = parents(lot)
    for cock in ("Bram", "Cass", "Dorn"):
        assert found[birds[cock], birds["Ada"]] == pytest.approx(0.6 / 3)
        assert found[birds[cock], birds["Bea"]] == pytest.approx(0.2 / 3)
    assert (birds["Bram"], birds["Eve"]) not in found
    assert found[birds["Cass"], birds["Eve"]] == found[birds["Dorn"], birds["Eve"]] == pytest.approx(0.2 / 2)
    assert sum(found.values()) == pytest.approx(1)
    # Laid 15 days ago, before Cass: Bram or Dorn, with Ada or Bea alike.
    before = parents(late)
    assert set(before) == {(birds[cock], birds[hen]) for cock in ("Bram", "Dorn") for hen in ("Ada", "Bea")}
    assert all(chance == pytest.approx(0.25) for chance in before.values())

    # Eve left Hazel's pen with the change: its eggs after that are Fay's alone.
    assert parents(left) == {(birds["Dorn"], birds["Fay"]): pytest.approx(1)}

    table = served.run("report", "matings")["table"]
    ruled_out = {(row["sire"], row["dam"]): row["why"] for row in table if row["ruled_out"]}
    assert ruled_out == {(birds["Bram"], birds["Eve"]): ["Never pair Eve and Bram: he pecks her."]}
    carried = next(one for one in served.entries() if one["kind"] == "bird" and one["amends"] == birds["Eve"])
    assert carried["body"]["carries"] == ["crest", "short legs"]
