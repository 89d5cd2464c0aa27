"""Each kind of act is in a sheet, with each of its fields: with another value there, the sheets are others too."""

from collections.abc import Iterator
from copy import deepcopy
from datetime import datetime
from typing import Any, get_args

import pytest
from pydantic import BaseModel

from broodline.book.fold import fold
from broodline.book.kinds import KINDS
from broodline.book.wire import read_entry
from broodline.exchange.book_sheets import book_sheets
from broodline.exchange.cell_words import in_words
from broodline.trade.sources import read_table
from tests.book_writer import BookWriter
from tests.server.exchange.full_acts import FULL, PLACE

# What other cells say already.
IMPLIED = {("looked", "setting"): "a look is at a batch, and that lies in one setting"}


def sheets_of(acts: list[tuple[str, dict[str, Any]]]) -> list[tuple[str, Any]]:
    writer = BookWriter()
    for kind, body in acts:
        writer.write(kind, body)
    return [(sheet.name, sheet.rows) for sheet in book_sheets(fold([read_entry(one) for one in writer.documents]))]


WHOLE = sheets_of(FULL)


def leaves(body: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    if isinstance(body, dict):
        for name, value in body.items():
            yield from leaves(value, (*path, name))
    elif isinstance(body, list):
        for place, value in enumerate(body):
            yield from leaves(value, (*path, place))
    else:
        yield path


def another(model: type[BaseModel], path: tuple[str | int, ...], value: Any) -> Any:
    """A value of the same sort that a body may have there."""
    of: Any = model
    for name in path:
        if isinstance(name, str) and isinstance(of, type) and issubclass(of, BaseModel):
            of = next(one.annotation for key, one in of.model_fields.items() if name in (key, one.alias))
        of = next((one for one in all_args(of) if isinstance(one, type) and issubclass(one, BaseModel)), of)
    choices = [one for one in all_args(of) if isinstance(one, str) and one != value]
    if isinstance(value, bool):
        return not value
    if isinstance(value, int | float):
        return value / 2 if isinstance(value, float) else value + 1
    if choices:
        return choices[0]
    if value.startswith("20"):
        return f"{int(value[:4]) - 1}{value[4:]}"
    if value.startswith("0195"):
        return value[:-3] + "fff"
    return {"set": "locked", "UTC": "Europe/Dublin", "Europe/Dublin": "UTC"}.get(
        value, "cd" * 32 if len(value) == 64 else "goose"
    )


def all_args(of: Any) -> Iterator[Any]:
    yield of
    for one in get_args(of):
        yield from all_args(one)


def test_the_book_has_every_kind_and_every_field() -> None:
    """So that a field added to a body must be told here, and so in a sheet."""
    assert {kind for kind, _ in FULL} == set(KINDS)
    told: dict[type[BaseModel], set[str]] = {}

    def walk(model: type[BaseModel], body: dict[str, Any]) -> None:
        for name, one in model.model_fields.items():
            key = one.alias or name
            if key not in body:
                continue
            told.setdefault(model, set()).add(key)
            for inner in all_args(one.annotation):
                if isinstance(inner, type) and issubclass(inner, BaseModel):
                    for value in body[key] if isinstance(body[key], list) else [body[key]]:
                        walk(inner, value)

    for kind, body in FULL:
        walk(KINDS[kind], body)
    missing = {
        f"{model.__name__}.{one.alias or name}"
        for model, fields in told.items()
        for name, one in model.model_fields.items()
        if (one.alias or name) not in fields
    }
    assert missing == set()


@pytest.mark.parametrize("place", range(len(FULL)), ids=[kind for kind, _ in FULL])
def test_another_value_in_any_field_gives_other_sheets(place: int) -> None:
    kind, body = FULL[place]
    for path in leaves(body):
        if (kind, path[0]) in IMPLIED:
            continue
        acts = deepcopy(FULL)
        inner: Any = acts[place][1]
        for name in path[:-1]:
            inner = inner[name]
        inner[path[-1]] = another(KINDS[kind], path, inner[path[-1]])
        KINDS[kind].model_validate(acts[place][1])
        assert inner[path[-1]] != read(body, path)
        assert sheets_of(acts) != WHOLE, f"{kind}: {path}"


def read(body: Any, path: tuple[str | int, ...]) -> Any:
    for name in path:
        body = body[name]
    return body


def rows_of(name: str) -> list[Any]:
    return next(rows for sheet, rows in WHOLE if sheet == name)


def test_what_is_done_every_day_is_told_in_a_keepers_words() -> None:
    assert [row[1:3] + row[4:] for row in rows_of("rounds")] == [
        (PLACE, "Broody", "turned", "x"),
        (PLACE, "Broody", "vents", "x"),
        (PLACE, "Broody", "water", "x"),
    ]
    [checked] = rows_of("brooder_checks")
    assert checked[4:] == (33.5, "to one side", True, True, True)
    [gauge] = rows_of("gauge_checks")
    assert gauge[4:] == ("dry bulb", 37.5, 37.75, "fever glass")
    assert rows_of("counts")[0][3] == "in the setter"
    assert rows_of("left")[0][5] == "fox"


def test_a_task_put_off_is_not_told_as_done() -> None:
    writer = BookWriter()
    writer.keeper(zone="Australia/Sydney")
    for task, on in (
        ("drinkers", "2026-03-01"),
        ("drinkers", "2026-03-02"),
        ("air", "2026-03-01T20:00:00Z"),
        ("air", "2026-03-01T07:00:00Z"),
    ):
        writer.write("care", {"task": task, "on": on})
    rows = next(sheet.rows for sheet in book_sheets(fold(writer.entries())) if sheet.name == "tasks")
    hours = [row[6].hour if isinstance(row[6], datetime) else None for row in rows]
    told = [(str(row[3]), row[4], row[5], hour) for row, hour in zip(rows, hours, strict=True)]
    assert told == [
        ("2026-03-01", "drinkers cleaned", "done", None),
        ("2026-03-02", "drinkers cleaned", "put off", None),
        ("2026-03-02", "alarm of the air", "put off", 20),
        ("2026-03-01", "alarm of the air", "done", 7),
    ]


def test_every_cause_and_task_of_the_tables_has_words() -> None:
    causes = read_table("stages")["causes"]
    tasks = [*read_table("agenda")["tasks"], *read_table("brood_tasks")["tasks"]]
    assert len(causes) > 10
    assert len(tasks) > 15
    own_act = {"candle", "lockdown", "hatch", "pull", "open", "set"}  # the real act is their entry
    said = {code: in_words("task", code) for code in tasks if code not in own_act}
    assert [code for code, words in said.items() if words in (None, code)] == []
    assert not [words for words in (in_words("cause", code) for code in causes) if "_" in str(words)]
