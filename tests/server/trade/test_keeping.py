"""Which young birds to keep: against all possible choices, and by what a keeper would say of a plain case."""

from itertools import combinations
from math import e
from random import Random

import pytest

from broodline.trade.keeping import choose, covered


def reached(parents: list[dict[str, float]], kept: tuple[int, ...] | list[int]) -> float:
    return sum(covered([parents[at] for at in kept]).values())


def test_one_son_of_each_cock_before_a_second_of_the_best() -> None:
    sons = [{"A": 1.0}, {"A": 1.0}, {"A": 1.0}, {"B": 1.0}, {"C": 1.0}]
    merit = [9.0, 8.0, 7.0, 1.0, -5.0]
    assert choose(sons, merit, 3) == [0, 3, 4]
    assert choose(sons, merit, 4) == [0, 3, 4, 1]
    assert choose(sons, merit, 99) == [0, 3, 4, 1, 2]
    assert choose(sons, merit, 0) == choose([], [], 3) == []


def test_daughters_of_one_pen_and_a_known_one() -> None:
    """Of four hens that lay alike a second daughter brings 3/4 of what the first did; one of a lone hen brings 1."""
    pen = {hen: 0.25 for hen in "abcd"}
    assert choose([pen, pen, {"lone": 1.0}], [2.0, 1.0, 0.0], 3) == [0, 2, 1]
    assert covered([pen, pen])["a"] == pytest.approx(1 - 0.75**2)


@pytest.mark.parametrize("seed", range(60))
def test_against_all_choices(seed: int) -> None:
    """Sure parents: as many as the best choice. Unsure: at least 1 - 1/e of it (Nemhauser, Wolsey and Fisher 1978)."""
    chance = Random(seed)
    sure = seed % 2 == 0
    birds = []
    for _ in range(7):
        names = chance.sample("abcde", 1 if sure else chance.randint(1, 3))
        weights = [chance.random() + 0.01 for _ in names]
        birds.append({name: weight / sum(weights) for name, weight in zip(names, weights, strict=True)})
    for n in range(1, 7):
        best = max(reached(birds, kept) for kept in combinations(range(7), n))
        found = reached(birds, choose(birds, [chance.random() for _ in birds], n))
        assert found >= (best if sure else (1 - 1 / e) * best) - 1e-9
