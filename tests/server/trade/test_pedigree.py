"""The pedigree's door: what cannot be is found and named, the rest stays; how much is known."""

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

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


def clutch(*names: str, **dates: str) -> list[Recorded]:
    """Chicks of one clutch, whose hen is "dam"; dates: days of hatching."""
    return [
        Recorded(name, hatched_on=dates.get(name), pairs=independent({"cock": 1.0}, {"dam": 1.0}), clutch="nest")
        for name in names
    ]


def test_one_mistyped_day_does_not_take_the_mother_of_a_clutch() -> None:
    """Hatched years before its own mother: that chick's day is doubted, its siblings keep theirs (1/4 by the rule)."""
    dam = Recorded("dam", "female", hatched_on="2024-04-01")
    found = pedigree_of([dam, *clutch("a", "b", "c", a="2020-05-01", b="2025-05-01", c="2025-05-01")])
    assert found.findings == (Finding("parent_younger", "a", "dam"),)
    assert [relationships(found).relationship(chick, "dam") for chick in "abc"] == [0.5, 0.5, 0.5]
    assert relationships(found).relationship("b", "c") == 0.5
    assert found.completeness["b"] == 1.0


def test_a_hen_that_cannot_have_laid_one_chick_is_not_the_mother_of_its_siblings() -> None:
    old, young = Recorded("old", "female", "2023-04-01"), Recorded("young", "female", "2025-05-02")
    nest = [
        Recorded(name, hatched_on=day, pairs=independent({}, {"old": 0.5, "young": 0.5}), clutch="nest")
        for name, day in (("a", None), ("b", "2025-05-01"))
    ]
    found = relationships(pedigree_of([old, young, *nest]))
    assert [found.relationship(chick, "old") for chick in "ab"] == [0.5, 0.5]
    assert [found.relationship(chick, "young") for chick in "ab"] == [0, 0]


def test_chicks_that_agree_on_no_hen_each_tell_as_much() -> None:
    """One hen is too young for the one, the other for the other: half a chance each, and siblings they remain."""
    birds = [
        Recorded("hen", "female", "2025-05-01"),
        Recorded("old", "female", "2024-04-01"),
        Recorded("a", hatched_on="2025-04-01", pairs=independent({}, {"hen": 0.5, "old": 0.5}), clutch="nest"),
        Recorded("b", pairs=independent({}, {"hen": 1.0}), clutch="nest"),
    ]
    found = relationships(pedigree_of(birds))
    assert [found.relationship(chick, hen) for chick in "ab" for hen in ("hen", "old")] == [0.25] * 4
    assert found.relationship("a", "b") == 0.25


def test_a_hen_that_descends_from_a_mistyped_chick_of_hers_is_the_mother_of_the_others() -> None:
    dam = of("dam", {}, {"b": 1.0}, hatched_on="2025-05-01")
    found = pedigree_of([*clutch("a", "b", b="2024-05-01"), dam])
    assert found.findings == (Finding("parent_younger", "b", "dam"),)
    assert relationships(found).relationship("a", "dam") == 0.5 + 0.5 * relationships(found).relationship("cock", "dam")
    assert relationships(found).relationship("dam", "b") == 0.5


def test_a_clutch_in_a_circle_without_days() -> None:
    """Its chick would be its mother's mother: both lose that parent, the other chick keeps its own."""
    found = pedigree_of([*clutch("a", "b"), of("dam", {}, {"b": 1.0})])
    assert found.findings == (Finding("own_ancestor", "b", None), Finding("own_ancestor", "dam", None))
    assert relationships(found).relationship("a", "dam") == 0.5
    assert relationships(found).relationship("b", "dam") == 0


_names = st.sampled_from("abcdef")
_shares = st.dictionaries(_names, st.sampled_from([0.25, 0.5, 1.0]), max_size=2)
_recorded = st.builds(
    Recorded,
    bird=_names,
    sex=st.sampled_from(["male", "female", "unknown"]),
    hatched_on=st.sampled_from([None, None, "2024-05-01", "2025-05-01"]),
    pairs=st.builds(independent, _shares, _shares),
    clutch=st.sampled_from([None, "nest", "nest", "other"]),
)


@settings(max_examples=300)
@given(st.lists(_recorded, max_size=8))
def test_no_book_makes_the_pedigree_raise(recorded: list[Recorded]) -> None:
    """Whoever is written as whose chick, in clutches or not: parents come before chicks, and kinship is a share."""
    found = pedigree_of(recorded)
    for place, node in enumerate(found.nodes):
        assert all(parent < place for pair in node.pairs for parent in pair[:2])
        assert sum(chance for *_, chance in node.pairs) == pytest.approx(1)
    kin = relationships(found)
    assert all(0 <= kin.relationship(one, other) <= 2 for one, other in combinations(found.birds, 2))


def test_an_empty_book() -> None:
    assert pedigree_of([]).birds == ()
