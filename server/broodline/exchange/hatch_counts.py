"""What one row says of eggs set on a day, and of what became of them."""

from dataclasses import dataclass
from datetime import date, timedelta

from broodline.exchange.flock_rows import said_or_asked
from broodline.exchange.row_values import Unread, name_key, says_nothing, species_of
from broodline.exchange.rows_in import Row, Taking
from broodline.trade.species import SPECIES

AT_CANDLING = ("clear", "blood_ring", "quitter", "cracked", "rotten")
UNNAMED_PLACE = "Incubator before this book"


@dataclass(frozen=True, slots=True)
class Counts:
    """Counts of one row; unhatched: eggs that are in no column.
    told_died, told_clear: whether the cell says a number, 0 too."""

    row: Row
    family: str
    on: date
    species: str
    place: str
    eggs: int
    out: dict[str, int]
    unhatched: int
    hatched: int
    died: int
    kept: int | None
    sold: int
    breed: str
    told_died: bool
    told_clear: bool


def place_name(row: Row) -> str:
    """The machine; one name for all that no row names."""
    text = row.text("place")
    return UNNAMED_PLACE if says_nothing(text) else text


def read_counts(taking: Taking, row: Row) -> Counts:
    """Raises Unread."""
    on = row.day("set_on", taking.today)
    name = row.text("family")
    eggs = row.count("eggs")
    hatched = row.count("hatched")
    if on is None:
        raise Unread("set_on", "Nothing says when the eggs were set.", "Write the day, even if about.")
    if not name:
        raise Unread("family", "Nothing says whose eggs these were.", "Write a family; one for all is a family too.")
    if not eggs:
        raise Unread("eggs", "Nothing says how many eggs were set.", "Write the number, 1 or more.")
    if hatched is None:
        raise Unread("hatched", "Nothing says how many hatched.", "Write 0 where none did.")
    told = species_of(row.value("species"))
    said = "" if says_nothing(row.text("breed")) else row.text("breed")
    known = taking.whose(row, name)
    if known is not None and taking.families.known(name) is None:
        name = taking.families.names[known]
    species, breed = (taking.species_of[known], "") if known is not None else said_or_asked(taking, told, said)
    if known is None and (species is None or not breed):
        message = f"There is no family named {name}."
        raise Unread("family", message, "Take the families in first, or say the breed and species of all rows.")
    if known is None:
        first = taking.families.new(name)
        if name_key(first) != name_key(name):
            taking.tell_reading(row, name, first)
            name = first
    if species is None or species not in SPECIES:
        raise Unread("species", f"The days of a hatch of “{species}” are not known.", "Correct the family's species.")
    if told is not None and told != species:
        raise Unread("species", f"The book says that {name} is {species}.", "Correct the row, or the family.")
    end = on + timedelta(days=SPECIES[species].period_days[1] + 1)
    if end > taking.today:
        raise Unread("set_on", f"That hatch is not over before {taking.told(end)}.", "Set those eggs in the app.")
    out = {stage: row.count(stage) or 0 for stage in AT_CANDLING}
    rest = eggs - hatched - sum(out.values())
    unhatched = row.count("unhatched")
    if rest < (unhatched or 0):
        raise Unread("eggs", f"{eggs} eggs were set, but more are told of.", "Correct the counts of this row.")
    died, kept, sold = (row.count(one) for one in ("died_first_week", "kept", "sold"))
    if (died or 0) + (kept or 0) + (sold or 0) > hatched:
        raise Unread("hatched", f"{hatched} hatched, but more chicks are told of.", "Correct the counts of this row.")
    return Counts(
        row, name, on, species, place_name(row), eggs, out, rest, hatched, died or 0, kept,
        sold or 0, said,
        died is not None, row.count("clear") is not None,
    )  # fmt: skip
