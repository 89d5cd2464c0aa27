"""The phone's agenda, egg store and rates are the server's: same entries and moment, same answer, text for text."""

import json
import random
from datetime import datetime, timedelta
from typing import Any

import pytest

from broodline.book.fold import fold
from broodline.book.hatch_day import brood_hatched_ms
from broodline.book.kept_here import kept_here
from broodline.book.whereabouts import broods, stays_of
from broodline.book.wire import canonical_bytes, read_entry
from broodline.reports.agenda import due
from broodline.reports.egg_store import egg_store
from broodline.reports.rates import Outcome, add_outcomes, lot_outcome, setting_outcome
from broodline.reports.readings import air_of
from broodline.reports.weighings import weighings_of, weight_loss_json
from tests.book_writer import START, BookWriter
from tests.server.book.brooded_books import brooded_book
from tests.server.book.gathering_books import gathering_book
from tests.server.book.odd_books import odd_book
from tests.server.book.phone import phone_book
from tests.server.book.tallied_books import hatched_among_book, tallied_book

BEGIN = datetime.fromisoformat("2026-02-27T23:30:00Z")


@pytest.fixture(scope="module")
def phone(tmp_path_factory):
    with phone_book(tmp_path_factory.mktemp("phone")) as book:
        yield book


def test_the_same_is_kept_at_the_end_of_any_day_and_stood_in_the_same_places(phone):
    days = ["2026-02-27", "2026-03-05", "2026-03-22", "2026-04-09", "9999-12-30"]
    birds = chicks = places = shared = 0
    for seed in range(200):
        book = (odd_book, tallied_book, brooded_book, hatched_among_book)[seed % 4](seed)
        standing = fold(map(read_entry, book))
        kept = [kept_here(standing, day) for day in days]
        stays = [
            [[stay.place, stay.since_ms, stay.until_ms] for stay in stays_of(standing, lot)]
            for lot in standing.lots.values()
        ]
        young = [
            [one.lot, [*one.among], one.place or "", dict(one.stages), brood_hatched_ms(standing, one)]
            for one in broods(standing)
        ]
        shared += sum(bool(one.among) for one in broods(standing))
        told = {
            "kept": [{"birds": [*one.birds], "chicks": one.chicks} for one in kept],
            "stays": stays,
            "young": young,
        }
        assert phone.answer("kept", entries=book, days=days) == canonical_bytes(told).decode(), f"seed {seed}"
        birds += sum(len(one.birds) for one in kept)
        chicks += sum(one.chicks for one in kept)
        places += sum(map(len, stays))
    assert min(birds, chicks, places) > 30
    assert shared > 20


def test_the_same_is_due_at_any_moment(phone):
    tasks = 0
    for seed in range(200):
        book = odd_book(seed) if seed % 2 == 0 else tallied_book(seed)
        standing = fold(map(read_entry, book))
        moments = [BEGIN + timedelta(days=day, hours=seed % 24) for day in range(seed % 7, 40, 7)]
        expected = [due(standing, now) for now in moments]
        tasks += sum(len(found["tasks"]) for found in expected)
        answer = phone.answer("due", entries=book, moments=[now.isoformat() for now in moments])
        assert answer == canonical_bytes(expected).decode(), f"seed {seed}: {json.dumps(book)}"
    assert tasks > 500, "the books ask for something"


def test_broods_ask_for_the_same_at_any_moment(phone):
    kinds: set[str] = set()
    for seed in range(150):
        book = brooded_book(seed) if seed % 3 else hatched_among_book(seed)
        standing = fold(map(read_entry, book))
        moments = [START + timedelta(days=day, hours=seed % 24) for day in range(20 + seed % 5, 115, 5)]
        expected = [due(standing, now) for now in moments]
        kinds |= {task["task"] for found in expected for task in found["tasks"]}
        answer = phone.answer("due", entries=book, moments=[now.isoformat() for now in moments])
        assert answer == canonical_bytes(expected).decode(), f"seed {seed}: {json.dumps(book)}"
    assert {"heat", "eat", "vitamins", "feed", "weigh", "water", "drinkers", "litter"} <= kinds
    assert {"pan", "raise", "grit", "ring_size", "dust_bath"} <= kinds


def test_the_same_lies_in_store(phone):
    eggs = 0
    for seed in range(200):
        book = gathering_book(seed) if seed % 2 else odd_book(seed)
        standing = fold(map(read_entry, book))
        moments = [BEGIN + timedelta(days=day) for day in (0, 12)]
        expected = [egg_store(standing, now) for now in moments]
        eggs += expected[-1]["n"]
        answer = phone.answer("store", entries=book, moments=[now.isoformat() for now in moments])
        assert answer == canonical_bytes(expected).decode(), f"seed {seed}: {json.dumps(book)}"
    assert eggs > 500, "the books keep eggs"


def told(outcome: Outcome):
    rates = ("fertility", "hatch_of_set", "hatch_of_fertile", "alive_7d")
    return {
        **{name: getattr(outcome, name).as_json() for name in rates},
        "deaths": outcome.deaths,
        "sound": outcome.sound,
    }


