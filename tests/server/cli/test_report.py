"""`broodline report`: the same answer as JSON for programs and as a table for people."""

import json
from datetime import UTC, datetime, timedelta

import pytest

from broodline.cli.place import moment_of
from broodline.cli.report_words import percent
from broodline.errors import WrongUse
from tests.book_writer import START, BookWriter
from tests.server.cli.commands import broodline, write_lines


@pytest.fixture(scope="module")
def book(tmp_path_factory):
    """Rowan 12 eggs, 2 clear, 9 hatched, 1 unhatched; Hazel 8 eggs still set."""
    writer = BookWriter()
    writer.keeper("Europe/Dublin")
    rowan, hazel, place = writer.family("Rowan"), writer.family("Hazel"), writer.incubator()
    lot, other = writer.lot(), writer.lot()
    setting = writer.set_eggs(place, [(lot, rowan, 12)])
    running = writer.set_eggs(place, [(other, hazel, 8)])
    writer.move(lot, "set", "clear", 2, why="candled", day=7)
    writer.move(lot, "set", "locked", 10)
    writer.move(lot, "locked", "hatched", 9)
    writer.move(lot, "locked", "unhatched", 1)
    folder = tmp_path_factory.mktemp("book")
    file = write_lines(folder / "in.jsonl", *writer.documents)
    assert broodline("import", file, "--data", folder).code == 0
    return folder, setting, running


def report(book, *words):
    return broodline("report", *words, "--data", book[0], "--on", "2026-03-20")


def test_a_setting_as_json(book):
    answer = report(book, "setting", book[1], "--json").json
    assert answer["setting"] == book[1]
    assert (answer["total"]["hatch_of_set"]["k"], answer["total"]["hatch_of_set"]["n"]) == (9, 12)
    assert answer["entries"] == 10
    assert answer["computed_at"] == "2026-03-20T23:59:59.999Z"


def test_a_setting_as_a_table(book):
    words = report(book, "setting", book[1]).out
    assert "Loft box" in words
    assert "75 % (47 to 91) of 12" in words  # Wilson limits of 9 in 12: scipy.stats.binomtest(9, 12)
    assert "2 clear" in words
    assert book[1] not in words, "names, not ids"


def test_a_running_setting_says_so(book):
    words = report(book, "setting", book[2]).out
    assert "Day 19: 8 of 8 eggs in the shell." in words
    assert "not yet" in words
    assert "0 %" not in words, "no chick yet is no finding"


def test_a_season_as_json_and_as_a_table(book):
    answer = report(book, "season", "2026", "--json").json
    assert [family["name"] for family in answer["families"]] == ["Hazel", "Rowan"]
    words = report(book, "season", "2026").out
    assert "Season 2026: 2 settings" in words
    assert answer["verdict"] in words


@pytest.fixture(scope="module")
def season(tmp_path_factory):
    """Two settings that are over, in two incubators and months: fresh eggs and old, own and bought in."""
    writer = BookWriter()
    writer.keeper("Europe/Dublin")
    rowan, birch = writer.family("Rowan"), writer.family("Birch")
    for name, days, laid, more in (
        ("Loft box", 0, "2026-02-25", {}),
        ("Cellar box", 40, "2026-03-31", {"from": {"who": "Orla"}}),
    ):
        at = START + timedelta(days=days)
        place, lots = writer.incubator(name), [writer.lot(), writer.lot()]
        body = {"place": place, "species": "chicken", "set_at": at.isoformat().replace("+00:00", "Z")}
        whose = zip(lots, (rowan, birch), strict=True)
        rows = [{"lot": lot, "family": family, "n": 20, "laid_from": laid, **more} for lot, family in whose]
        writer.write("set", {**body, "lots": rows}, at=at)
        for lot, hatched in zip(lots, (15, 11), strict=True):
            writer.move(lot, "set", "infertile", 2, at=at + timedelta(days=7))
            writer.move(lot, "set", "dead_early", 1, at=at + timedelta(days=8))
            writer.move(lot, "set", "unaccounted", 1, at=at + timedelta(days=9))
            writer.move(lot, "set", "hatched", hatched, at=at + timedelta(days=21))
            writer.move(lot, "set", "dead_late", 16 - hatched, at=at + timedelta(days=23))
    folder = tmp_path_factory.mktemp("season")
    assert broodline("import", write_lines(folder / "in.jsonl", *writer.documents), "--data", folder).code == 0
    return (folder,)


