"""Intervals over tests/vectors/proportions.json, against scipy, and against published hatch counts."""

import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binomtest

from broodline.trade.proportions import Rate, difference_newcombe, rate_of, wilson

VECTORS = json.loads((Path(__file__).parents[2] / "vectors" / "proportions.json").read_text(encoding="utf-8"))

counts = st.integers(1, 2000).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))


@pytest.mark.parametrize("case", VECTORS["rates"], ids=[case["name"] for case in VECTORS["rates"]])
def test_rate_vectors(case: dict[str, Any]) -> None:
    found = rate_of(case["in"]["k"], case["in"]["n"]).as_json()
    assert found == {name: pytest.approx(part, abs=1e-12) for name, part in case["out"].items()}


@pytest.mark.parametrize("case", VECTORS["differences"], ids=[case["name"] for case in VECTORS["differences"]])
def test_difference_vectors(case: dict[str, Any]) -> None:
    found = difference_newcombe(*case["in"])
    assert [found.difference, found.low, found.high] == pytest.approx(list(case["out"].values()), abs=1e-12)


@given(counts)
def test_wilson_is_scipys(count: tuple[int, int]) -> None:
    expected = binomtest(*count).proportion_ci(method="wilson")
    assert wilson(*count) == pytest.approx((expected.low, expected.high), abs=1e-12)


@given(counts, counts)
def test_difference_turns_round_with_its_families(one: tuple[int, int], other: tuple[int, int]) -> None:
    forth, back = difference_newcombe(*one, *other), difference_newcombe(*other, *one)
    assert -1 - 1e-12 <= forth.low <= forth.difference <= forth.high <= 1 + 1e-12
    assert (forth.low, forth.high) == pytest.approx((-back.high, -back.low))


@pytest.mark.parametrize(
    ("k", "n", "low", "high"),
    [
        (81, 263, 0.2553, 0.3662),
        (15, 148, 0.0624, 0.1605),
        (0, 20, 0.0, 0.1611),
        (1, 29, 0.0061, 0.1718),
        (9, 12, 0.46769, 0.91106),
        (18, 24, 0.55101, 0.88001),
        (3, 5, 0.23072, 0.88238),
    ],
)
def test_newcombes_table_of_single_shares(k: int, n: int, low: float, high: float) -> None:
    """Newcombe 1998, Stat. Med. 17:857, Table I (from memory) for the first four; scipy for the last three."""
    assert wilson(k, n) == pytest.approx((low, high), abs=6e-5)


@pytest.mark.parametrize(
    ("k", "n", "low", "high"), [(5, 25, 0.06831, 0.40704), (7, 50, 0.05819170033997342, 0.26739600249700846)]
)
def test_clopper_pearson_is_wider(k: int, n: int, low: float, high: float) -> None:
    """Conover's tables (influentialpoints.com) and scipy's documentation: the interval never shown, as a yardstick."""
    exact = binomtest(k, n).proportion_ci(method="exact")
    assert (exact.low, exact.high) == pytest.approx((low, high), abs=5e-6)
    shown = wilson(k, n)
    assert exact.high - exact.low > shown[1] - shown[0]


@pytest.mark.parametrize(
    ("pair", "low", "high"),
    [
        ((56, 70, 48, 80), 0.0524, 0.3339),
        ((9, 10, 3, 10), 0.1705, 0.8090),
        ((6, 7, 2, 7), 0.0582, 0.8062),
        ((5, 56, 0, 29), -0.0381, 0.1926),
        ((0, 10, 0, 20), -0.1611, 0.2775),
        ((10, 10, 0, 10), 0.6075, 1.0),
        ((18, 24, 11, 22), -0.0271, 0.4825),
    ],
)
def test_newcombes_table_of_differences(pair: tuple[int, int, int, int], low: float, high: float) -> None:
    """Newcombe 1998b, Stat. Med. 17:873, method 10 (his table from memory; last row statsmodels 'newcomb')."""
    found = difference_newcombe(*pair)
    assert (found.low, found.high) == pytest.approx((low, high), abs=6e-5)


@pytest.mark.parametrize(
    ("name", "k", "n", "percent", "within"),
    [
        ("Kenyan crosses batch 1, fertile of set (Trop. Agric. 79(1); counts published)", 736, 861, 85.5, 0.1),
        ("batch 1, hatched of fertile", 433, 736, 58.8, 0.1),
        ("batch 1, hatched of set", 433, 861, 50.3, 0.1),
        ("batch 2, fertile of set", 836, 955, 87.5, 0.1),
        ("batch 2, hatched of fertile", 657, 836, 78.6, 0.1),
        ("batch 2, hatched of set", 657, 955, 68.8, 0.1),
        ("batch 2, embryo deaths of fertile", 836 - 758, 836, 9.3, 0.1),
        ("pheasant 1936 (Science), fertile of set", 5, 10, 50, 0),
        ("pheasant 1936, hatched of set", 3, 10, 30, 0),
        ("pheasant 1940 (Penn. Coop. Wildlife Res. Unit Paper 19), fertile of set", 14, 26, 53.8, 0.1),
        ("pheasant 1940, hatched of fertile", 13, 14, 92.9, 0.1),
        ("pheasant 1940, hatched of set", 13, 26, 50.0, 0),
        ("red-legged partridge, fertile of set (counts inferred)", 112, 150, 74.7, 0.05),
        ("red-legged partridge, hatched of fertile", 96, 112, 85.7, 0.05),
    ],
)
def test_published_hatch_counts(name: str, k: int, n: int, percent: float, within: float) -> None:
    found = rate_of(k, n)
    assert found.rate is not None, name
    assert found.low is not None
    assert found.high is not None
    assert 100 * found.rate == pytest.approx(percent, abs=within + 1e-9), name
    assert found.low < found.rate < found.high


@pytest.mark.parametrize(
    ("eggs", "fertility", "of_set", "of_fertile"), [(4646, 85.87, 80.25, 93.47), (5999, 87.48, 82.43, 94.24)]
)
def test_hatch_of_fertile_of_native_lines(eggs: int, fertility: float, of_set: float, of_fertile: float) -> None:
    """Siruvidai and Aseel (krishikosh 96ff06e4): eggs and percentages as printed, counts from both."""
    fertile, hatched = round(eggs * fertility / 100), round(eggs * of_set / 100)
    found = rate_of(hatched, fertile).rate
    assert found is not None
    assert 100 * found == pytest.approx(of_fertile, abs=0.05)


def test_no_share_where_nothing_was_examined_or_counts_do_not_fit() -> None:
    assert rate_of(0, 0) == Rate(0, 0, None, None, None)
    assert rate_of(3, 12, sound=False) == Rate(3, 12, None, None, None)
    for k, n in ((13, 12), (-1, 12), (0, 0)):
        with pytest.raises(ValueError, match="no share"):
            wilson(k, n)


def test_marks_are_written_only_where_they_say_something() -> None:
    marked = rate_of(9, 12, basis="candled", open_=2, so_far=True).as_json()
    assert (marked["basis"], marked["open"], marked["so_far"]) == ("candled", 2, True)
    assert set(rate_of(9, 12).as_json()) == {"k", "n", "rate", "low", "high"}
