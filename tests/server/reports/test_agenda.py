"""What is due: by hand, over the shared vectors, and against an oracle that walks through the days."""

import json
import re
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from broodline.book.fold import fold
from broodline.book.wire import read_entry
from broodline.reports.agenda import due, words_of
from broodline.reports.agenda_task import Task
from broodline.reports.brood_tasks import WORDS
from broodline.trade.sources import read_table
from tests.book_writer import START, BookWriter
from tests.server.oracles.agenda_day_by_day import agenda

VECTORS = Path(__file__).parents[2] / "vectors" / "agenda.json"
READ = json.loads(VECTORS.read_text(encoding="utf-8"))
CASES = READ["cases"]
SHARED = ("due", "at", "place", "setting", "task", "n", "overdue", "lot")
TASK = Task("candle", None, "", START, 7, 1, "2026-03-08", "2026-03-08")
WAYS = [
    ("set", "clear"), ("set", "quitter"), ("set", "locked"), ("locked", "hatched"), ("set", "hatched"),
    ("hatched", "brooding"), ("locked", "unhatched"), ("unhatched", "dead_late"), ("unhatched", "hatched"),
    ("brooding", "growing"), ("growing", "flock"), ("brooding", "died"),
]  # fmt: skip


def plain(found: dict[str, Any], *more: str) -> list[dict[str, Any]]:
    return [{name: task[name] for name in (*SHARED, *more)} for task in found["tasks"]]


def asked(book: BookWriter, days: float) -> dict[str, Any]:
    return due(fold(book.entries()), START + timedelta(days=days))


def shown(book: BookWriter, days: float) -> list[tuple[str, int, bool]]:
    return [(task["task"], task["n"], task["overdue"]) for task in asked(book, days)["tasks"]]


@pytest.fixture
def book() -> BookWriter:
    writer = BookWriter()
    writer.keeper()
    return writer


def start(book: BookWriter, eggs: int = 12, **more: Any) -> tuple[str, str]:
    lot = book.lot()
    setting = book.set_eggs(more.pop("place", None) or book.incubator(), [(lot, book.family("Rowan"), eggs)], **more)
    return setting, lot


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_vectors(case: dict[str, Any]) -> None:
    entries = [read_entry(document) for document in case["in"]["entries"]]
    assert plain(due(fold(entries), datetime.fromisoformat(case["in"]["now"])), "day") == case["out"]


@pytest.mark.parametrize("case", READ["said"], ids=[case["name"] for case in READ["said"]])
def test_what_is_said_of_shells(case: dict[str, Any]) -> None:
    entries = [read_entry(document) for document in case["in"]["entries"]]
    tasks = due(fold(entries), datetime.fromisoformat(case["in"]["now"]))["tasks"]
    assert [[task[name] for name in ("task", "day", "words", "why")] for task in tasks] == case["out"]


def test_a_setting_from_first_candling_to_opening(book: BookWriter) -> None:
    setting, lot = start(book)
    assert shown(book, -1) == []
    assert shown(book, 1) == [("candle", 12, False)]
    assert shown(book, 9) == [("candle", 12, True), ("candle", 12, False)]
    assert shown(book, 12.5) == [("candle", 12, False), ("lockdown", 12, False)]
    book.look(setting, lot, live=10, unsure=2, day=13)
    assert shown(book, 13) == [("lockdown", 12, False)]
    assert shown(book, 19) == [("lockdown", 12, True), ("hatch", 12, False), ("open", 12, False)]
    book.write("locked", {"setting": setting})
    book.move(lot, "set", "locked", 12, at=START + timedelta(days=18))
    assert shown(book, 21) == [("hatch", 12, False), ("open", 12, False)]
    book.move(lot, "locked", "hatched", 8, at=START + timedelta(days=21))
    assert shown(book, 21.1) == [("open", 4, False), ("pull", 8, False)]
    assert shown(book, 21.9) == [("hatch", 4, False), ("open", 4, False), ("pull", 8, False)]
    book.move(lot, "hatched", "brooding", 8)
    book.move(lot, "locked", "unhatched", 4)
    assert shown(book, 23) == [("open", 4, True)]
    book.move(lot, "unhatched", "infertile", 4)
    assert shown(book, 23) == []


