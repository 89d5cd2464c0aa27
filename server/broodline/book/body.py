"""What every body is made of: strict values, shares, days and times.

Bodies are read strictly (no text becomes a number, true is no number); fields this version does not know are passed
over here and kept in the entry's bytes. The JSON schema of these models is what the phone checks bodies with.
"""

from collections.abc import Callable
from typing import Annotated, Any, ClassVar, Self

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, model_validator

from broodline.book.moments import day_of_text, moment_ms


def _kept_if(check: Callable[[str], object]) -> Callable[[str], str]:
    def keep(text: str) -> str:
        check(text)
        return text

    return keep


def _day_or_moment(text: str) -> object:
    return day_of_text(text) if len(text) == 10 else moment_ms(text)


Name = Annotated[str, Field(min_length=1)]
# No holding sets a million eggs; below that, sums stay whole numbers in every language.
Count = Annotated[int, Field(ge=1, le=1_000_000)]
CountOrNone = Annotated[int, Field(ge=0, le=1_000_000)]
Share = Annotated[float, Field(gt=0, le=1)]
Day = Annotated[str, AfterValidator(_kept_if(day_of_text)), Field(json_schema_extra={"format": "day"})]
Moment = Annotated[str, AfterValidator(_kept_if(moment_ms)), Field(json_schema_extra={"format": "moment"})]
DayOrMoment = Annotated[
    str, AfterValidator(_kept_if(_day_or_moment)), Field(json_schema_extra={"format": "day-or-moment"})
]


class Body(BaseModel):
    """A body, or a part of one; frozen once read."""

    model_config = ConfigDict(strict=True, extra="ignore", frozen=True)


def _name_the_choice(schema: dict[str, Any], model: type["BodyOfChoice"]) -> None:
    schema["needsOneOf"] = list(model.needs_one_of)


class BodyOfChoice(Body):
    """A body in which at least one of `needs_one_of` must be given."""

    model_config = ConfigDict(json_schema_extra=_name_the_choice)
    needs_one_of: ClassVar[tuple[str, ...]]

    @model_validator(mode="after")
    def _has_one(self) -> Self:
        for field in self.needs_one_of:
            if getattr(self, field) is not None:
                return self
        raise ValueError("one of these is needed: " + ", ".join(self.needs_one_of))


class BirdShare(Body):
    """A bird and its share among several, 0 to 1; without a share all count alike."""

    bird: Name
    share: Share | None = None
