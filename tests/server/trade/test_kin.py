"""Kinship without the square table, against the table and against sums known by hand."""

from collections import Counter
from collections.abc import Mapping
from random import Random

import numpy as np
import pytest

from broodline.trade import kin
from broodline.trade.kin import MOST_IN_TABLE, KinApart, kin_of
from broodline.trade.kinship import Relationships, relationships
from broodline.trade.sure_kinship import SureKinship
from tests.server.oracles.kin_by_hand import kinship_in
from tests.server.trade.pedigrees import drawn, sure, uncertain


def named(part: int, shares: Mapping[str, float]) -> dict[str, float]:
    return {f"{part}.{bird}": share for bird, share in shares.items()}


def lines(families: int) -> dict[str, tuple[str, str]]:
    """Each family: a pair, a son and a daughter of it, and a chick of these two (F 1/4)."""
    written = {}
    for family in range(families):
        for chick, parents in (("son", ("cock", "hen")), ("daughter", ("cock", "hen")), ("chick", ("son", "daughter"))):
            written[f"{family}.{chick}"] = (f"{family}.{parents[0]}", f"{family}.{parents[1]}")
    return written


def test_a_thousand_sure_pedigrees_by_walks_and_by_the_definition(monkeypatch: pytest.MonkeyPatch) -> None:
    chance = Random(8)
    monkeypatch.setattr(kin, "MOST_IN_TABLE", 0)
    for _ in range(1000):
        candidates = drawn(chance, chance.randint(4, 9), 0)
        pedigree = uncertain(candidates)
        walked, table = kin_of(pedigree), relationships(pedigree)
        assert isinstance(walked, SureKinship)
        names = list(pedigree.birds)
        some, others = chance.sample(names, 2), chance.sample(names, 3)
        assert np.allclose(walked.kinships(some, others), table.kinships(some, others))
        assert np.allclose(walked.kinships(others, some), table.kinships(others, some))
        assert np.allclose(walked.mean_kinships(names), table.mean_kinships(names))
        assert walked.inbreeding(names[-1]) == pytest.approx(table.inbreeding(names[-1]))
        by_bird = {
            bird: (next(iter(sires), None), next(iter(dams), None)) for bird, (sires, dams, _) in candidates.items()
        }
        assert walked.kinship("3", "2") == pytest.approx(kinship_in(by_bird, "3", "2"))


def test_above_3000_birds_where_all_parents_are_sure() -> None:
    """The chick of full sibs has F 1/4, and is kin to the five of its own family, of 601, alone."""
    pedigree = sure(lines(601))
    found = kin_of(pedigree)
    assert len(pedigree.nodes) == 3005 > MOST_IN_TABLE
    assert isinstance(found, SureKinship)
    assert found.inbreeding("600.chick") == 0.25
    # The chick with itself (1 + 1/4) / 2, with its parents 3/8 each, with its grandparents 1/4 each.
    expected = (0.625 + 2 * 0.375 + 2 * 0.25) / 3005
    at = list(pedigree.birds).index("7.chick")
    assert found.mean_kinships(list(pedigree.birds))[at] == pytest.approx(expected)
    assert isinstance(kin_of(sure(lines(3))), Relationships)


def test_uncertain_parents_keep_to_the_table(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(kin, "MOST_IN_TABLE", 0)
    chance = Random(3)
    assert isinstance(kin_of(uncertain(drawn(chance, 6, 3))), Relationships)


def test_parts_that_are_kin_to_no_other_are_worked_out_apart(monkeypatch: pytest.MonkeyPatch) -> None:
    """Several pedigrees side by side, some with uncertain parents, against one table of them all."""
    chance = Random(5)
    monkeypatch.setattr(kin, "MOST_IN_TABLE", 0)
    for _ in range(100):
        side_by_side = {
            f"{part}.{bird}": (named(part, sires), named(part, dams), clutch and f"{part}.{clutch}")
            for part in range(4)
            for bird, (sires, dams, clutch) in drawn(chance, chance.randint(6, 8), chance.choice((0, 3))).items()
        }
        pedigree = uncertain(side_by_side)
        apart, table = kin_of(pedigree), relationships(pedigree)
        names = list(pedigree.birds)
        some, others = chance.sample(names, 5), chance.sample(names, 4)
        assert np.allclose(apart.kinships(some, others), table.kinships(some, others))
        assert np.allclose(apart.mean_kinships(some), table.mean_kinships(some))
        assert apart.kinship(some[0], others[0]) == pytest.approx(table.kinship(some[0], others[0]))
        assert [apart.inbreeding(one) for one in names] == pytest.approx([table.inbreeding(one) for one in names])


def test_one_uncertain_parent_asks_for_no_table_of_all_birds() -> None:
    """Of 601 families one hen is not known for certain: her own five birds stand in a table, the others in none."""
    written = {bird: ({sire: 1.0}, {dam: 1.0}, None) for bird, (sire, dam) in lines(601).items()}
    written["7.chick"] = ({"7.son": 1.0}, {"7.daughter": 0.5, "7.hen": 0.5}, None)
    found = kin_of(uncertain(written))
    assert isinstance(found, KinApart)
    sizes = Counter(type(found.parts[part]) for part in found.part_of.values())
    assert sizes == {Relationships: 5, SureKinship: 3000}
    # Full sibs' chick 1/4, the hen's own son's chick 1/4 too; one in two each way.
    assert (found.inbreeding("7.chick"), found.inbreeding("8.chick")) == (0.25, 0.25)
    assert (found.kinship("7.chick", "8.chick"), found.kinship("7.chick", "7.hen")) == (0.0, 0.3125)
