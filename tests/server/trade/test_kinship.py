"""Kinship and inbreeding against published pedigrees and two slow oracles: every way, and counting paths."""

from random import Random

import numpy as np
import pytest

from broodline.trade.kinship import relationships
from broodline.trade.pedigree import Pair, Recorded, independent, pedigree_of
from broodline.trade.sure_inbreeding import sure_inbreeding, sure_parents
from tests.server.oracles.kin_by_hand import inbreeding_by_paths, kinship_in, mean_kinship_of
from tests.server.trade.pedigrees import (
    COPENHAGEN,
    COVARIANCES,
    FERNANDO,
    MRODE,
    ROAN_GAUNTLET,
    WRAY,
    Written,
    drawn,
    sure,
    uncertain,
)


def _known(name: str) -> str | None:
    return None if name == "0" else name


@pytest.mark.parametrize(
    ("written", "expected"),
    [
        (MRODE, {"5": 0.125, "6": 0.125}),  # Mrode, app. B
        (COPENHAGEN, {"5": 0.125, "6": 0.125, "7": 0.21875}),  # printed .218
        (COVARIANCES, {"X": 0.53125, "ZX": 0.15625, "ZD": 0.125, "XS": 0.609375}),
        (WRAY, {"5": 0.25, "6": 0.25, "7": 0.3125, "8": 0.46875}),  # R kinship2
        (FERNANDO, {"5": 0.125, "6": 0.25, "7": 0.28125, "8": 0.28125}),  # R kinship2
        (ROAN_GAUNTLET, {"RDG": 0.125, "RG": 0.140625}),  # Wright 1922
    ],
)
def test_published_pedigrees(written: Written, expected: dict[str, float]) -> None:
    pedigree = sure(written)
    kin = relationships(pedigree)
    parents = sure_parents(pedigree)
    assert parents is not None
    by_walks = sure_inbreeding(parents)
    by_bird = {bird: (_known(sire), _known(dam)) for bird, (sire, dam) in written.items()}
    for bird, inbreeding in expected.items():
        assert kin.inbreeding(bird) == inbreeding
        assert by_walks[pedigree.position[bird]] == inbreeding
        assert inbreeding_by_paths(by_bird, bird) == inbreeding


def test_mrodes_table_and_mendelian_parts() -> None:
    """The R package pedigreemm."""
    pedigree = sure(MRODE)
    kin = relationships(pedigree)
    assert kin.relationship("5", "6") == 0.6875
    assert kin.relationship("6", "6") == 1.125
    parts = [kin.mendelian[pedigree.position[str(bird)]] for bird in range(1, 7)]
    assert parts == [1, 1, 0.5, 0.75, 0.5, 0.46875]


def test_copenhagens_rows() -> None:
    kin = relationships(sure(COPENHAGEN))
    assert [kin.relationship("2", str(bird)) for bird in range(1, 8)] == [0.5, 1, 0.25, 0.25, 0.625, 0.25, 0.4375]
    assert kin.relationship("5", "7") == 0.78125


def test_comet() -> None:
    """Wright 1922 (from memory): .471 where Favourite's F is .192; with forebears that give him .1875, .46875."""
    kin = relationships(
        sure(
            {
                "Strawberry": ("Foljambe", "0"),
                "Bolingbroke": ("Foljambe", "Strawberry"),
                "Phoenix": ("Foljambe", "0"),
                "Favourite": ("Bolingbroke", "Phoenix"),
                "Young Phoenix": ("Favourite", "Phoenix"),
                "Comet": ("Favourite", "Young Phoenix"),
            }
        )
    )

    def comet(favourite: float) -> float:
        return ((1 + favourite) / 2 + (favourite + 0.5) / 2) / 2

    assert kin.inbreeding("Favourite") == 0.1875
    assert kin.inbreeding("Comet") == comet(0.1875) == 0.46875
    assert comet(0.192) == pytest.approx(0.471)