def rates_of(standing, now_ms):
    lots = {name: [standing.lots[lot] for lot in setting.lots] for name, setting in standing.settings.items()}
    settings = standing.settings.items()
    outcomes = [lot_outcome(lot, setting, now_ms) for name, setting in settings for lot in lots[name]]
    return {
        "settings": [told(setting_outcome(setting, lots[name], now_ms)) for name, setting in settings],
        "lots": [told(outcome) for outcome in outcomes],
        "all": told(add_outcomes(outcomes)),
    }


def test_the_rates_are_the_same(phone):
    rated = 0
    for seed in range(400):
        book = odd_book(seed) if seed % 4 == 0 else tallied_book(seed)
        now = BEGIN + timedelta(days=seed % 50)
        expected = rates_of(fold(map(read_entry, book)), int(now.timestamp()) * 1000)
        rated += sum(found["fertility"]["rate"] is not None for found in expected["lots"])
        answer = phone.answer("rates", entries=book, moment=now.isoformat())
        assert json.loads(answer) == expected, f"seed {seed}, {now}: {json.dumps(book)}"
    assert rated > 500, "some lots have rates"


def gauged_book(seed: int) -> BookWriter:
    """Readings, checks and weighings at random, many of them odd, of two settings in three machines."""
    chance = random.Random(seed)
    book = BookWriter()
    book.keeper(altitude_m=chance.choice([0, 800, 1500]), season_starts=chance.choice([1, 7]))
    places = [book.incubator(name) for name in ("Loft box", "Cabinet")]
    places.append(book.write("place", {"name": "Hatcher", "role": "hatcher", "air": "still"}))
    kinds = ("chicken", "turkey", "coturnix", "moa")
    lots = [book.lot(), book.lot()]
    settings = [
        book.set_eggs(place, [(lot, book.family("Rowan"), 20)], species=chance.choice(kinds))
        for place, lot in zip(places, lots, strict=False)
    ]
    if chance.random() < 0.5:
        book.write("locked", {"setting": settings[0], "place": places[2]}, at=START + timedelta(days=18))
    for _ in range(30):
        at = START + timedelta(days=chance.uniform(-4, 22))
        place, dry = chance.choice(places), round(chance.gauss(37.5, 1), chance.choice([0, 1, 3]))
        match chance.randrange(5):
            case 0:
                body: dict[str, Any] = {"place": place, "dry_c": dry, "wet_c": round(dry - chance.uniform(-1, 9), 1)}
                book.write("air", body, at=at)
            case 1:
                book.write("air", {"place": place, "dry_c": dry, "humidity_pct": chance.randint(30, 104)}, at=at)
            case 2:
                gauge = chance.choice(["dry", "wet", "humidity"])
                body = {"place": place, "gauge": gauge, "reads": dry, "true_value": round(dry + chance.gauss(0, 1), 1)}
                book.write("gauge_checked", body, at=at - timedelta(days=chance.choice([0, 0, 100])))
            case _:
                n = chance.choice([1, 10, 10, 10, 12])
                grams = n * 60 * (1 - (at - START).days * chance.uniform(0.002, 0.01)) + 250
                body = {"setting": chance.choice(settings), "n": n, "tare_g": chance.choice([250.0, 250.0, 2000.0])}
                body |= {"gross_g": round(grams, chance.choice([0, 1, 2]))}
                book.write("eggs_weighed", body | ({"lot": lots[0]} if chance.random() < 0.2 else {}), at=at)
    return book


def gauges_of(standing, now):
    found = []
    for setting in standing.settings.values():
        air = air_of(standing, setting, [standing.lots[lot] for lot in setting.lots])
        weighed = weighings_of(standing, setting)
        loss = weight_loss_json(setting, weighed, air, now) or {}
        band, middle = loss.get("projected_band_pct"), loss.get("projected_pct")
        found.append(
            {
                "readings": [
                    [one.at_ms, one.phase, one.dry_c, one.off_c, one.humidity_pct, one.corrected]
                    for one in air.readings
                ],
                "gauges": [[one.place, one.name, one.checked_ms, one.off] for one in air.gauges],
                "points": [[one.day, one.loss_pct, one.lot, one.since_day] for one in weighed.points],
                "error": weighed.error_pct,
                "faults": [[one.entry, one.code] for one in weighed.problems],
                "projection": band and [band[0], middle, band[1]],
                "advice": loss.get("advice"),
            }
        )
    return found


def near(found: Any) -> Any:
    """The same with every number allowed its last digits: exp and log differ there between the two languages."""
    if isinstance(found, dict):
        return {name: near(value) for name, value in found.items()}
    if isinstance(found, list):
        return [near(value) for value in found]
    return pytest.approx(found, rel=1e-9, abs=1e-9) if isinstance(found, float) else found


def test_gauges_and_scales_say_the_same(phone):
    advised = judged = 0
    for seed in range(150):
        book = gauged_book(seed)
        now = START + timedelta(days=seed % 20)
        expected = gauges_of(fold(book.entries()), now)
        advised += sum(one["advice"] is not None for one in expected)
        judged += sum(len(one["readings"]) + len(one["points"]) for one in expected)
        answer = json.loads(phone.answer("gauges", entries=book.documents, moment=now.isoformat()))
        assert answer == near(expected), f"seed {seed}: {json.dumps(book.documents)}"
    assert advised > 30, advised
    assert judged > 1500, judged
