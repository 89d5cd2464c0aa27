"""What every body is made of: strict values, shares, days and times.

Bodies are read strictly (no text becomes a number, true is no number); fields this version does not know are passed
over here and kept in the entry's bytes. The JSON schema of these models is what the phone checks bodies with.
"""

from collections.abc import Callable, Mapping
from functools import cache
from typing import Annotated, Any, ClassVar, Self, get_args

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


def holds_more(body: Body, written: Mapping[str, Any]) -> bool:
    """Whether a body was written with fields its model does not know, at any depth."""
    if len(body.model_fields_set) < len(written):
        return True
    for name, alias in _parts_of(type(body)):
        part = getattr(body, name)
        parts, texts = (part, written[alias]) if isinstance(part, list) else ((part,), (written.get(alias),))
        if part is not None and any(map(holds_more, parts, texts)):
            return True
    return False


@cache
def _parts_of(model: type[Body]) -> tuple[tuple[str, str], ...]:
    """The fields that hold parts with fields of their own, and how they are written."""
    fields = model.model_fields.items()
    return tuple((name, field.alias or name) for name, field in fields if _part_in(field.annotation) is not None)


def _part_in(annotation: Any) -> type[Body] | None:
    """The model inside an annotation such as list[Part] | None."""
    if isinstance(annotation, type) and issubclass(annotation, Body):
        return annotation
    return next((part for inner in get_args(annotation) for part in (_part_in(inner),) if part is not None), None)


class BirdShare(Body):
    """A bird and its share among several, 0 to 1; without a share all count alike."""

    bird: Name
    share: Share | None = None