def test_a_season_told_whole(season):
    words = report(season, "season", "2026").out
    for said in (
        "These eggs do not separate the families.",
        "Died in the shell, of eggs in settings that are over:",
        "Birch       2       0    10             0             0           0",
        "Birch: 2 of 40 eggs are not accounted for.",
        "How far the eggs came: 80 set, 76 looked into, 68 fertile, 52 hatched, 52 alive now, 0 grown and kept.",
        "4 to 7 days",
        "8 to 10 days",
        "Commercial flocks lose about 0.8 to 1.4 points of hatch at 4 to 7 days, 1.9 to 2.9 points of hatch at 8 to",
        "an average of broilers, not of rare breeds",
        "Cellar box",
        "2026-04",
        "bought in",
        "With setting",
    ):
        assert said in words, said
    assert "None" not in words
    assert "p =" not in words
    assert " lot" not in words


def test_what_is_due_as_json_and_as_a_table(book):
    answer = report(book, "due", "--json").json
    assert answer["on"] == "2026-03-20"
    words = report(book, "due").out
    assert answer["tasks"]
    assert all(task["words"] in words for task in answer["tasks"])


def test_nothing_due_is_said(tmp_path):
    assert "Nothing is due" in broodline("report", "due", "--data", tmp_path).out


def test_a_setting_that_is_not_there_is_wrong_use(book):
    done = report(book, "setting", "nobody")
    assert done.code == 2
    assert "nobody" in done.err


@pytest.mark.parametrize("words", [("season", "spring"), ("season",), ("setting",), ("weather",), ()])
def test_words_that_are_no_report_are_wrong_use(tmp_path, words):
    assert broodline("report", *words, "--data", tmp_path).code == 2


def test_a_day_ends_where_the_holding_is():
    """Summer time in Dublin: the last moment of 1 July there is an hour before midnight in UTC."""
    assert moment_of("2026-07-01", "Europe/Dublin") == datetime(2026, 7, 1, 22, 59, 59, 999_000, tzinfo=UTC)
    for wrong in ("tomorrow", "2026-02-30", "20260301T10"):
        with pytest.raises(WrongUse):
            moment_of(wrong, "UTC")


@pytest.mark.parametrize(
    ("rate", "words"),
    [
        ({"k": 9, "n": 12, "rate": 0.75, "low": 0.468, "high": 0.911}, "75 % (47 to 91) of 12"),
        ({"k": 0, "n": 0, "rate": None, "low": None, "high": None}, "not known yet"),
        ({"k": 14, "n": 12, "rate": None, "low": None, "high": None}, "14 of 12"),
        (None, ""),
    ],
)
def test_a_rate_in_words(rate, words):
    assert percent(rate) == words


def test_json_of_a_report_is_one_object(book):
    for words in (("due",), ("season", "2026"), ("season", "1"), ("season", "9999")):
        assert isinstance(json.loads(report(book, *words, "--json").out), dict)


@pytest.fixture(scope="module")
def told(tmp_path_factory):
    """A setting with weighings, air, a power cut, looks at the hatch and losses; an unknown species; a bare one."""
    writer = BookWriter()
    writer.keeper("Europe/Dublin", temperature="F")
    rowan, place, lot = writer.family("Rowan"), writer.incubator(), writer.lot()
    setting = writer.set_eggs(place, [(lot, rowan, 60)])
    odd = writer.set_eggs("nowhere", [(writer.lot(), "nobody", 8)], species="phoenix")
    bare = writer.set_eggs(place, [(writer.lot(), rowan, 8)])
    for day, gross_g in ((0, 820), (6, 796), (12, 772)):
        weight = {"setting": setting, "lot": lot, "n": 10, "gross_g": gross_g, "tare_g": 220}
        writer.write("eggs_weighed", weight, at=START + timedelta(days=day))
    for hours, dry_c in ((1, 37.5), (3, 40.3), (5, 37.5), (6, 37.5), (7, 37.5), (14, 30.0)):
        reading = {"place": place, "dry_c": dry_c, "humidity_pct": 52}
        writer.write("air", reading, at=START + timedelta(hours=hours))
    writer.write("air", {"place": "nowhere", "dry_c": 37.5}, at=START + timedelta(hours=1))
    writer.write("outage", {"from": "2026-03-09T10:00:00Z"})
    writer.look(odd, "x", "hatch", none=True)
    writer.move(lot, "set", "clear", 20)
    writer.move(lot, "set", "blood_ring", 10)
    writer.look(setting, lot, live=30, day=7)
    for hours, n in ((480, 5), (484, 10), (488, 5)):
        writer.move(lot, "set", "hatched", n, at=START + timedelta(hours=hours), weak=n == 10, helped=hours == 488)
    folder = tmp_path_factory.mktemp("told")
    file = write_lines(folder / "in.jsonl", *writer.documents)
    assert broodline("import", file, "--data", folder).code == 0
    return folder, setting, odd, bare


