"""The keeper's own words: cases shared with the phone."""

import json
from pathlib import Path
from typing import Any

import pytest

from broodline.book.bodies_rooms import Keeper
from broodline.book.own_words import own_words

CASES = json.loads((Path(__file__).parents[2] / "vectors" / "own_words.json").read_text())["cases"]


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_a_text_is_told_in_the_keepers_words(case: dict[str, Any]) -> None:
    asked, out = case["in"], case["out"]
    own = own_words(Keeper(holding="Gorse Bank", zone="UTC", temperature="C", mass="g", words=asked["words"]))
    assert (own.told(asked["text"]), [own.setting, own.settings]) == (out["text"], out["setting"])