def test_a_half_candled_lot_is_still_due_with_the_eggs_still_in_hand(book: BookWriter) -> None:
    setting, lot = start(book)
    book.look(setting, lot, live=4, unsure=1, day=7)
    book.look(setting, lot, live=2, day=7)
    assert shown(book, 7) == [("candle", 5, False), ("candle", 12, False)]
    assert asked(book, 7)["tasks"][0]["words"] == "Candle the 5 eggs in Loft box."
    book.move(lot, "set", "clear", 3, at=START + timedelta(days=7))
    assert shown(book, 7)[0] == ("candle", 2, False)
    book.look(setting, lot, live=2, day=7)
    assert shown(book, 7) == [("candle", 9, False)], "only the second candling is left, of the nine in the setter"


def test_one_egg_is_no_eggs(book: BookWriter) -> None:
    _, lot = start(book, eggs=1)
    said = [task["words"] for days in (7, 16, 21) for task in asked(book, days)["tasks"]]
    book.move(lot, "set", "hatched", 1, at=START + timedelta(days=21))
    said += [task["words"] for task in asked(book, 21.5)["tasks"]]
    assert set(said) == {
        "Candle the 1 egg in Loft box.",
        "Lock down Loft box: stop turning, raise the humidity, keep the families of 1 egg apart.",
        "Look for chicks in Loft box: 1 egg is due.",
        "Open the 1 egg in Loft box that did not hatch. Candle and listen first.",
        "Bring 1 chick from Loft box to feed and water.",
    }


def test_every_count_of_the_tables_is_told_of_one_and_of_many(book: BookWriter) -> None:
    """Every sentence with a number, of one and of two: no verb or noun is left in the other number."""
    wrong = re.compile(r"\b1 (\w+ )?(eggs|chicks|birds|are|need)\b|\b2 (\w+ )?(egg|chick|bird|is|needs)\b|[|]")
    standing = fold(book.entries())
    agenda_words = read_table("agenda")["tasks"]
    seen = 0
    for name, words in {**agenda_words, **WORDS}.items():
        for says in ("words", "words_chicks", "words_off"):
            for n in (1, 2, None):
                if says in words:
                    said = words_of(standing, replace(TASK, task=name, n=n, says=says))
                    assert not wrong.search(said), said
                    assert "{n}" not in said, said
                    seen += 1
    assert seen > 60


def test_looking_again_at_the_unsure_ones_brings_nothing_back(book: BookWriter) -> None:
    setting, lot = start(book)
    book.look(setting, lot, live=10, unsure=2, day=7)
    book.look(setting, lot, live=2, day=10)
    assert shown(book, 7) == [("candle", 12, False)]


def test_an_egg_of_unknown_family_is_in_nobodys_hand(book: BookWriter) -> None:
    lots = [book.lot(), book.lot()]
    setting = book.set_eggs(book.incubator(), [(lot, book.family(lot), 6) for lot in lots])
    book.write("moved", {"moves": [{"among": lots, "from": "set", "to": "clear", "n": 1}], "why": "candled"})
    assert shown(book, 7)[0] == ("candle", 11, False)
    book.look(setting, lots[1], live=5, day=7)
    book.look(setting, lots[0], live=6, day=7)
    assert shown(book, 7) == [("candle", 11, False)], "the egg without a sign was of the second lot"


def test_opening_waits_24_hours_after_the_last_chick(book: BookWriter) -> None:
    _, lot = start(book)
    book.move(lot, "set", "hatched", 8, at=START + timedelta(days=21))
    book.move(lot, "set", "hatched", 1, at=START + timedelta(days=22, hours=6))
    found = [task for task in asked(book, 22.5)["tasks"] if task["task"] == "open"]
    assert [task["at"] for task in found] == ["2026-03-24T14:00:00.000Z"]


