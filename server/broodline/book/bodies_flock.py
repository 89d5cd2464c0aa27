"""Bodies of entries about families and birds."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from broodline.book.body import BirdShare, Body, BodyOfChoice, Count, Day, DayOrMoment, Name, Share

Sex = Literal["male", "female", "unknown"]
Web = Literal["LO", "LI", "RI", "RO"]


class Family(Body):
    """A breeding group that is kept apart as a line."""

    name: Name
    species: Name
    breed: Name
    variety: str | None = None
    shell: Literal["white", "tinted", "brown", "dark", "blue", "other"] | None = None
    sign: str | None = None


class Tag(Body):
    """A ring, wing tag, web tag or chip."""

    kind: Literal["ring", "wing", "web", "chip"]
    colour: str | None = None
    leg: Literal["left", "right"] | None = None
    text: str | None = None


class LotShare(Body):
    """A lot a bird may have come from, with its chance."""

    lot: Name
    share: Share | None = None


class Origin(Body):
    """Where a bird from elsewhere came from."""

    holding: Name
    keeper: str | None = None


class Bird(Body):
    """A bird that is known by itself."""

    name: str | None = None
    sex: Sex
    family: Name | None = None
    breed: str | None = None
    variety: str | None = None
    species: str | None = None
    hatched_on: Day | None = None
    lots: list[LotShare] | None = None
    tags: list[Tag] | None = None
    webs: list[Web] | None = None
    sires: list[BirdShare] | None = None
    dams: list[BirdShare] | None = None
    founder: bool | None = None
    origin: Origin | None = None
    carries: list[str] | None = None


class Came(BodyOfChoice):
    """A bird, or chicks as a lot, that came to the holding."""

    needs_one_of: ClassVar[tuple[str, ...]] = ("bird", "lot")

    bird: Name | None = None
    lot: Name | None = None
    n: Count | None = None
    stage: Literal["brooding", "growing"] | None = None
    family: Name | None = None
    hatched_on: Day | None = None
    on: Day
    how: Literal["bought", "given", "lent", "returned", "found"]
    from_: Annotated[str | None, Field(alias="from")] = None
    apart_until: Day | None = None


class Left(Body):
    """A bird that left the book."""

    bird: Name
    on: Day
    how: Literal["died", "culled", "sold", "given", "lent", "lost"]
    cause: str | None = None
    to: str | None = None


class Same(Body):
    """Two ids, one bird."""

    bird: Name
    as_: Annotated[Name, Field(alias="as")]


class Penned(Body):
    """Who stood in a family's pen, from when to when."""

    family: Name
    place: Name | None = None
    since: DayOrMoment
    until: DayOrMoment | None = None
    sires: list[BirdShare]
    dams: list[BirdShare]


class Marked(BodyOfChoice):
    """Chicks of a lot, or a bird, marked; webs are the bird's own, seen from behind."""

    needs_one_of: ClassVar[tuple[str, ...]] = ("lot", "bird")

    lot: Name | None = None
    bird: Name | None = None
    webs: list[Web] | None = None
    tag: Tag | None = None
    n: Count | None = None
    on: Day | None = None
    replaces: Name | None = None
    recheck: bool | None = None


class BirdWeight(Body):
    """One bird on the scales, grams."""

    bird: Name | None = None
    mass_g: float


class Weighed(Body):
    """Birds weighed on one day; at most 100 in an entry."""

    lot: Name | None = None
    birds: Annotated[list[BirdWeight], Field(max_length=100)] | None = None
    sex: Sex | None = None
    on: Day


class Scored(Body):
    """A bird judged by traits."""

    bird: Name
    on: Day
    scores: dict[str, float]
