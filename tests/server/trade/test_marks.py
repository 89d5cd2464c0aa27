"""Web patterns: sixteen (Slocum, The Mating and Breeding of Poultry, c. 1920); one healed web shows in eight."""

from itertools import combinations

from broodline.trade.marks import parity_patterns, patterns, reads_as


def test_four_webs_make_sixteen_patterns() -> None:
    found = patterns()
    assert len(found) == len(set(found)) == 2**4
    assert found[0] == frozenset()
    # Numbers of the binary key (Polish Breeders Club): outer left 1, inner left 2, inner right 4, outer right 8.
    key = {"LO": 1, "LI": 2, "RI": 4, "RO": 8}
    assert sorted(sum(key[web] for web in pattern) for pattern in found) == list(range(16))


def test_one_healed_web_shows_among_parity_patterns() -> None:
    """The even set: none, LO+LI, LO+RI, LO+RO, LI+RI, LI+RO, RI+RO, all; a missed chick reads as none: that is out."""
    safe = parity_patterns()
    assert {"+".join(sorted(one)) for one in safe} == {
        "LI+LO", "LO+RI", "LO+RO", "LI+RI", "LI+RO", "RI+RO", "LI+LO+RI+RO"
    }  # fmt: skip
    for one, other in combinations([frozenset[str](), *safe], 2):
        assert len(one ^ other) >= 2
    assert all(reads_as(one, safe) == [] for one in safe)


def test_patterns_in_use_that_are_not_safe_together() -> None:
    """LO, RI and LO+RI in use: a healed web makes the third read as either of the others."""
    in_use = [{"LO"}, {"RI"}, {"LO", "RI"}]
    assert reads_as(frozenset({"LO", "RI"}), in_use) == [frozenset({"LO"}), frozenset({"RI"})]
    assert reads_as(frozenset({"LO"}), in_use) == [frozenset({"LO", "RI"})]
    assert reads_as(frozenset({"RO"}), in_use) == []
