"""Score cards: a cut by the example of poultryqa.com, and the two cards of the ICAR e-course."""

import pytest

from broodline.trade.scorecards import is_whole, score

EGG_TYPE = {
    "type": 25, "comb": 10, "ear-lobe": 10, "eyes": 5, "legs": 10, "breast": 5, "size": 5, "colour": 20,
    "condition": 10,
}  # fmt: skip
MEAT_TYPE = {"a": 30, "b": 30, "c": 30, "d": 10, "e": 10, "f": 10}


def test_a_comb_three_quarters_perfect() -> None:
    """10 points, three quarters perfect: a cut of 2.5, so 97.5 if it is the only fault."""
    assert score(EGG_TYPE, {"comb": 0.75}) == 97.5
    assert score(EGG_TYPE, {}) == 100


def test_the_printed_meat_card_sums_to_120_and_is_refused() -> None:
    assert is_whole(EGG_TYPE)
    assert not is_whole(MEAT_TYPE)
    with pytest.raises(ValueError, match="120"):
        score(MEAT_TYPE, {})


@pytest.mark.parametrize("good", [{"tail": 0.5}, {"comb": 1.5}, {"comb": -0.1}])
def test_sections_that_are_not_there_and_shares_that_are_none(good: dict[str, float]) -> None:
    with pytest.raises(ValueError, match="section"):
        score(EGG_TYPE, good)