def test_chicks_still_in_the_hatcher_are_the_last_ones_out(book: BookWriter) -> None:
    _, lot = start(book)
    book.move(lot, "set", "hatched", 5, at=START + timedelta(days=20))
    book.move(lot, "set", "hatched", 3, at=START + timedelta(days=21))
    book.move(lot, "hatched", "brooding", 5, at=START + timedelta(days=21, hours=1))
    pull = next(task for task in asked(book, 21.2)["tasks"] if task["task"] == "pull")
    assert (pull["n"], pull["at"]) == (3, "2026-03-23T08:00:00.000Z")


def test_more_chicks_than_ever_hatched_still_ask_for_water(book: BookWriter) -> None:
    _, lot = start(book)
    book.move(lot, "set", "hatched", 2, at=START + timedelta(days=21))
    book.move(lot, "brooding", "hatched", 3, at=START + timedelta(days=22))
    pull = next(task for task in asked(book, 21.2)["tasks"] if task["task"] == "pull")
    assert (pull["n"], pull["at"]) == (5, "2026-03-23T08:00:00.000Z")


def test_words_name_the_place_and_the_source(book: BookWriter) -> None:
    start(book)
    task = asked(book, 6)["tasks"][0]
    assert task["words"] == "Candle the 12 eggs in Loft box."
    assert task["source"] == "Hatchability Problem Analysis, CIR1112"
    assert "blood rings" in task["why"]


def test_dark_shells_wait_for_day_10_and_a_mixed_setting_says_which_may_show_nothing(book: BookWriter) -> None:
    """Day 10: common practice, no source (tables/species.json)."""
    shells = {"Rowan": "dark", "Hazel": "dark", "Alder": "blue"}
    family = {
        name: book.write("family", {"name": name, "species": "chicken", "breed": "Marsh Speckle", "shell": shell})
        for name, shell in shells.items()
    }
    box = book.incubator()
    dark = book.set_eggs(box, [(book.lot(), family["Rowan"], 6), (book.lot(), family["Hazel"], 6)])
    mixed = book.set_eggs(box, [(book.lot(), family["Rowan"], 6), (book.lot(), family["Alder"], 6)])
    first, second = asked(book, 6)["tasks"][:2]
    assert [(task["setting"], task["day"]) for task in (first, second)] == [(mixed, 7), (dark, 10)]
    assert "Dark shells may show little before about day 10" in first["why"]
    assert first["source"] == "Hatchability Problem Analysis, CIR1112"
    assert second["why"].startswith("Dark shells show little before about day 10")
    assert second["source"] == "Common practice"
    on_day_14 = [task for task in asked(book, 13)["tasks"] if task["day"] == 14]
    assert {task["why"] for task in on_day_14} == {
        "Clears, blood rings and quitters show now; taken out, they cannot spoil the rest."
    }


def test_a_hen_is_candled_at_dusk_never_locked_down_and_left_alone(book: BookWriter) -> None:
    hen = book.write("place", {"name": "Dot", "role": "hen"})
    start(book, place=hen)
    assert "at dusk" in asked(book, 6)["tasks"][0]["words"]
    assert [task["task"] for task in asked(book, 17)["tasks"]] == ["candle", "hatch"]
    assert "alone" in asked(book, 17)["tasks"][1]["words"]


def test_place_and_species_nobody_entered(book: BookWriter) -> None:
    start(book, place="01950000-0000-7000-8000-00000000ffff")
    assert "an unknown place" in asked(book, 6)["tasks"][0]["words"]
    start(book, species="phoenix")
    assert len(asked(book, 6)["tasks"]) == 1


@pytest.mark.parametrize(
    ("care", "done"),
    [
        ({"task": "candle", "on": "2026-03-06"}, True),
        ({"task": "candle", "on": "2026-03-05"}, False),
        ({"task": "candle", "on": "2026-03-05T23:30:00-01:00"}, True),
        ({"task": "lockdown", "on": "2026-03-08"}, False),
        ({"task": "candle", "on": "2026-03-08", "place": "elsewhere"}, False),
    ],
)
def test_a_care_makes_a_task_done(book: BookWriter, care: dict[str, str], done: bool) -> None:
    start(book)
    book.write("care", care)
    assert shown(book, 6) == ([] if done else [("candle", 12, False)])