SIMPLE = {
    "full brother and sister": ({"a": "MF", "b": "MF"}, 0.25),
    "parent and offspring": ({"b": "aF"}, 0.25),
    "half brother and sister": ({"a": "MF", "b": "MG"}, 0.125),
    "grandparent and grandchild": ({"c": "aF", "b": "Gc"}, 0.125),
    "uncle and niece": ({"a": "MF", "c": "MF", "b": "Gc"}, 0.125),
    "double first cousins": ({"m": "MF", "n": "MF", "p": "GH", "q": "GH", "a": "mp", "b": "nq"}, 0.125),
    "three-quarter sibs": ({"m": "MF", "n": "MF", "a": "mH", "b": "nH"}, 0.1875),
    "first cousins": ({"m": "MF", "n": "MF", "a": "mG", "b": "nH"}, 0.0625),
    "half first cousins": ({"m": "MF", "n": "MJ", "a": "mG", "b": "nH"}, 0.03125),
}


@pytest.mark.parametrize(("parents", "expected"), SIMPLE.values(), ids=SIMPLE)
def test_simple_matings(parents: dict[str, str], expected: float) -> None:
    kin = relationships(sure({**{bird: (pair[0], pair[1]) for bird, pair in parents.items()}, "chick": ("a", "b")}))
    assert kin.inbreeding("chick") == expected


def test_full_sib_and_half_sib_lines() -> None:
    """Falconer and Mackay, ch. 5 (from memory)."""
    full: dict[str, tuple[str, str]] = {"m0": ("s", "d"), "f0": ("s", "d")}
    half: dict[str, tuple[str, str]] = {"m0": ("s", "e0"), **{f"f0.{hen}": ("s", f"e{hen + 1}") for hen in range(5)}}
    for line in range(1, 6):
        full |= {f"{sex}{line}": (f"m{line - 1}", f"f{line - 1}") for sex in "mf"}
        half[f"m{line}"] = (f"m{line - 1}", f"f{line - 1}.0")
        half |= {f"f{line}.{hen}": (f"m{line - 1}", f"f{line - 1}.{hen + 1}") for hen in range(5 - line)}
    full |= {"chick": ("m5", "f5")}
    of_full, of_half = relationships(sure(full)), relationships(sure(half))
    lines = [of_full.inbreeding(f"m{line}") for line in range(1, 6)]
    assert [*lines, of_full.inbreeding("chick")] == [0.25, 0.375, 0.5, 0.59375, 0.671875, 0.734375]
    assert [of_half.inbreeding(f"m{line}") for line in range(1, 5)] == [0.125, 0.21875, 0.3046875, 0.380859375]


def test_many_families_sum_up() -> None:
    """Sums of kinship over large open pedigrees are published (R kinship2), but the data are not free to keep here.

    In their place: 200 families of two parents and four chicks, each of which sums to 2 x .5 + 16 x .25 + 4 x .5 +
    12 x .25 = 10; and the last generation of full-sib lines, by the table and by walks.
    """
    written = {f"{family}.{chick}": (f"{family}.s", f"{family}.d") for family in range(200) for chick in range(4)}
    kin = relationships(sure(written))
    assert kin.matrix.sum() / 2 == 2000
    lines = {f"{family}.{chick}": (f"{family}.0", f"{family}.1") for family in range(200) for chick in (2, 3)}
    lines |= {f"{family}.last": (f"{family}.2", f"{family}.3") for family in range(200)}
    pedigree = sure(lines)
    parents = sure_parents(pedigree)
    assert parents is not None
    walked = sure_inbreeding(parents)
    assert sum(walked) == 200 * 0.25
    assert walked == pytest.approx(relationships(pedigree).matrix.diagonal() - 1)


HENDERSON = {
    "3": ({"1": 1.0}, {"2": 1.0}, None),
    "4": ({"1": 1.0}, {"2": 1.0}, None),
    "5": ({"3": 1.0}, {"4": 1.0}, None),
    "6": ({"3": 1.0}, {}, None),
    "7": ({"3": 0.6, "5": 0.4}, {"6": 1.0}, None),
    "8": ({"1": 0.3, "5": 0.7}, {"4": 1.0}, None),
    "9": ({"1": 0.3, "4": 0.6, "5": 0.1}, {"6": 1.0}, None),
    "10": ({"1": 1.0}, {"4": 1.0}, None),
}


