"""Founders by gene drop, against Lacy's example and shares that were enumerated by hand."""

import pytest

from broodline.trade.founders import Founders, founders_of
from broodline.trade.kinship import relationships
from broodline.trade.pedigree import Pair, Recorded, pedigree_of
from tests.server.trade.pedigrees import sure, uncertain

LACY = {"C": ("A", "B"), "D": ("A", "B"), "F": ("D", "E"), "G": ("D", "E")}
THREE = {"E": ("A", "B"), "F": ("A", "B"), "G": ("C", "D"), "H": ("E", "G"), "I": ("E", "G"), "J": ("F", "G")}


def found(written: dict[str, tuple[str, str]], living: str, drops: int = 20_000) -> Founders:
    answer = founders_of(sure(written), list(living), seed=3, drops=drops)
    assert answer is not None
    return answer


def test_lacys_example() -> None:
    """Zoo Biol. 8:111 (1989), living C, D, F, G: fe 2.9091, fg 2.1818; exact by hand."""
    answer = found(LACY, "CDFG")
    assert {one.bird: one.share for one in answer.founders} == {"A": 0.375, "B": 0.375, "E": 0.25}
    assert answer.fe == pytest.approx(2.9091, abs=1e-4)
    assert answer.fg == pytest.approx(2.1818, abs=0.02)
    assert all(one.kept == pytest.approx(0.75, abs=0.01) for one in answer.founders)
    assert [one.descendants for one in answer.founders] == [4, 4, 2]


def test_founders_over_three_generations() -> None:
    """Living H, I, J: A and B keep .53125, C and D .4375, 3.875 genes of 8 (enumerated). Mean kinship .3055556."""
    answer = found(THREE, "HIJ")
    kept = {one.bird: one.kept for one in answer.founders}
    assert kept == {
        "A": pytest.approx(0.53125, abs=0.01),
        "B": pytest.approx(0.53125, abs=0.01),
        "C": pytest.approx(0.4375, abs=0.01),
        "D": pytest.approx(0.4375, abs=0.01),
    }
    assert answer.alleles == pytest.approx(3.875, abs=0.04)
    assert answer.fg == pytest.approx(1.923, abs=0.02)
    mean = relationships(sure(THREE)).mean_kinships(list("HIJ")).mean()
    assert mean == pytest.approx(0.3055556, abs=1e-7)
    assert 1 / (2 * mean) == pytest.approx(1.63636, abs=1e-5)


@pytest.mark.parametrize(("chicks", "fg"), [(1, 1.0), (2, 1.5), (4, 1.875)])
def test_a_pair_and_its_chicks(chicks: int, fg: float) -> None:
    """2 (1 - one half to the power n); a founder with k chicks keeps 1 - one half to the power k."""
    answer = found({f"{n}": ("cock", "hen") for n in range(chicks)}, "".join(str(n) for n in range(chicks)))
    assert answer.fg == pytest.approx(fg, abs=0.015)
    assert all(one.kept == pytest.approx(1 - 0.5**chicks, abs=0.01) for one in answer.founders)


def test_a_pen_of_one_cock_and_four_hens() -> None:
    """Two chicks of each hen: fe 3.2, fg 2.99, 7.992 genes of 10."""
    pedigree = sure({f"{hen}{chick}": ("s", f"d{hen}") for hen in range(4) for chick in "ab"})
    living = [f"{hen}{chick}" for hen in range(4) for chick in "ab"]
    answer = founders_of(pedigree, living, seed=1)
    assert answer is not None
    assert answer.fe == pytest.approx(3.2)
    assert answer.fg == pytest.approx(2.99, abs=0.02)
    assert answer.alleles == pytest.approx(7.992, abs=0.03)


def test_unknown_parents_are_founders_of_their_own() -> None:
    pedigree = pedigree_of(
        [
            Recorded("chick", pairs=(Pair("cock", None, 0.5), Pair("cock", "hen", 0.5))),
            *(
                Recorded(f"n{egg}", pairs=(Pair("cock", "hen", 0.5), Pair("cock", None, 0.5)), clutch="n")
                for egg in "ab"
            ),
        ]
    )
    answer = founders_of(pedigree, ["chick", "na", "nb", "cock"], seed=2)
    assert answer is not None
    assert sum(one.share for one in answer.founders) == pytest.approx(1)
    names = [(one.bird, one.chick) for one in answer.founders]
    assert (None, "chick") in names
    assert (None, None) in names
    cock = next(one for one in answer.founders if one.bird == "cock")
    assert (cock.kept, cock.descendants) == (1.0, 3)
    hen = next(one for one in answer.founders if one.bird == "hen")
    # A gene of hers: lost unless a chick that is hers has it; the clutch is hers as a whole or not at all.
    assert hen.kept == pytest.approx(1 - (1 - 0.25) * (1 - 0.5 * 0.75), abs=0.01)


def test_a_founder_without_living_descendants_is_not_counted() -> None:
    answer = founders_of(uncertain({"a": ({}, {}, None), "b": ({}, {}, None)}), ["a"], seed=1, drops=10)
    assert answer is not None
    assert [(one.bird, one.share, one.descendants) for one in answer.founders] == [("a", 1.0, 0)]


def test_a_candidate_too_unlikely_to_have_given_a_gene_is_no_founder() -> None:
    sires = {"a": 1 - 1e-9, "b": 1e-9}
    answer = founders_of(uncertain({"chick": (sires, {"c": 1.0}, None)}), ["chick"], seed=1, drops=10)
    assert answer is not None
    assert [one.bird for one in answer.founders] == ["a", "c"]
    assert answer.fe == pytest.approx(2.0)
    assert answer.fg == pytest.approx(1.0)


def test_gazelles_founders() -> None:
    """purgeR's tests give 3.583086 founder equivalents for `atlas`, whose founders give these shares to 176 animals.

    The data are not free to keep here; candidate parents that give the same shares stand for the pedigree.
    """
    sires, dams = {"1": 0.74886, "2": 0.25114}, {"2": 0.12856, "3": 0.5616, "4": 0.30984}
    answer = founders_of(uncertain({"chick": (sires, dams, None)}), ["chick"], seed=1, drops=2000)
    assert answer is not None
    assert [one.share for one in answer.founders] == pytest.approx([0.37443, 0.18985, 0.2808, 0.15492])
    assert answer.fe == pytest.approx(3.583086, abs=1e-3)


def test_nobody_lives() -> None:
    assert founders_of(pedigree_of([]), [], seed=1) is None
