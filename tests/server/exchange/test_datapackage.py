"""The data package, read back by the frictionless library: another hand than ours."""

import csv
import io
import json
import warnings
import zipfile

import pytest

from broodline.book.fold import fold
from broodline.book.wire import read_entry
from broodline.exchange.book_sheets import book_sheets
from broodline.exchange.datapackage import BOOK, DESCRIPTOR, package_files, package_zip
from broodline.exchange.sheet import FORMULA_STARTS, shielded, unshielded
from tests.server.book.odd_books import odd_book
from tests.server.exchange.told_books import FORMULAS, NOW, demo_entries, formula_entries

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    from frictionless import Package


def files_of(entries):
    standing = fold(entries)
    lines = b"".join(entry.canonical + b"\n" for entry in entries)
    return package_files(book_sheets(standing), lines, standing.keeper.holding, NOW)


def validated(files, folder):
    for name, content in files.items():
        (folder / name).write_bytes(content)
    return Package(str(folder / DESCRIPTOR)).validate()


def test_the_demos_package_is_valid_and_holds_every_bird_and_egg(tmp_path):
    entries = demo_entries()
    files = files_of(entries)
    report = validated(files, tmp_path)
    assert report.valid, report.to_summary()
    package = Package(str(tmp_path / DESCRIPTOR))
    tables = package.extract()
    standing = fold(entries)
    batches = tables["batches"]
    assert {row["batch_id"]: row["n"] for row in batches} == {lot.id: lot.n for lot in standing.lots.values()}
    hatched = sum(row["now_hatched"] + row["now_brooding"] + row["now_growing"] for row in batches)
    assert hatched == sum(
        lot.stages.get(stage, 0) for lot in standing.lots.values() for stage in ("hatched", "brooding", "growing")
    )
    assert len(tables["birds"]) > 50
    described = json.loads(files[DESCRIPTOR])["resources"]
    assert {one["path"]: one["bytes"] for one in described} == {
        name: len(content) for name, content in files.items() if name.endswith(".csv")
    }
    assert files[BOOK] == b"".join(entry.canonical + b"\n" for entry in entries)


@pytest.mark.parametrize("seed", range(3))
def test_the_package_of_an_odd_book_is_valid(tmp_path, seed):
    report = validated(files_of([read_entry(one) for one in odd_book(seed)]), tmp_path)
    assert report.valid, report.to_summary()


def test_no_cell_begins_like_a_formula_and_the_text_can_be_had_back(tmp_path):
    files = files_of(formula_entries())
    assert validated(files, tmp_path).valid
    cells = [
        cell
        for name, content in files.items()
        if name.endswith(".csv")
        for row in csv.reader(io.StringIO(content.decode(), newline=""))
        for cell in row
    ]
    assert [cell for cell in cells if cell.startswith(FORMULA_STARTS)] == []
    assert {unshielded(cell) for cell in cells} >= set(FORMULAS)
    assert [unshielded(shielded(text)) for text in (*FORMULAS, "'=x", "Rowan")] == [*FORMULAS, "'=x", "Rowan"]


def test_the_zip_is_the_same_for_the_same_book():
    packed = package_zip(files_of(demo_entries()), NOW)
    assert packed == package_zip(files_of(demo_entries()), NOW)
    with zipfile.ZipFile(io.BytesIO(packed)) as opened:
        assert opened.testzip() is None
        assert opened.namelist()[0] == DESCRIPTOR
