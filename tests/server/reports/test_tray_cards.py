"""Cards of trays and baskets, where the place of a setting was taken back: its eggs are somewhere all the same."""

from broodline.book.fold import fold
from broodline.reports.tray_cards import tray_cards
from tests.book_writer import START, BookWriter


def test_cards_name_the_place_or_say_that_it_is_not_in_the_book() -> None:
    writer = BookWriter()
    writer.keeper()
    place, lot = writer.incubator("Loft box"), writer.lot()
    setting = writer.set_eggs(place, [(lot, writer.family("Rowan"), 12)])
    told = tray_cards(fold(writer.entries()), setting, START)
    assert [card["title"] for card in told["cards"]] == ["Loft box", "Chicks from Loft box"]
    writer.take_back(place)
    told = tray_cards(fold(writer.entries()), setting, START)
    assert [card["title"] for card in told["cards"]] == [
        "A place that is not in the book",
        "Chicks from a place that is not in the book",
    ]
    assert told["place"] == "a place that is not in the book"
