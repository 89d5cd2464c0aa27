"""Books for tests of files: the demo's, and one whose names would be formulas in a spreadsheet."""

from datetime import UTC, date, datetime
from importlib.resources import files

from broodline.book.fold import fold
from broodline.book.standing import Standing
from broodline.book.wire import Entry
from broodline.exchange.seed import TEMPLATE, seed_entries
from tests.book_writer import BookWriter

NOW = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
FORMULAS = ("=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", '=HYPERLINK("http://elsewhere.example")')


def demo_entries() -> list[Entry]:
    return seed_entries((files("broodline.exchange") / TEMPLATE).read_bytes(), date(2026, 11, 25))


def demo_book() -> Standing:
    return fold(demo_entries())


def formula_entries() -> list[Entry]:
    """Families and birds named by formulas, one note by an error of spreadsheets, and a control character."""
    writer = BookWriter()
    writer.keeper()
    for name in FORMULAS:
        writer.family(name)
        writer.write("bird", {"name": name, "sex": "female"})
    writer.write("note", {"text": "#N/A"})
    writer.write("note", {"text": "a\x07b"})
    return writer.entries()
