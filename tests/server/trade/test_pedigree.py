"""The pedigree's door: what cannot be is found and named, the rest stays; how much is known."""

from broodline.trade.kinship import relationships
from broodline.trade.pedigree import Finding, Pair, Recorded, independent, pedigree_of


def of(bird: str, sires: dict[str, float], dams: dict[str, float], **more: str) -> Recorded:
    return Recorded(bird, pairs=independent(sires, dams), **more)  # type: ignore[arg-type]


def test_a_hen_as_sire_leaves_the_sire_unknown() -> None:
    found = pedigree_of([Recorded("hen", "female"), of("chick", {"hen": 1.0}, {"dam": 0.5, "other": 0.5})])
    assert found.findings == (Finding("sire_is_hen", "chick", "hen"),)
    assert relationships(found).relationship("chick", "hen") == 0
    assert relationships(found).relationship("chick", "dam") == 0.25


def test_a_cock_among_the_dams_gives_its_chance_to_the_others() -> None:
    found = pedigree_of([Recorded("cock", "male"), of("chick", {}, {"cock": 0.5, "hen": 0.5})])
    assert found.findings == (Finding("dam_is_cock", "chick", "cock"),)
    assert relationships(found).relationship("chick", "hen") == 0.5


def test_a_parent_hatched_after_its_chick() -> None:
    old, young = Recorded("old", hatched_on="2024-04-01"), Recorded("young", hatched_on="2026-04-01")
    found = pedigree_of([old, young, of("chick", {"old": 0.3, "young": 0.7}, {}, hatched_on="2025-04-01")])
    assert found.findings == (Finding("parent_younger", "chick", "young"),)
    assert relationships(found).relationship("chick", "old") == 0.5


def test_a_bird_that_is_its_own_ancestor() -> None:
    found = pedigree_of([of("a", {"b": 1.0}, {"hen": 1.0}), of("b", {"a": 1.0}, {"hen": 1.0}), of("c", {"c": 1.0}, {})])
    assert found.findings == tuple(Finding("own_ancestor", bird, None) for bird in "abc")
    assert relationships(found).relationship("a", "b") == 0.25
    assert found.completeness == {"a": 0.5, "b": 0.5, "c": 0.0, "hen": 0.0}


def test_chances_over_one_are_said_and_scaled() -> None:
    found = pedigree_of([Recorded("chick", pairs=(Pair("x", "d", 1.0), Pair("y", "d", 1.0), Pair("y", "d", 0.0)))])
    assert found.findings == (Finding("chances_over_one", "chick", None),)
    assert relationships(found).relationship("chick", "x") == 0.25


def test_chances_under_one_leave_a_fresh_founder() -> None:
    found = pedigree_of([Recorded("chick", pairs=(Pair("x", "d", 0.6),))])
    assert found.findings == ()
    assert relationships(found).relationship("chick", "x") == 0.3
    assert found.completeness["chick"] == 0.6


def test_equivalent_generations() -> None:
    """Full parents and grandparents: 2; with one grandparent unknown 1.75; a clutch of unknown hens counts the sire."""
    birds = [of("s", {"ss": 1.0}, {"sd": 1.0}), of("d", {"ds": 1.0}, {}), of("x", {"s": 1.0}, {"d": 1.0})]
    nest = [Recorded(name, pairs=independent({"s": 1.0}, {}), clutch="nest") for name in ("n1", "n2")]
    named = [Recorded(name, pairs=independent({}, {"d": 0.5, "s2": 0.5}), clutch="two") for name in ("m1", "m2")]
    found = pedigree_of([*birds, *nest, *named])
    assert found.completeness["x"] == 1.75
    assert found.completeness["n1"] == 1.0
    assert found.completeness["m1"] == 0.5 * (1 + 0.5 * 0.5)


def test_a_clutch_of_one_bird_is_no_clutch() -> None:
    alone = pedigree_of([Recorded("chick", pairs=independent({"s": 1.0}, {"d": 0.5, "e": 0.5}), clutch="nest")])
    assert len(alone.nodes) == 4


def test_an_empty_book() -> None:
    assert pedigree_of([]).birds == ()
