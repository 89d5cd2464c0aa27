"""What stands out in a setting's losses, with evidence and where it was seen."""

from datetime import timedelta
from fractions import Fraction
from math import comb
from typing import Any

from broodline.book.fold import fold
from broodline.reports.setting import setting_report
from tests.book_writer import START, BookWriter


def pattern(*steps: tuple[int, str, str, int], eggs: tuple[int, int] = (24, 24)) -> list[dict[str, Any]]:
    book = BookWriter()
    lots = [book.lot(), book.lot()]
    families = zip(lots, ("Rowan", "Birch"), eggs, strict=True)
    setting = book.set_eggs(book.incubator(), [(lot, book.family(name), n) for lot, name, n in families])
    for number, source, target, n in steps:
        book.move(lots[number], source, target, n)
    found = setting_report(fold(book.entries()), setting, START + timedelta(days=30))["pattern"]
    assert isinstance(found, list)
    return found


def test_nothing_stands_out_in_a_good_hatch() -> None:
    assert pattern((0, "set", "hatched", 22), (0, "set", "blood_ring", 1), (1, "set", "hatched", 24)) == []


def test_blood_rings_stand_out_with_evidence_causes_and_family() -> None:
    found = pattern((0, "set", "blood_ring", 6), (0, "set", "hatched", 18), (1, "set", "hatched", 24))
    assert [one["code"] for one in found] == ["dead_early"]
    one = found[0]
    assert one["evidence"] == (
        "6 of 48 fertile eggs (12 %). Published: 3.0 % of eggs, dead in the first 3 days; at that rate so many would "
        "come by chance in 3 of 1,000 such settings. All in one family, Rowan 6: look first at that pen and at how its "
        "eggs were kept."
    )
    assert [row["k"] for row in one["by_lot"]] == [6]
    assert any("inbreeding" in cause for cause in one["likely"])
    assert one["source"].startswith("Common Incubation Problems")
    assert "copy" in one["source"]


def test_losses_in_every_family_point_to_what_they_shared() -> None:
    (found,) = pattern((0, "set", "blood_ring", 4), (1, "set", "blood_ring", 3), (1, "set", "hatched", 21))
    assert "In every family (Rowan 4, Birch 3): look first at what they shared." in found["evidence"]


def test_few_losses_that_may_well_all_fall_in_one_family() -> None:
    """4 of 48 in 24 eggs of Rowan: by chance alone in 10,626 of 194,580, or 5.5 %."""
    (found,) = pattern((0, "set", "dead_mid", 4), (0, "set", "hatched", 20), (1, "set", "hatched", 24))
    assert found["evidence"].endswith("By family: Rowan 4.")


def test_losses_of_a_hatchery_are_reckoned_too() -> None:
    """600 of 1,212 all in the 1,200 of one family: by chance in 1 of 3,841 (C(1200, 600) / C(1212, 600), exactly)."""
    assert round(Fraction(comb(1212, 600), comb(1200, 600))) == 3841
    (found,) = pattern(
        (0, "set", "blood_ring", 600), (0, "set", "hatched", 600), (1, "set", "hatched", 12), eggs=(1200, 12)
    )
    assert "All in one family, Rowan 600: look first at that pen" in found["evidence"]
    assert Fraction(comb(1202, 600), comb(1200, 600)) < 20
    (found,) = pattern(
        (0, "set", "blood_ring", 600), (0, "set", "hatched", 600), (1, "set", "hatched", 2), eggs=(1200, 2)
    )
    assert "By family: Rowan 600." in found["evidence"]


def test_counts_that_do_not_fit_say_nothing() -> None:
    assert pattern((0, "set", "blood_ring", 60)) == []


