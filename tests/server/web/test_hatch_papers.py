"""What the paper of one hatch and its cards say of odd hatches: chicks of no known family, two looks, long names."""

from datetime import timedelta

import pytest

from broodline.book.fold import fold
from broodline.web.papers import Wanted, cards_paper, season_paper, setting_paper
from tests.book_writer import START, BookWriter
from tests.server.exchange.test_typeset import pages, text_of
from tests.server.exchange.told_books import NOW

WANTED = Wanted(NOW, None, "https://book.example")


def words_of(printed):
    return " ".join(text_of(printed.content).split())


@pytest.fixture
def hatched():
    """Of 10 and 12 eggs 4 and 6 hatched, and 3 of which nobody knows the family."""
    book = BookWriter()
    book.keeper()
    rowan, hazel = book.lot(), book.lot()
    eggs = [(rowan, book.family("Rowan"), 10), (hazel, book.family("Hazel"), 12)]
    setting = book.set_eggs(book.incubator(), eggs)
    out = START + timedelta(days=20, hours=8)
    book.move(rowan, "set", "hatched", 4, at=out)
    book.move(hazel, "set", "hatched", 6, at=out + timedelta(hours=6))
    among = {"among": [rowan, hazel], "from": "set", "to": "hatched", "n": 3}
    book.write("moved", {"moves": [among]}, at=out + timedelta(hours=6))
    for lot, n in ((rowan, 4), (hazel, 5)):
        book.move(lot, "set", "unhatched", n, at=out + timedelta(days=2))
    book.move(rowan, "unhatched", "dead_late", 1, at=out + timedelta(days=2))
    return book, setting, rowan


def test_chicks_of_no_known_family_have_a_row_and_bars_a_scale(hatched):
    book, setting, _ = hatched
    text = words_of(setting_paper(fold(book.entries()), setting, WANTED))
    assert "13 of 22 eggs hatched" in text
    assert "family not known – 3 hatched" in text
    assert "0 % 50 100" in text
    assert "where the true rate lies, 95 times in 100" in text


def test_titles_state_the_finding(hatched):
    book, setting, _ = hatched
    text = words_of(setting_paper(fold(book.entries()), setting, WANTED))
    assert "Family by family" not in text
    assert "When they died" not in text
    assert "1 died in the shell, all late; 8 eggs that did not hatch were not opened" in text
    assert "Hatched, of those set: 40 % (Rowan) to 50 % (Hazel)" in text


def test_a_hatch_of_two_looks_within_a_day_has_days_on_its_axis(hatched):
    book, setting, _ = hatched
    text = words_of(setting_paper(fold(book.entries()), setting, WANTED))
    assert "20 21 days since setting; % of all that hatched" in text


def test_cards_of_chicks_tell_what_the_book_knows(hatched):
    book, setting, rowan = hatched
    blank = "____________"
    book.write(
        "marked", {"lot": rowan, "n": 4, "webs": ["LO"], "tag": {"kind": "ring", "colour": "red", "leg": "left"}}
    )
    text = words_of(cards_paper(fold(book.entries()), setting, WANTED))
    assert "Hatched 21 Mar 2026 Chicks 4 on 25 Nov 2026 Mark left outer; left red ring" in text
    assert f"Chicks 6 on 25 Nov 2026 Mark {blank}" in text
    running = BookWriter()
    eggs = running.set_eggs(running.incubator(), [(running.lot(), running.family("Rowan"), 10)])
    assert f"Hatched {blank} Chicks {blank} Mark {blank}" in words_of(
        cards_paper(fold(running.entries()), eggs, WANTED)
    )


@pytest.mark.parametrize(
    "name", ["The speckled ones of the widow by the old mill at the far end of the long lane", "x" * 90]
)
def test_a_long_name_keeps_off_the_dates_of_its_card(name):
    book = BookWriter()
    setting = book.set_eggs(book.incubator(), [(book.lot(), book.family(name), 10)])
    (page,) = pages(cards_paper(fold(book.entries()), setting, WANTED).content)
    heights: dict[str, list[float]] = {"name": [], "Eggs": []}

    def see(text, outer, inner, *_):
        part = text.strip().rstrip("-\u2010\u00ad")
        kind = "Eggs" if part.startswith("Eggs") else "name" if len(part) > 3 and part in name else None
        if kind is not None:
            heights[kind].append(inner[4] * outer[1] + inner[5] * outer[3] + outer[5])

    page.extract_text(visitor_text=see)
    assert len(heights["name"]) >= 4, "of both cards, in lines"
    assert min(heights["name"]) > max(heights["Eggs"]) + 10


def test_a_season_without_eggs_is_a_sentence_and_no_tables():
    book = BookWriter()
    book.keeper()
    text = words_of(season_paper(fold(book.entries()), 2026, WANTED))
    assert "No eggs were set in this season" in text
    assert "Fertile, of those judged" not in text