def test_a_setting_is_told_in_a_keepers_words(told):
    words = report(told, "setting", told[1]).out
    for said in (
        "20 chicks at 3 looks: the first seen 2026-03-21 08:00, the last 2026-03-21 16:00.",
        "Of these 10 weak, 5 helped out.",
        "hours early.",
        "temperature too high [",
        "At this pace 12.0 % by then",
        "against 99.5 °F, 2 of them outside 97.0 °F to 102.0 °F",
        "too warm for",
        "too cool for",
        "no power until now",
        "(nobody entered it: the readings fell after a silence)",
        "The hygrometer of Loft box was not checked this season.",
        "Power cut: Still air: leave it closed.",
        "Many dead in the first days: 10 of",
        "20 of them were not opened: clear is not infertile.",
        "A clear egg is not infertile until it is opened",
        "All 60 eggs are accounted for.",
        "Sources:",
    ):
        assert said in words, said
    assert "None" not in words
    assert "null" not in words
    assert "{" not in words


@pytest.mark.parametrize("which", [2, 3])
def test_what_is_not_known_is_left_out_and_never_printed_as_none(told, which):
    words = report(told, "setting", told[which]).out
    assert "None" not in words
    assert "null" not in words
    assert words.count("Weight loss") == 0


def test_a_setting_of_an_unknown_species_in_an_unknown_place(told):
    words = report(told, "setting", told[2]).out
    assert "phoenix eggs in a place nobody entered" in words
    assert "no target is known for this species" in words
    assert "Candle:" not in words


def test_the_store_as_json_and_as_a_table(tmp_path):
    writer = BookWriter()
    writer.keeper("Europe/Dublin")
    rowan = writer.family("Rowan")
    writer.write("gathered", {"family": rowan, "on": "2026-03-12", "n": 6, "kept": 5})
    writer.write("eggs_out", {"family": rowan, "on": "2026-03-13", "n": 2, "how": "sold"})
    assert broodline("import", write_lines(tmp_path / "in.jsonl", *writer.documents), "--data", tmp_path).code == 0
    words = ("report", "store", "--data", tmp_path, "--on", "2026-03-20")
    answer = broodline(*words, "--json").json
    assert (answer["n"], answer["families"][0]["oldest_days"]) == (3, 8)
    told = broodline(*words).out
    assert "3 eggs in store" in told
    assert "8 days" in told


@pytest.mark.parametrize("zone", ["Mars/Base", "America/Adak", "Pacific/Kiritimati"])
@pytest.mark.parametrize("day", ["0001-01-01", "1900-01-01", "2024-02-29", "2023-02-29", "2199-12-31", "9999-12-31"])
def test_any_day_in_any_zone_is_answered_or_refused_in_words(tmp_path, zone, day):
    writer = BookWriter()
    writer.write("keeper", {"name": "Ann", "holding": "Hill", "zone": zone, "region": "uk"})
    file = write_lines(tmp_path / "in.jsonl", *writer.documents)
    broodline("import", file, "--data", tmp_path / "book")
    done = broodline("report", "due", "--on", day, "--data", tmp_path / "book", "--json")
    if day in ("1900-01-01", "2024-02-29", "2199-12-31"):
        assert done.code == 0
        assert done.json["computed_at"][:8] in (f"{day[:7]}-", "2024-03-", "2200-01-")
    else:
        assert (done.code, f"{day} is not a day. Write a day" in done.err) == (2, True)