def carrying(**kept: Any) -> dict[str, Any]:
    """One hatch of 24 eggs of Rowan, 6 dead early; kept: birds, pens and more, written before it."""
    book = BookWriter()
    book.keeper(**kept.get("keeper", {}))
    lot, family = book.lot(), book.family("Rowan")
    birds = {
        name: book.write("bird", {"family": family, **body} if body.pop("here", True) else body)
        for name, body in kept.get("birds", {}).items()
    }
    for pen in kept.get("pens", ()):
        sires, dams = ([{"bird": birds[name]} for name in pen[side]] for side in ("sires", "dams"))
        when = {name: pen[name] for name in ("since", "until") if name in pen}
        book.write("penned", {"family": family, "sires": sires, "dams": dams, **when})
    for one, other in kept.get("same", ()):
        book.write("same", {"bird": birds[one], "as": birds[other]})
    own = {"dams": [{"bird": birds[name]} for name in kept["own"]]} if "own" in kept else {}
    body = {"place": book.incubator(), "species": "chicken", "set_at": START.isoformat()}
    setting = book.write("set", {**body, "lots": [{"lot": lot, "family": family, "n": 24, **own}]}, at=START)
    if kept.get("deaths", 6):
        book.move(lot, "set", "dead_early", 6)
    book.move(lot, "set", "hatched", 18 if kept.get("deaths", 6) else 24)
    return setting_report(fold(book.entries()), setting, START + timedelta(days=30))


COCK, HEN = {"sex": "male", "carries": ["Creeper"]}, {"sex": "female", "carries": ["blue", "creeper"]}
PEN = {"sires": ["cock"], "dams": ["hen"], "since": "2026-01-01"}


def test_a_lethal_pairing_is_named_before_any_fault_of_the_incubator() -> None:
    """Creeper on creeper loses about 25 % of the fertile eggs (United Peafowl Association article)."""
    found = carrying(birds={"cock": {**COCK}, "hen": {**HEN}}, pens=[PEN])["pattern"]
    assert [one["code"] for one in found] == ["lethal_pairing", "dead_early"]
    assert found[0]["evidence"] == (
        "Cock and hen behind Rowan carry creeper. About 25 % of fertile eggs when both parents carry it die. "
        "6 of 24 fertile eggs of Rowan died."
    )
    assert "lethal genes" in found[0]["source"]
    assert found[0]["by_lot"][0]["k"] == 6


def test_of_several_hens_the_share_of_eggs_they_stand_behind_is_said() -> None:
    """One hen of four carries it: a quarter of the eggs, each hen counting alike."""
    birds = {"cock": {**COCK}, "hen": {**HEN}, **{f"plain {n}": {"sex": "female"} for n in range(3)}}
    pens = [{**PEN, "dams": ["hen", "plain 0", "plain 1", "plain 2"]}]
    (found, *_) = carrying(birds=birds, pens=pens)["pattern"]
    assert found["chance"] == 0.25
    assert found["evidence"].startswith("By the pens, cock and hen behind 25 % of Rowan's eggs carry creeper.")


def test_a_cock_that_got_in_counts_by_his_chance() -> None:
    """The day before setting, into a pen whose own cock carries nothing: half of the eggs of that day on."""
    birds = {"own": {"sex": "male"}, "cock": {**COCK}, "hen": {**HEN}}
    day = (START - timedelta(days=1)).date().isoformat()
    visit = {"sires": ["cock"], "dams": [], "since": day, "until": day}
    pens = [{**PEN, "sires": ["own"]}, visit]
    assert carrying(birds=birds, pens=pens)["pattern"][0]["chance"] == 0.5


def test_pens_of_another_time_and_other_birds_say_nothing() -> None:
    birds = {"cock": {**COCK}, "hen": {**HEN}, "plain": {"sex": "male"}}
    before = {**PEN, "until": "2026-02-01"}
    now = {"sires": ["plain"], "dams": ["hen"], "since": "2026-02-01"}
    assert [one["code"] for one in carrying(birds=birds, pens=[before, now])["pattern"]] == ["dead_early"]
    assert carrying(birds=birds, pens=[PEN], deaths=0)["pattern"] == []


