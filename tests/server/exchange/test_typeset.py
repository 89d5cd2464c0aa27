"""Papers, read by pypdf: another hand than ours."""

import io
import re
from datetime import UTC, datetime
from pathlib import Path

import pypdf
import pytest

from broodline.errors import LettersLacking
from broodline.exchange import typeset
from broodline.exchange.typeset import PAPERS, print_paper, qr_picture
from tests.server.exchange.told_books import NOW

TEMPLATES = Path(typeset.__file__).parent / "papers"
SCREENS = Path(__file__).parents[3] / "pwa" / "src" / "app" / "words"

TOLD = {"holding": "Gorse Bank", "made": "2026-11-25", "year": 2026, "key": [], "marked": [], "worn": []}


def pages(content):
    return pypdf.PdfReader(io.BytesIO(content)).pages


def text_of(content):
    return "\n".join(page.extract_text() for page in pages(content))


def fonts_of(content):
    found = {}
    for page in pages(content):
        for font in page["/Resources"].get("/Font", {}).values():
            below = font.get_object()["/DescendantFonts"][0].get_object()["/FontDescriptor"]
            found[str(font.get_object()["/BaseFont"])] = any(key.startswith("/FontFile") for key in below)
    return found


def told(who):
    return {**TOLD, "marked": [{"on": "2026-03-30", "who": who, "webs": ["LO"], "words": "left outer"}]}


@pytest.mark.parametrize(("paper", "size"), [("a4", (595, 842)), ("us-letter", (612, 792))])
def test_a_paper_is_archivable_with_its_fonts_inside_and_of_the_size_asked_for(paper, size):
    printed = print_paper("marks", told("Rowan ♂ Köster"), paper=paper, now=NOW)
    assert printed.lacking == ()
    assert b"<pdfaid:part>2</pdfaid:part>" in printed.content  # ISO 19005-2, clause 6.6.4
    assert all(fonts_of(printed.content).values())
    assert any("Libertinus" in name for name in fonts_of(printed.content))
    box = pages(printed.content)[0].mediabox
    assert (round(box.width), round(box.height)) == size
    assert "Rowan ♂ Köster" in text_of(printed.content)


def test_the_same_paper_is_the_same_bytes():
    first, second = (print_paper("marks", told("Rowan"), paper="a4", now=NOW).content for _ in range(2))
    assert first == second
    later = print_paper("marks", told("Rowan"), paper="a4", now=datetime(2027, 1, 1, tzinfo=UTC)).content
    assert later != first


def test_a_letter_that_the_fonts_lack_is_an_error_that_names_it_and_the_words_around_it():
    with pytest.raises(LettersLacking) as refused:
        print_paper("marks", told("Rowan 中😀"), paper="a4", now=NOW)
    assert refused.value.letters == ("中", "😀")
    assert refused.value.message == "The fonts of papers lack 中 (U+4E2D), 😀 (U+1F600), in: Rowan 中😀."
    assert "--boxes" in refused.value.remedy


def test_where_boxes_are_asked_for_the_paper_tells_of_them():
    printed = print_paper("marks", told("Rowan 中😀"), paper="a4", now=NOW, boxes=True)
    assert printed.lacking == ("中", "😀")
    text = text_of(printed.content)
    assert "Rowan ▢▢" in text
    assert "fonts lack" in text
    assert "fonts lack" not in text_of(print_paper("marks", told("Rowan"), paper="a4", now=NOW).content)


@pytest.mark.parametrize("who", ["#panic()", "*bold* _it_ $x$ <a> @b", "\\", '"', "a\x00b", "\u200b\u202e", "x" * 4000])
def test_no_name_is_read_as_part_of_the_template(who):
    text = text_of(print_paper("marks", told(who), paper="a4", now=NOW, boxes=True).content)
    if who.isprintable():
        assert who in text.replace("\n", "")


def test_no_paper_speaks_to_a_keeper_of_options_of_a_command():
    """A paper hangs in the shed; what is named on it is what the screens name."""
    papers = sorted(TEMPLATES.glob("*.typ"))
    assert len(papers) > 8
    for paper in papers:
        printed = re.sub(r"//.*", "", paper.read_text(encoding="utf-8"))
        assert re.findall(r"`[^`]*`|\s--[a-z]", printed) == [], paper.name
    words = next(one for one in SCREENS.glob("pairing.ts")).read_text(encoding="utf-8")
    [chosen] = re.findall(r"plan anew with “([^”]+)”", (TEMPLATES / "matings.typ").read_text(encoding="utf-8"))
    assert f'kept: "{chosen}"' in words


def test_every_paper_size_is_known_and_a_code_is_a_picture():
    assert PAPERS == ("a4", "us-letter")
    assert qr_picture("https://book.example/setting/1").startswith("<svg")