def test_a_setting_at_the_edge_of_time_is_no_error(book: BookWriter) -> None:
    for year, day in ((1, 0.1), (9999, 1e14)):
        start(book, set_at=datetime.fromisoformat(f"{year:04}-12-31T00:00:00+00:00"), lockdown_day=day)
    assert all(task["overdue"] for task in asked(book, 1)["tasks"])


@st.composite
def documents(draw: st.DrawFn) -> tuple[list[dict[str, Any]], datetime]:
    writer = BookWriter()
    writer.keeper(draw(st.sampled_from(["UTC", "Europe/Dublin", "America/New_York", "Pacific/Apia"])))
    family, places = writer.family("Rowan"), [writer.incubator(), writer.incubator("Hatcher")]
    lots: list[tuple[str, str]] = []
    for _ in range(draw(st.integers(1, 2))):
        own = [writer.lot() for _ in range(draw(st.integers(1, 2)))]
        more = {"lockdown_day": draw(st.integers(5, 20))} if draw(st.booleans()) else {}
        species = draw(st.sampled_from(["chicken", "duck", "coturnix", "phoenix"]))
        set_at = START + timedelta(hours=draw(st.integers(0, 200)))
        sown = [(lot, family, draw(st.integers(1, 12))) for lot in own]
        setting = writer.set_eggs(draw(st.sampled_from(places)), sown, set_at=set_at, species=species, **more)
        lots += [(setting, lot) for lot in own]
    for _ in range(draw(st.integers(0, 10))):
        at = START + timedelta(hours=draw(st.integers(0, 800)))
        setting, lot = draw(st.sampled_from(lots))
        kind = draw(st.sampled_from(["move", "move", "move", "move", "among", "look", "lock", "care", "mark", "mark"]))
        way = draw(st.sampled_from(WAYS))
        n = draw(st.integers(1, 12))
        if kind == "move":
            where = {"place": draw(st.sampled_from(places))} if draw(st.booleans()) else {}
            writer.move(lot, *way, n, at=at, **where)
        elif kind == "among":
            own = [other for one, other in lots if one == setting]
            writer.write("moved", {"moves": [{"among": own, "from": way[0], "to": way[1], "n": n}]}, at=at)
        elif kind == "look":
            what = draw(st.sampled_from(["candled", "hatch"]))
            writer.look(setting, lot, what, day=draw(st.integers(3, 20)), live=n, at=at)
        elif kind == "mark":
            webs = draw(st.sampled_from([{}, {"webs": ["LO", "RI"]}, {"webs": ["RI", "LO"]}, {"webs": ["RO"]}]))
            ring = {"tag": {"kind": "ring", "colour": "blue", "leg": "left"}} if draw(st.booleans()) else {}
            more = {"n": n} if draw(st.booleans()) else {"recheck": True}
            writer.write("marked", {"lot": lot, **webs, **ring, **more}, at=at)
        elif kind == "lock":
            writer.write("locked", {"setting": setting, "place": places[1]}, at=at)
        else:
            task = draw(st.sampled_from(["candle", "lockdown", "hatch", "pull", "open", "rings", "webs_again"]))
            where = {"place": draw(st.sampled_from(places))} if draw(st.booleans()) else {}
            writer.write("care", {"task": task, "on": at.date().isoformat(), **where}, at=at)
    return writer.documents, START + timedelta(hours=draw(st.integers(-50, 1400)))


@settings(max_examples=150)
@given(documents())
def test_agenda_is_that_of_walking_through_the_days(case: tuple[list[dict[str, Any]], datetime]) -> None:
    found = plain(due(fold(map(read_entry, case[0])), case[1]))
    assert [task for task in found if task["task"] not in WORDS] == agenda(*case)  # broods: see test_brood_tasks