def test_hendersons_published_example() -> None:
    """J. Anim. Sci. 66:1614 (1988), as kept in polyAinv (github.com/mghamilton/polyAinv)."""
    pedigree = uncertain(HENDERSON)
    kin = relationships(pedigree)
    expected = {"5": 0.25, "6": 0, "7": 0.225, "8": 0.3375, "9": 0.13125, "10": 0.25}
    assert {bird: pytest.approx(kin.inbreeding(bird)) for bird in expected} == expected
    pairs = {"7 8": 0.500625, "7 9": 0.579375, "8 9": 0.52875, "8 10": 0.70625, "9 10": 0.49375, "1 8": 0.575}
    assert {pair: pytest.approx(kin.relationship(*pair.split())) for pair in pairs} == pairs
    inverse = np.linalg.inv(kin.matrix)
    at = pedigree.position
    for one, other, value in [("7", "7", 1.92307692), ("7", "3", -0.57692308), ("8", "8", 1.91616766)]:
        assert inverse[at[one], at[other]] == pytest.approx(value, abs=1e-8)
    assert sure_parents(pedigree) is None


GROUP = {
    "S1": ({"G1": 1.0}, {"G2": 1.0}, None),
    "S2": ({"G1": 1.0}, {"G3": 1.0}, None),
    "H1": ({"G4": 1.0}, {"G5": 1.0}, None),
    "H2": ({"G4": 1.0}, {"G5": 1.0}, None),
    "H3": ({"G1": 1.0}, {"G4": 1.0}, None),
    "C1": ({"S1": 0.5, "S2": 0.5}, dict.fromkeys(("H1", "H2", "H3"), 1 / 3), None),
    "C2": ({"S1": 0.5, "S2": 0.5}, dict.fromkeys(("H1", "H2", "H3"), 1 / 3), None),
    "C3": ({"S1": 1.0}, dict.fromkeys(("H1", "H2", "H3"), 1 / 3), None),
    "X": ({"C1": 1.0}, {"C2": 1.0}, None),
    "Y": ({"C1": 1.0}, {"C3": 0.5, "H3": 0.5}, None),
}


def test_a_pen_of_two_cocks_and_three_hens() -> None:
    """Computed by enumeration, by polyAinv and by two million gene drops: they agree."""
    pedigree = uncertain(GROUP)
    kin = relationships(pedigree)
    expected = {"C1": 0.0416667, "X": 0.1684028, "Y": 0.1779514}
    assert {bird: pytest.approx(kin.inbreeding(bird), abs=1e-7) for bird in expected} == expected
    assert kin.relationship("X", "Y") == pytest.approx(0.5225694, abs=1e-7)
    parts = {"C1": 0.704861, "C3": 0.611111, "X": 0.479167, "Y": 0.565104}
    assert {bird: pytest.approx(kin.mendelian[pedigree.position[bird]], abs=1e-6) for bird in parts} == parts


@pytest.mark.parametrize(
    ("cocks", "hens", "mates"), [(1, 1, 0.5), (1, 4, 0.3125), (1, 6, 0.2916667), (2, 8, 0.15625), (3, 10, 0.1083333)]
)
def test_pen_mates_and_their_chicks(cocks: int, hens: int, mates: float) -> None:
    """A quarter of 1 / cocks + 1 / hens; half of it in the chicks of pen mates."""
    sires = {f"s{cock}": 1 / cocks for cock in range(cocks)}
    dams = {f"d{hen}": 1 / hens for hen in range(hens)}
    kin = relationships(uncertain({"a": (sires, dams, None), "b": (sires, dams, None)}))
    assert kin.relationship("a", "b") == pytest.approx(mates, abs=1e-7)
    assert kin.kinship("a", "b") == pytest.approx((1 / cocks + 1 / hens) / 8)


