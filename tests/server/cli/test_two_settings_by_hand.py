"""Two settings written by hand, imported by the command line, with every rate worked out by hand.

Rowan   24 set: 2 infertile, 1 + 1 dead early, 1 mid, 2 late, 1 at external pip, 16 hatched (2 died, one at 24 days)
Hazel   20 set: 1 cracked, 4 clear, 1 blood ring, 4 unhatched and unopened, 10 hatched (2 lost from sight, 1 found)
Rowan   12 set: 2 clear, 2 unhatched, 8 hatched
Birch   30 set: 13 clear, 2 blood ring, 4 unhatched, 1 rotten, 1 removed, 9 hatched

Interval limits: scipy.stats.binomtest(k, n).proportion_ci(method="wilson").
"""

import json
import subprocess
import sys
from pathlib import Path

import pytest
from scipy.stats import binomtest

BOOK = Path(__file__).with_name("two_settings.jsonl")
ON = "2026-06-01"


def broodline(*words, exit_code=0):
    done = subprocess.run(
        [sys.executable, "-m", "broodline", *map(str, words)], capture_output=True, text=True, timeout=120, check=False
    )
    assert done.returncode == exit_code, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    data = tmp_path_factory.mktemp("book")
    broodline("import", BOOK, "--data", data)
    return data


def report(folder, *words):
    return json.loads(broodline("report", *words, "--data", folder, "--on", ON, "--json"))


def assert_rate(rate, k, n):
    assert (rate["k"], rate["n"]) == (k, n)
    low, high = binomtest(k, n).proportion_ci(method="wilson")
    assert rate["rate"] == pytest.approx(k / n, abs=1e-12)
    assert rate["low"] == pytest.approx(low, abs=1e-9)
    assert rate["high"] == pytest.approx(high, abs=1e-9)


def set_ids(folder):
    lines = [json.loads(line) for line in BOOK.read_text().splitlines()]
    return [line["id"] for line in lines if line["kind"] == "set"]


def test_the_first_setting_by_hand(folder):
    found = report(folder, "setting", set_ids(folder)[0])
    rowan, hazel = found["lots"]
    assert rowan["stages"] == {
        "infertile": 2,
        "blood_ring": 1,
        "dead_early": 1,
        "dead_mid": 1,
        "dead_late": 2,
        "dead_external_pip": 1,
        "brooding": 14,
        "died": 2,
    }
    assert_rate(rowan["fertility"], 22, 24)
    assert_rate(rowan["hatch_of_set"], 16, 24)
    assert_rate(rowan["hatch_of_fertile"], 16, 22)
    assert rowan["deaths"] == {
        "early": 2,
        "mid": 1,
        "late": 2,
        "internal_pip": 0,
        "external_pip": 1,
        "unopened": 0,
    }
    assert_rate(hazel["fertility"], 15, 19)
    assert_rate(hazel["hatch_of_set"], 10, 20)
    assert_rate(hazel["hatch_of_fertile"], 10, 15)
    assert (hazel["deaths"]["early"], hazel["deaths"]["unopened"]) == (1, 4)
    assert_rate(found["total"]["fertility"], 37, 43)
    assert_rate(found["total"]["hatch_of_set"], 26, 44)
    assert_rate(found["total"]["hatch_of_fertile"], 26, 37)
    assert found["total"]["n"] == 44
    assert found["problems"] == []


def test_the_second_setting_by_hand(folder):
    found = report(folder, "setting", set_ids(folder)[1])
    rowan, birch = found["lots"]
    assert_rate(rowan["fertility"], 10, 12)
    assert_rate(rowan["hatch_of_set"], 8, 12)
    assert_rate(rowan["hatch_of_fertile"], 8, 10)
    assert_rate(birch["fertility"], 15, 28)
    assert_rate(birch["hatch_of_set"], 9, 30)
    assert_rate(birch["hatch_of_fertile"], 9, 15)
    assert birch["deaths"] == {
        "early": 2,
        "mid": 0,
        "late": 0,
        "internal_pip": 0,
        "external_pip": 0,
        "unopened": 4,
    }
    assert_rate(found["total"]["fertility"], 25, 40)


def test_the_season_by_hand(folder):
    found = report(folder, "season", "2026")
    assert found["settings"] == 2
    assert [family["name"] for family in found["families"]] == ["Birch", "Hazel", "Rowan"]
    birch, hazel, rowan = found["families"]
    assert (birch["set"], hazel["set"], rowan["set"]) == (30, 20, 36)
    for family, fertility, of_set, of_fertile, alive in (
        (birch, (15, 28), (9, 30), (9, 15), (9, 9)),
        (hazel, (15, 19), (10, 20), (10, 15), (9, 10)),
        (rowan, (32, 36), (24, 36), (24, 32), (23, 24)),
    ):
        assert_rate(family["fertility"], *fertility)
        assert_rate(family["hatch_of_set"], *of_set)
        assert_rate(family["hatch_of_fertile"], *of_fertile)
        assert_rate(family["alive_7d"], *alive)


def test_a_second_import_adds_nothing(folder):
    before = broodline("check", "--data", folder, "--json")
    broodline("import", BOOK, "--data", folder)
    assert json.loads(broodline("check", "--data", folder, "--json"))["entries"] == json.loads(before)["entries"]
