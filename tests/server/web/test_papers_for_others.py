"""Papers for whoever does not know the book: what is to be opened, codes to scan, rings worn, eggs not for eating."""

import re
from datetime import date, timedelta

import pytest

from broodline.book.birds import birds_of
from broodline.book.fold import fold
from broodline.exchange.typeset import qr_picture
from broodline.web import papers
from broodline.web.papers import Wanted, away_paper, bird_paper, cards_paper, marks_paper, tally_paper
from tests.book_writer import BookWriter
from tests.server.exchange.test_typeset import text_of
from tests.server.exchange.told_books import NOW, demo_book

WANTED = Wanted(NOW, None, "https://book.example")
TODAY = NOW.date()


@pytest.fixture(scope="module")
def demo():
    return demo_book()


def settings_of(standing):
    return sorted(standing.settings.values(), key=lambda one: one.set_at_ms)


def words_of(printed):
    return " ".join(text_of(printed.content).split())


def test_what_is_to_be_opened_is_all_that_did_not_hatch_and_all_that_was_put_aside():
    """As the app's tally of opening counts (tally-plan.ts): of 24 set 15 hatched, 6 did not, 3 were put aside."""
    book = BookWriter()
    lot = book.lot()
    setting = book.set_eggs(book.incubator(), [(lot, book.family("Rowan"), 24)])
    for target, n in (("clear", 2), ("blood_ring", 1), ("hatched", 15), ("unhatched", 6)):
        book.move(lot, "set", target, n)
    text = words_of(tally_paper(fold(book.entries()), setting, WANTED))
    assert text.count("Rowan 0 of 24") == 2
    assert text.count("Rowan 9 of 24") == 1
    assert "To open" in text
    assert "take off those that hatch" not in text


def test_a_code_leads_to_the_served_book_and_is_left_out_of_one_that_is_not(demo, monkeypatch):
    codes: list[str] = []

    def seen(text: str) -> str:
        codes.append(text)
        return qr_picture(text)

    monkeypatch.setattr(papers, "qr_picture", seen)
    setting = settings_of(demo)[-1].id
    bird = next(iter(birds_of(demo, None)))
    made = (cards_paper, setting), (tally_paper, setting), (bird_paper, bird)
    for make, of in made:
        make(demo, of, WANTED)
    assert len(codes) == 2 * len(demo.settings[setting].lots) + 2
    paths = ("setting", "brood", "bird")
    assert all(re.fullmatch(f"https://book.example/({'|'.join(paths)})/[0-9a-f-]+", code) for code in codes)
    assert {code.split("/")[3] for code in codes} == set(paths)
    codes.clear()
    texts = [words_of(make(demo, of, Wanted(NOW))) for make, of in made]
    assert codes == []
    assert all("No code: this book is not served" in text for text in texts[:2])


def test_birds_ringed_one_by_one_stand_on_the_paper_of_marks(demo):
    book = BookWriter()
    rowan = book.family("Rowan")
    ring = {"kind": "ring", "colour": "red", "leg": "left"}
    for text, more in (("R1", {"hatched_on": "2026-04-01"}), ("R2", {}), ("R3", {"hatched_on": "2025-04-01"})):
        book.write("bird", {"sex": "male", "family": rowan, "tags": [{**ring, "text": text}], **more})
    bought = book.write("bird", {"sex": "female", "tags": [{**ring, "text": "R4"}]})
    book.write("came", {"bird": bought, "on": "2026-03-02", "how": "bought"})
    book.write("marked", {"bird": bought, "tag": {**ring, "text": "R5"}, "on": "2026-04-02"})
    text = words_of(marks_paper(fold(book.entries()), 2026, WANTED))
    assert "red R1 Rowan 1 Apr 2026 left red ring R1" in text
    assert "red R2 Rowan – left red ring R2" in text
    assert "left red ring R5" in text
    assert not any(old in text for old in ("ring R3", "ring R4", "No marks were written down"))
    # of the demo's birds of this season 26 are ringed (seed_scenario: all that were kept one by one)
    ringed = [one for one in birds_of(demo, None).values() if (one.body.hatched_on or "").startswith("2026")]
    assert len(ringed) == 26
    told = words_of(marks_paper(demo, 2026, WANTED))
    assert "Worn by birds of this season (26)" in told
    assert all(str(tag.text) in told for one in ringed for tag in one.body.tags or ())


def test_whoever_gathers_is_told_at_the_top_whose_eggs_are_not_for_eating(demo):
    text = words_of(away_paper(demo, TODAY, TODAY + timedelta(days=7), WANTED))
    told = "not for eating until 29 Nov 2026 (Pain relief in the water)."
    assert "• Eggs of Pond" in text
    assert text.index("Call me") < text.index("Eggs of Pond") < text.index(told) < text.index("Every day")
    assert "not for eating until 5 Dec 2026" in text
    later = words_of(away_paper(demo, date(2026, 12, 1), date(2026, 12, 8), WANTED))
    assert "Eggs of Pond" not in later
    assert "Meat of Pond" in later
    empty = words_of(away_paper(fold([]), TODAY, TODAY, WANTED))
    assert "No eggs are in a machine or under a hen." in empty
    assert "Not for eating" not in empty