def test_without_a_pen_the_birds_of_the_family_speak() -> None:
    found = carrying(birds={"cock": {**COCK}, "hen": {**HEN}})["pattern"]
    assert found[0]["code"] == "lethal_pairing"
    strangers = carrying(birds={"cock": {**COCK, "here": False}, "hen": {**HEN}})["pattern"]
    assert [one["code"] for one in strangers] == ["dead_early"]


def test_hens_named_for_the_eggs_outrank_the_pen() -> None:
    birds = {"cock": {**COCK}, "hen": {**HEN}, "other": {"sex": "female"}}
    assert [one["code"] for one in carrying(birds=birds, pens=[PEN], own=["other"])["pattern"]] == ["dead_early"]
    assert carrying(birds=birds, own=["hen"])["pattern"][0]["code"] == "lethal_pairing"


def test_two_ids_of_one_bird_are_one() -> None:
    birds = {"cock": {"sex": "male"}, "hen": {**HEN}, "twin": {**COCK, "here": False}}
    found = carrying(birds=birds, pens=[PEN], same=[("twin", "cock")])["pattern"]
    assert found[0]["code"] == "lethal_pairing"


def test_the_keepers_own_list_counts_too() -> None:
    birds = {"cock": {"sex": "male", "carries": ["Frizzle"]}, "hen": {"sex": "female", "carries": ["silkie"]}}
    keeper = {"never_pair": [["silkie", "frizzle", "brittle chicks"]]}
    found = carrying(birds=birds, pens=[PEN], keeper=keeper)["pattern"]
    assert found[0]["evidence"].startswith(
        "Cock and hen behind Rowan carry silkie and frizzle. The keeper's own list says never to pair them: brittle"
    )
    assert found[0]["source"] == "the keeper's list"


def clears(opened: bool) -> dict[str, Any]:
    book = BookWriter()
    lot = book.lot()
    setting = book.set_eggs(book.incubator(), [(lot, book.family("Rowan"), 24)])
    book.move(lot, "set", "clear", 14)
    if opened:
        book.move(lot, "clear", "infertile", 14)
    book.move(lot, "set", "hatched", 10)
    return setting_report(fold(book.entries()), setting, START + timedelta(days=30))


def test_clear_is_not_infertile_until_opened() -> None:
    """Many clears are embryos dead before laying or in the first day (cytology of clears, scilit 8a18e866)."""
    shut, opened = clears(False), clears(True)
    assert shut["pattern"][0]["evidence"].endswith("14 of them were not opened: clear is not infertile.")
    assert any(note["words"].startswith("A clear egg is not infertile") for note in shut["notes"])
    assert "not opened" not in opened["pattern"][0]["evidence"]
    assert all("clear egg" not in note["words"] for note in opened["notes"])
    assert any("definite diagnosis" in note["words"] for note in opened["notes"])


def closing(*steps: tuple[str, str, int]) -> dict[str, Any]:
    book = BookWriter()
    lot = book.lot()
    setting = book.set_eggs(book.incubator(), [(lot, book.family("Rowan"), 24)])
    for source, target, n in steps:
        book.move(lot, source, target, n)
    found = setting_report(fold(book.entries()), setting, START + timedelta(days=30))
    assert found["lots"][0]["closing"] == found["total"]["closing"]
    return dict(found["total"]["closing"])


def test_sums_close_or_say_by_how_much_they_do_not() -> None:
    whole = closing(("set", "hatched", 20), ("set", "clear", 4))
    assert whole == {"set": 24, "told": 24, "short_by": 0, "words": "All 24 eggs are accounted for."}
    short = closing(("set", "hatched", 20), ("hatched", "unaccounted", 2), ("set", "lost in the post", 1))
    assert (short["short_by"], short["words"]) == (3, "3 of 24 eggs are not accounted for.")
    over = closing(("clear", "infertile", 2))
    assert (over["short_by"], over["words"]) == (-2, "2 more than the 24 eggs set are told of.")
