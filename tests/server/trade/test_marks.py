"""Web patterns: sixteen (Slocum, The Mating and Breeding of Poultry, c. 1920); one healed web shows in eight."""

import json
from itertools import combinations
from pathlib import Path

import pytest

from broodline.trade.marks import (
    WEBS,
    binary_sum,
    next_free,
    next_free_ring,
    parity_patterns,
    patterns,
    reads_as,
    risks,
)

VECTORS = json.loads((Path(__file__).parents[2] / "vectors" / "marks.json").read_text(encoding="utf-8"))

# Two published keys, translated to the bird's own webs. A: Polish Breeders Club, "Toe Punching". B: US Department of
# Agriculture, "Footprint marks", Evening Republican (Rensselaer, Indiana), 5 June 1919; its list stops at 11.
KEY_A = {
    "": 0, "LO": 1, "LI": 2, "LO+LI": 3, "RI": 4, "LO+RI": 5, "LI+RI": 6, "LO+LI+RI": 7, "RO": 8, "LO+RO": 9,
    "LI+RO": 10, "LO+LI+RO": 11, "RI+RO": 12, "LO+RI+RO": 13, "LI+RI+RO": 14, "LO+LI+RI+RO": 15,
}  # fmt: skip
KEY_B = {
    "": 1, "LO": 5, "LI": 4, "LO+LI": 7, "RI": 3, "LO+RI": 10, "LI+RI": 8, "RO": 2, "LO+RO": 9, "RI+RO": 6,
}  # fmt: skip


def written(pattern: frozenset[str]) -> list[str]:
    return [web for web in WEBS if web in pattern]


def key_of(pattern: frozenset[str]) -> str:
    return "+".join(written(pattern))


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


@pytest.mark.parametrize(("webs", "number"), [("LO+RI", 5), ("RI+RO", 12), ("LO+LI+RI+RO", 15), ("", 0)])
def test_check_value_1_the_binary_sum(webs: str, number: int) -> None:
    """Polish Breeders Club, which prints 1 + 4 = 5."""
    assert binary_sum(frozenset(webs.split("+")) & set(WEBS)) == number


def test_check_value_2_published_keys_contradict_each_other_so_the_pattern_is_kept() -> None:
    """RO is 8 in one and 2 in the other, RI+RO 12 and 6; of all patterns only LO+RO has one number in both."""
    assert {key_of(pattern): binary_sum(pattern) for pattern in patterns()} == KEY_A
    assert (KEY_A["RO"], KEY_B["RO"]) == (8, 2)
    assert (KEY_A["RI+RO"], KEY_B["RI+RO"]) == (12, 6)
    assert [webs for webs in KEY_B if KEY_A[webs] == KEY_B[webs]] == ["LO+RO"]


def test_check_value_3_sixteen_patterns_of_which_no_more_than_eight_show_one_healed_web() -> None:
    """No set of nine without two that are one web apart: the sixteen fall into eight pairs that are."""
    assert len(patterns()) == 16
    pairs = {frozenset({pattern - {"LO"}, pattern | {"LO"}}) for pattern in patterns()}
    assert len(pairs) == 8
    assert len([frozenset[str](), *parity_patterns()]) == 8


@pytest.mark.parametrize("case", VECTORS["cases"], ids=[case["name"] for case in VECTORS["cases"]])
def test_vectors_by_taking_webs_away_one_at_a_time(case: dict) -> None:
    """An oracle that punches every pattern, heals each web in turn and looks who it then is."""
    used = [frozenset(one) for one in case["in"]]
    told = {}
    for pattern in patterns()[1:]:
        healed = [(web, pattern, pattern - {web}) for web in WEBS if web in pattern]
        healed = [one for one in healed if (one[2] in used and one[2] != pattern) or one[2] == frozenset()]
        for web in WEBS:
            healed += [(web, other, pattern) for other in used if web in other and other - {web} == pattern]
        told[key_of(pattern)] = [[web, written(heals), written(now)] for web, heals, now in healed]
        assert [[one.web, written(one.heals), written(one.reads_as)] for one in risks(pattern, used)] == (
            case["out"]["risks"][key_of(pattern)]
        )
    assert told == case["out"]["risks"]
    safe = [webs for webs, harm in told.items() if not harm and frozenset(webs.split("+")) not in used]
    offered = next_free(used)
    if offered is None:
        assert safe == []
    else:
        assert key_of(offered) in safe
        even = [webs for webs in safe if len(webs.split("+")) % 2 == 0]
        assert len(offered) == min(len(webs.split("+")) for webs in even or safe)
    assert (offered and written(offered)) == case["out"]["next_free"]


def test_no_mark_at_all_is_never_offered() -> None:
    used: list[frozenset[str]] = []
    while (offered := next_free(used)) is not None:
        assert offered
        used.append(offered)
    assert used == parity_patterns(), "seven families; an eighth needs rings or wing tags"


def test_patterns_and_rings_of_the_vectors() -> None:
    assert [written(pattern) for pattern in patterns()] == VECTORS["patterns"]
    assert [written(pattern) for pattern in parity_patterns()] == VECTORS["parity"]
    assert {key_of(pattern): binary_sum(pattern) for pattern in patterns()[1:]} == VECTORS["sums"]
    rings = VECTORS["rings"]
    for case in rings["cases"]:
        offered = next_free_ring(rings["colours"], {tuple(one) for one in case["in"]})
        assert (offered and list(offered)) == case["out"]
