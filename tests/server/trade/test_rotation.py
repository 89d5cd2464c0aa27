"""Rotation of males against published rates, exact values, and pedigrees that were mated at random."""

from math import pi

import numpy as np
import pytest

from broodline.trade.kinship import relationships
from broodline.trade.rotation import Kin, forecast, instruction, next_generation, pooled_forecast, serving, usual_jumps
from tests.server.trade.pedigrees import sure


def test_three_and_four_families_exactly() -> None:
    """Computed by exact fractions; one cock and four hens in each family, and two and six."""
    three = forecast(families=3, cocks=1, hens=4, jumps=(1,), generations=6)
    assert three == pytest.approx([0, 0, 0.0390625, 0.075683594, 0.109405518, 0.141973495], abs=1e-9)
    four = forecast(families=4, cocks=1, hens=4, jumps=(1,), generations=6)
    assert four[2:] == pytest.approx([0.0390625, 0.065917969, 0.090484619, 0.114622116], abs=1e-9)
    assert forecast(families=3, cocks=2, hens=6, jumps=(1,), generations=3)[2] == pytest.approx(0.0208333, abs=1e-7)


@pytest.mark.parametrize(
    ("families", "cocks", "hens", "jumps", "expected"),
    [
        (1, 1, 4, (0,), {2: 15.62, 3: 26.37, 10: 72.78, 20: 93.42}),
        (2, 1, 4, (1,), {3: 7.81, 10: 39.42, 20: 66.82}),
        (3, 1, 4, (1,), {10: 26.10, 20: 49.11}),
        (4, 1, 4, (1, 2, 3), {3: 0, 4: 6.59, 5: 5.25, 6: 9.05, 20: 37.01}),
        (4, 1, 4, (1, 2), {4: 3.91, 5: 6.59, 10: 18.46, 20: 37.98}),
        (8, 1, 4, (1, 2, 4), {5: 1.95, 10: 8.14, 20: 19.29}),
        (8, 2, 6, (1, 2, 4), {10: 5.08, 20: 12.56}),
    ],
)
def test_mean_f_by_generation(
    families: int, cocks: int, hens: int, jumps: tuple[int, ...], expected: dict[int, float]
) -> None:
    """In percent, generation 1 being 0: the computed table of the reference."""
    curve = forecast(families=families, cocks=cocks, hens=hens, jumps=jumps, generations=20)
    assert {generation: round(100 * curve[generation - 1], 2) for generation in expected} == expected


def test_circles_of_pairs_lose_variety_as_published() -> None:
    """Kimura and Crow 1963: pi^2 / (N + 12)^2, which the exact rate nears; N = 64 birds in 32 pairs."""
    curve = forecast(families=32, cocks=1, hens=1, jumps=(1,), generations=1200)
    rate = 1 - (1 - curve[-1]) / (1 - curve[-2])
    assert rate == pytest.approx(0.00171971, abs=1e-7)
    assert rate == pytest.approx(pi**2 / (64 + 12) ** 2, rel=0.01)


def test_cyclical_pairs_lose_variety_as_published() -> None:
    """Theor. Appl. Genet. 1987, 73:506: about 1 / (4 N - (log2 N + 1)) a generation; N = 16 birds in 8 pairs."""
    curve = forecast(families=8, cocks=1, hens=1, jumps=tuple(range(1, 8)), generations=280)
    rate = 1 - ((1 - curve[-1]) / (1 - curve[-8])) ** (1 / 7)
    assert rate == pytest.approx(0.0168358, abs=1e-6)
    assert rate == pytest.approx(1 / (64 - 5), rel=0.01)


def test_against_pedigrees_mated_by_drawing() -> None:
    """Three families of two cocks and three hens, parents drawn within families; 60 pedigrees of six generations."""
    chance = np.random.default_rng(4)
    found = np.zeros(6)
    for _ in range(60):
        written: dict[str, tuple[str, str]] = {}
        for generation in range(1, 7):
            for family, source in enumerate(serving(3, 1)):
                for bird in ("m0", "m1", "f0", "f1", "f2"):
                    written[f"{generation}.{family}.{bird}"] = (
                        f"{generation - 1}.{source}.m{chance.integers(2)}",
                        f"{generation - 1}.{family}.f{chance.integers(3)}",
                    )
        kin = relationships(sure(written))
        for generation in range(1, 7):
            names = [name for name in written if name.startswith(f"{generation}.")]
            found[generation - 1] += np.mean([kin.inbreeding(name) for name in names]) / 60
    curve = forecast(families=3, cocks=2, hens=3, jumps=(1,), generations=6)
    assert found == pytest.approx(curve, abs=0.012)


def test_families_beat_one_flock_of_the_same_birds() -> None:
    """3 cocks and 12 hens: 9.87 and 36.77 % in generations 3 and 10 as one flock, 3.91 and 26.10 % as families."""
    pooled = pooled_forecast(cocks=3, hens=12, generations=10)
    assert [round(100 * pooled[generation], 2) for generation in (2, 9)] == [9.87, 36.77]


def test_from_the_kinship_there_is() -> None:
    start = Kin(np.array([[0.25, 0.1], [0.1, 0.25]]), np.array([0.1, 0.2]))
    after = next_generation(start, serving(2, 1), 1, 1)
    assert after.own.tolist() == [0.1, 0.1]
    assert after.among[0, 0] == pytest.approx((0.5 * 1.2 + 0.1 + 0.1 + 0.5 * 1.1) / 4)
    assert forecast(families=2, cocks=1, hens=1, jumps=(1,), generations=1, start=start) == [0.1]


@pytest.mark.parametrize(
    ("families", "jumps"),
    [(1, (0,)), (2, (1,)), (3, (1, 2)), (4, (1, 2)), (5, (1, 2, 3, 4)), (6, (1, 2, 3, 4, 5)), (8, (1, 2, 4))],
)
def test_rule_table(families: int, jumps: tuple[int, ...]) -> None:
    assert usual_jumps(families) == jumps
    assert all(jump % families for jump in jumps) or families == 1


@pytest.mark.parametrize("families", range(3, 9))
def test_the_rule_is_no_worse_early_than_the_fixed_circle(families: int) -> None:
    usual = forecast(families=families, cocks=1, hens=4, jumps=usual_jumps(families), generations=5)
    circle = forecast(families=families, cocks=1, hens=4, jumps=(1,), generations=5)
    assert sum(usual) <= sum(circle) + 1e-12


def test_a_years_moves_in_words() -> None:
    assert instruction(["Rowan", "Hazel", "Sedge"], 1) == [
        "Sedge's cockerels go to Rowan.",
        "Rowan's cockerels go to Hazel.",
        "Hazel's cockerels go to Sedge.",
    ]
    assert instruction(["Rowan"], 0) == ["Rowan's cockerels stay with Rowan's hens."]
