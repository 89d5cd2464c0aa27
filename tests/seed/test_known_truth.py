"""Over 200 simulated seasons the season report's 95 % intervals hold the generator's truth as often as they say.

Every egg is the seed's (`seed_scenario/flock.py`); the keeper writes what it shows, the book is folded and asked.
"""

from collections.abc import Iterator, Mapping
from datetime import UTC, datetime, timedelta
from itertools import combinations
from math import sqrt
from typing import Any

import pytest
from scipy.stats import binom

from broodline.book.fold import fold
from broodline.reports.season import season_report
from seed_scenario.flock import FAMILIES, HATCHES, Chance, Egg, lay
from tests.book_writer import START, BookWriter

SEASONS, EGGS, NOMINAL = 200, 30, 0.95
KEYS = ("rowan", "hazel", "alder", "birch")
RATES = ("fertility", "hatch_of_fertile", "hatch_of_set")
BETWEEN = tuple(combinations(KEYS, 2))
NOW = datetime(2026, 12, 1, tzinfo=UTC)

Interval = tuple[float, float]
Seen = list[tuple[str, float, Interval]]


def season(number: int) -> BookWriter:
    """One setting, candled on two days, hatched, and all that did not hatch opened; without a keeper's slips."""
    book = BookWriter()
    book.keeper()
    lots = {key: (book.lot(), lay(FAMILIES[key], EGGS, Chance(f"truth {number}/{key}"))) for key in KEYS}
    named = [(lot, book.family(FAMILIES[key].name), EGGS) for key, (lot, _) in lots.items()]
    setting = book.set_eggs(book.incubator(), named)
    for lot, eggs in lots.values():
        _write_lot(book, setting, lot, eggs)
    return book


def _write_lot(book: BookWriter, setting: str, lot: str, eggs: list[Egg]) -> None:
    for day in (7, 14):
        at = START + timedelta(days=day)
        for stage in ("clear", "blood_ring", "quitter"):
            seen = [egg for egg in eggs if egg.stage == "set" and egg.candled(day) == stage]
            _move(book, lot, seen, stage, at)
        book.look(setting, lot, day=day, live=sum(egg.stage == "set" for egg in eggs), at=at)
    end = START + timedelta(days=22)
    resting = [egg for egg in eggs if egg.stage == "set"]
    _move(book, lot, [egg for egg in resting if egg.fate == HATCHES], "hatched", end)
    _move(book, lot, [egg for egg in resting if egg.fate != HATCHES], "unhatched", end)
    for fate in sorted({egg.fate for egg in eggs} - {HATCHES}):
        for stage in ("clear", "blood_ring", "quitter", "unhatched"):
            _move(book, lot, [egg for egg in eggs if (egg.stage, egg.fate) == (stage, fate)], fate, end)


def _move(book: BookWriter, lot: str, eggs: list[Egg], target: str, at: datetime) -> None:
    if eggs:
        book.move(lot, eggs[0].stage, target, len(eggs), at=at)
    for egg in eggs:
        egg.stage = target


def seen_in(report: Mapping[str, Any]) -> Iterator[tuple[str, float, Interval]]:
    """Each interval of a report with the truth it should hold."""
    truth = {row["family"]: FAMILIES[row["name"].lower()] for row in report["families"]}
    for row in report["families"]:
        for rate in RATES:
            yield rate, getattr(truth[row["family"]], rate), (row[rate]["low"], row[rate]["high"])
    for pair in report["pairs"]:
        apart = truth[pair["a"]].hatch_of_set - truth[pair["b"]].hatch_of_set
        yield "difference", apart, (pair["low"], pair["high"])


@pytest.fixture(scope="module")
def seen() -> Seen:
    reports = (season_report(fold(season(number).entries()), 2026, NOW) for number in range(SEASONS))
    return [one for report in reports for one in seen_in(report)]


def check(seen: Seen) -> None:
    """Each kind of interval holds the truth in its share of cases, give or take three standard errors of that count.

    Eggs of a season share no chance, so a binomial error fits the rates. The pairs of one season share families: their
    number counts as that of the families.
    """
    for kind in (*RATES, "difference"):
        held = [low <= truth <= high for one, truth, (low, high) in seen if one == kind]
        assert len(held) == SEASONS * len(BETWEEN if kind == "difference" else KEYS)
        error = sqrt(NOMINAL * (1 - NOMINAL) / (SEASONS * len(KEYS)))
        assert abs(sum(held) / len(held) - NOMINAL) < 3 * error, (kind, sum(held) / len(held))


def test_the_truth_lies_inside_as_often_as_a_95_percent_interval_should(seen: Seen) -> None:
    check(seen)


@pytest.mark.parametrize("of_width", [0.5, 0.8, 1.5])
def test_intervals_of_another_width_would_be_found_out(seen: Seen, of_width: float) -> None:
    def resized(low: float, high: float) -> Interval:
        middle, half = (low + high) / 2, (high - low) / 2
        return middle - of_width * half, middle + of_width * half

    with pytest.raises(AssertionError):
        check([(kind, truth, resized(*interval)) for kind, truth, interval in seen])


@pytest.mark.parametrize("key", KEYS)
def test_hatch_of_set_is_held_as_often_as_wilson_can(seen: Seen, key: str) -> None:
    """The chance that Wilson's interval holds a share is no 95 % at 30 eggs but known: added up over all counts.

    Wilson 1927, J. Am. Stat. Assoc. 22:209-212: the shares p for which (k/n - p)^2 <= z^2 p (1 - p) / n.
    """
    truth = FAMILIES[key].hatch_of_set
    holds = [(k / EGGS - truth) ** 2 <= 1.959964**2 * truth * (1 - truth) / EGGS for k in range(EGGS + 1)]
    chance = sum(float(binom.pmf(k, EGGS, truth)) for k, held in enumerate(holds) if held)
    held = [low <= told <= high for kind, told, (low, high) in seen if kind == "hatch_of_set" and told == truth]
    assert len(held) == SEASONS
    assert abs(sum(held) / SEASONS - chance) < 3 * sqrt(chance * (1 - chance) / SEASONS), (sum(held) / SEASONS, chance)