@pytest.mark.parametrize("cocks", [1, 2, 3, 4, 5, 10])
def test_a_known_dam_and_equal_sires(cocks: int) -> None:
    pedigree = uncertain({"chick": ({f"s{cock}": 1 / cocks for cock in range(cocks)}, {"dam": 1.0}, None)})
    kin = relationships(pedigree)
    assert kin.mendelian[pedigree.position["chick"]] == pytest.approx(0.75 - 0.25 / cocks)


def test_one_unnamed_hen_makes_full_sibs_of_her_clutch() -> None:
    """One cock and four hens: chicks of independent eggs are kin by .3125, of the same unknown hen by .5."""
    dams = {f"d{hen}": 0.25 for hen in range(4)}
    kin = relationships(uncertain({name: ({"s": 1.0}, dams, "nest") for name in ("a", "b")}))
    assert kin.relationship("a", "b") == 0.5
    assert kin.relationship("a", "d0") == 0.125
    nobody = relationships(uncertain({name: ({"s": 1.0}, {}, "nest") for name in ("a", "b")}))
    assert nobody.relationship("a", "b") == 0.5


def test_a_cock_that_only_ran_with_some_hens() -> None:
    """Pairs that go together: the sire's dam is his mate or not at all."""
    pairs = (Pair("son", "mother", 0.5), Pair("stranger", "other", 0.5))
    birds = [Recorded("son", pairs=independent({"old": 1.0}, {"mother": 1.0})), Recorded("chick", pairs=pairs)]
    assert relationships(pedigree_of(birds)).inbreeding("chick") == 0.125
    birds[1] = Recorded("chick", pairs=independent({"son": 0.5, "stranger": 0.5}, {"mother": 0.5, "other": 0.5}))
    assert relationships(pedigree_of(birds)).inbreeding("chick") == 0.0625


def test_1500_uncertain_pedigrees_by_every_way() -> None:
    chance = Random(20261126)
    for _ in range(1500):
        candidates = drawn(chance, chance.randint(4, 8), chance.randint(0, 1) if chance.random() < 0.6 else 1)
        kin = relationships(uncertain(candidates))
        one, other = chance.choice(list(candidates)), chance.choice(list(candidates))
        assert kin.kinship(one, other) == pytest.approx(mean_kinship_of(candidates, one, other), abs=1e-12)


def test_120_clutches_by_every_way() -> None:
    chance = Random(5)
    for _ in range(120):
        candidates = drawn(chance, 6, 3)
        kin = relationships(uncertain(candidates))
        for one, other in [("3", "4"), ("4", "5"), ("3", "5"), ("5", "5")]:
            assert kin.kinship(one, other) == pytest.approx(mean_kinship_of(candidates, one, other), abs=1e-12)


def test_a_thousand_sure_pedigrees_by_walks_by_paths_and_by_the_definition() -> None:
    chance = Random(1)
    for _ in range(1000):
        candidates = drawn(chance, chance.randint(4, 9), 0)
        pedigree = uncertain(candidates)
        parents = sure_parents(pedigree)
        assert parents is not None
        walked = sure_inbreeding(parents)
        by_bird = {
            bird: (next(iter(sires), None), next(iter(dams), None)) for bird, (sires, dams, _) in candidates.items()
        }
        kin = relationships(pedigree)
        last = list(candidates)[-1]
        assert walked[pedigree.position[last]] == pytest.approx(inbreeding_by_paths(by_bird, last))
        assert kin.kinship(last, "2") == pytest.approx(kinship_in(by_bird, last, "2"))
        assert kin.inbreeding(last) == pytest.approx(walked[pedigree.position[last]])


def test_mean_kinship_counts_the_bird_itself() -> None:
    """Lacy 1989's example: living C, D, F, G; mean kinship .28125."""
    kin = relationships(sure({"C": ("A", "B"), "D": ("A", "B"), "F": ("D", "E"), "G": ("D", "E")}))
    assert kin.mean_kinships(["C", "D", "F", "G"]).mean() == 0.28125
    assert len(kin.mean_kinships([])) == 0
