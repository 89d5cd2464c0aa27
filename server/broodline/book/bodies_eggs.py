"""Bodies of entries about eggs: gathering, setting, looking, moving, counting."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from broodline.book.body import (
    BirdShare,
    Body,
    BodyOfChoice,
    Count,
    CountOrNone,
    Day,
    DayOrMoment,
    Moment,
    Name,
)


class Gathered(Body):
    """Eggs of one family gathered on a day, and how many of them were kept for setting."""

    family: Name
    on: Day
    n: CountOrNone
    kept: CountOrNone
    dam: Name | None = None
    store: Name | None = None


class EggsOut(Body):
    """Eggs that leave the store unset."""

    family: Name
    on: Day
    n: Count
    how: Literal["sold", "given", "eaten", "discarded"]
    to: str | None = None


class EggsFrom(Body):
    """Where bought-in eggs came from."""

    who: Name
    posted: bool | None = None
    arrived: DayOrMoment | None = None


class SetLot(Body):
    """So many eggs of one family in one setting."""

    lot: Name
    family: Name
    n: Count
    laid_from: Day | None = None
    laid_to: Day | None = None
    dams: list[BirdShare] | None = None
    one_hen: bool | None = None
    from_: Annotated[EggsFrom | None, Field(alias="from")] = None
    sign: str | None = None


class Set(Body):
    """Eggs put into one incubator at one time. plan: the note in which they were planned."""

    place: Name
    species: Name
    set_at: Moment
    lots: list[SetLot]
    lockdown_day: Annotated[float, Field(gt=0)] | None = None
    note: str | None = None
    plan: Name | None = None


class Looked(Body):
    """What was seen of a lot; nothing moved."""

    setting: Name
    lot: Name
    what: Literal["candled", "hatch"]
    day: CountOrNone | None = None
    live: CountOrNone | None = None
    unsure: CountOrNone | None = None
    pipped: CountOrNone | None = None
    none: bool | None = None


class LotMove(BodyOfChoice):
    """n eggs or chicks of a lot, or among several lots, from one stage to another."""

    needs_one_of: ClassVar[tuple[str, ...]] = ("lot", "among")

    lot: Name | None = None
    among: Annotated[list[Name], Field(min_length=1)] | None = None
    from_: Annotated[Name, Field(alias="from")]
    to: Name
    n: Count


class Moved(Body):
    """Moves done together."""

    moves: list[LotMove]
    why: Literal["candled", "lockdown", "hatch", "opened", "pulled", "brooded", "lost", "left"] | None = None
    day: CountOrNone | None = None
    cause: str | None = None
    place: Name | None = None
    helped: bool | None = None
    weak: bool | None = None
    who: str | None = None
    settles: Name | None = None


class Counted(Body):
    """A physical count, and the figure the phone showed at that moment."""

    lot: Name
    stage: Name
    n: CountOrNone
    ledger: int


class Locked(Body):
    """Lockdown done: turning stopped, eggs in the hatcher."""

    setting: Name
    place: Name | None = None


class EggsWeighed(Body):
    """A tray of eggs on the scales, grams."""

    setting: Name
    lot: Name | None = None
    n: Count
    gross_g: float
    tare_g: float
