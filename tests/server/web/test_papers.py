"""What stands on each paper, of the demo's book and of odd ones; the story is told in seed_scenario/README.md."""

import json
import re
from datetime import date, timedelta

import pytest

from broodline.book.birds import birds_of
from broodline.book.fold import fold
from broodline.book.wire import read_entry
from broodline.errors import EnvelopeError, NotFound
from broodline.reports.family import family_report
from broodline.reports.matings import Wishes, matings_report
from broodline.reports.setting import setting_report
from broodline.web.papers import (
    Wanted,
    away_paper,
    bird_paper,
    cards_paper,
    inspection_paper,
    marks_paper,
    matings_paper,
    season_paper,
    setting_paper,
    tally_paper,
    wanted_days,
    wanted_paper,
)
from tests.book_writer import START, BookWriter
from tests.server.book.odd_books import odd_book
from tests.server.exchange.test_typeset import pages, text_of
from tests.server.exchange.told_books import NOW, demo_book, demo_entries

WANTED = Wanted(NOW, None, "https://book.example")
TODAY = NOW.date()


@pytest.fixture(scope="module")
def demo():
    return demo_book()


def settings_of(standing):
    return sorted(standing.settings.values(), key=lambda one: one.set_at_ms)


def test_cards_and_the_card_to_count_on_name_each_family_with_its_sign(demo):
    setting = settings_of(demo)[-1]
    for printed in (cards_paper(demo, setting.id, WANTED), tally_paper(demo, setting.id, WANTED)):
        text = text_of(printed.content)
        for name in ("Rowan", "Hazel", "Alder", "Birch"):
            assert name in text
    # set a week ago at 5:40 (the story); lockdown on day 18, hatch on day 21 (tables/species.json)
    text = text_of(cards_paper(demo, setting.id, WANTED).content)
    assert all(words in text for words in ("18 Nov 2026, 05:40", "6 Dec 2026", "9 Dec 2026"))


def test_a_setting_tells_its_hatch(demo):
    setting = next(one for one in reversed(settings_of(demo)) if not one.runs)
    text = text_of(setting_paper(demo, setting.id, WANTED).content)
    assert "51 of 80 eggs hatched" in " ".join(text.split())
    with pytest.raises(NotFound):
        setting_paper(demo, "nothing", WANTED)
    with pytest.raises(NotFound):
        cards_paper(demo, "nothing", WANTED)


def test_a_hatch_fits_on_one_sheet_with_its_curves_and_its_power_cut(demo):
    setting = next(one for one in reversed(settings_of(demo)) if not one.runs)
    printed = setting_paper(demo, setting.id, WANTED)
    text = " ".join(text_of(printed.content).split())
    assert len(pages(printed.content)) == 1
    # Weighed on days 0, 7, 14 and 18 (the story); half of 51 chicks out after 500 hours is day 20.8.
    assert "day 0: 0 %; day 7: 4.5 %; day 14: 9.3 %; day 18: 12 %" in text
    assert "The hatch: half out by day 20.8" in text
    assert "no power for 2.2 hours" in text


def test_two_trays_weighed_are_told_apart():
    book = BookWriter()
    box = book.incubator()
    one, other = book.lot(), book.lot()
    rowan = book.family("Rowan")
    setting = book.set_eggs(box, [(one, rowan, 10), (other, rowan, 10)])
    for days, grams in ((0, {one: 600, other: 500}), (7, {one: 576, other: 490})):
        for lot, gross_g in grams.items():
            body = {"setting": setting, "lot": lot, "n": 10, "gross_g": gross_g, "tare_g": 0}
            book.write("eggs_weighed", body, at=START + timedelta(days=days))
    text = " ".join(text_of(setting_paper(fold(book.entries()), setting, WANTED).content).split())
    assert text.count("day 7: 4 %") == 1  # 24 of 600 g
    assert text.count("day 7: 2 %") == 1  # 10 of 500 g


def test_while_eggs_are_in_no_share_of_them_is_called_hatched(demo):
    running = settings_of(demo)[-1]
    text = " ".join(text_of(setting_paper(demo, running.id, WANTED).content).split())
    assert text.count("not yet") == 2 * len(running.lots)
    assert "0 % (0 to" not in text


def test_the_card_to_count_on_tells_the_eggs_that_are_still_in(demo):
    # 46 eggs set, 41 in the shell at today's candling (the story): 13 of Rowan's 14, 8 of 10, 10 of 12, 10 of 10.
    text = " ".join(text_of(tally_paper(demo, settings_of(demo)[-1].id, WANTED).content).split())
    for inside in ("Rowan sign R 13 of 14", "Hazel sign H 8 of 10", "Alder sign A 10 of 12"):
        assert text.count(inside) == 2, inside
    assert text.count("Birch sign B 10") == 3


def test_a_source_of_several_causes_stands_once_beside_its_finding(demo):
    patterns = [(setting, setting_report(demo, setting.id, NOW)["pattern"]) for setting in settings_of(demo)]
    setting, (finding,) = next((setting, found) for setting, found in reversed(patterns) if len(found) == 1)
    sources = [cause["source"] for cause in finding["causes"]]
    assert len(set(sources)) < len(sources)
    text = " ".join(text_of(setting_paper(demo, setting.id, WANTED).content).split())
    for source in {*sources, finding["source"]}:
        title = source.partition(" (")[0]
        assert text.count(title) == 1, title
    assert all(cause["words"] in text for cause in finding["causes"])


def test_the_sheet_for_whoever_stays_has_the_lockdown_on_its_day(demo):
    # Hazel and Birch were set 16 days ago: day 18 is the day after tomorrow
    text = text_of(away_paper(demo, TODAY, date(2026, 12, 5), WANTED).content)
    days = text.split("day, ")
    assert any(part.startswith("27 Nov 2026") and "Lock down Loft box" in part for part in days)
    assert "Call me" in text


def test_for_an_inspector_the_days_are_those_asked_for():
    writer = BookWriter()
    writer.keeper()
    rowan = writer.family("Rowan")
    cock = writer.write("bird", {"name": "Bram", "sex": "male", "family": rowan})
    hen = writer.write("bird", {"name": "Una", "sex": "female", "family": rowan})
    writer.write("came", {"bird": cock, "on": "2026-03-02", "how": "bought", "from": "Whin Cottage"})
    writer.write("left", {"bird": hen, "on": "2026-03-05", "how": "died", "cause": "predator_fox"})
    writer.write("treated", {"bird": cock, "product": "Wormer", "from": "2026-02-01", "until": "2026-03-01"})
    writer.write("eggs_out", {"family": rowan, "on": "2026-03-03", "n": 6, "how": "sold", "to": "a neighbour"})
    standing = fold(writer.entries())

    def told(first, last):
        return text_of(inspection_paper(standing, date(2026, *first), date(2026, *last), WANTED).content)

    march = told((3, 1), (3, 31))
    assert all(words in march for words in ("Whin Cottage", "Una", "Wormer", "a neighbour", "fox"))
    assert "predator_" not in march
    april = told((4, 1), (4, 30))
    assert not any(words in april for words in ("Whin Cottage", "Una", "Wormer", "a neighbour"))
    assert "Here on 30 Apr 2026" in april
    # made on 25 Nov: of later days nothing is known
    ahead = told((11, 1), (12, 31))
    assert "Here on 25 Nov 2026" in ahead
    assert "Dec 2026" not in ahead


def test_a_birds_paper_names_its_possible_parents_with_chances(demo):
    bird = next(one for one in birds_of(demo, None).values() if one.label == "green A60")
    text = text_of(bird_paper(demo, bird.id, WANTED).content)
    # one cock and five hens stand in Alder's pen: each hen is the dam by one in five
    assert "green A1M" in text
    assert "Certificate of hatch: green A60" in text
    assert text.count("20 %") == 5
    # How far back it is known stands beside the figure; of a bird with no forebears written there is none.
    assert re.search(r"\d+\.\d % \(.* with 3\.9 generations of forebears\s+known", text)
    founder = next(one for one in birds_of(demo, None).values() if one.label == "white B1M")
    paper = " ".join(text_of(bird_paper(demo, founder.id, WANTED).content).split())
    assert "a founder of the line here: its own forebears are not known" in paper
    assert "Pedigree: white B1M" in paper, "no hatch of it is in this book"
    assert "Gorse Bank, made 25 Nov 2026" in paper
    with pytest.raises(NotFound):
        bird_paper(demo, "nothing", WANTED)


def test_papers_of_a_holding_without_a_name_say_when_they_were_made():
    writer = BookWriter()
    bird = writer.write("bird", {"name": "Una", "sex": "female"})
    text = words_of(bird_paper(fold(writer.entries()), bird, WANTED))
    assert "Keeper, and day" in text
    assert "Made 25 Nov 2026" in text
    assert ", made" not in text


def words_of(printed):
    return " ".join(text_of(printed.content).split())


def test_the_pens_of_next_season_print_as_the_report_has_them(demo):
    text = words_of(matings_paper(demo, Wishes(), WANTED))
    report = matings_report(demo, Wishes(), NOW)
    known = {bird["bird"]: f"{bird['completeness']:.1f}" for bird in family_report(demo, NOW)["birds"]}
    founders = {one.id for one in birds_of(demo, None).values() if one.body.founder}
    pens = text.split("In no pen:")[0].split("Pen ")[1:]
    assert len(pens) == len(report["pens"]) == 4
    for told, pen in zip(pens, report["pens"], strict=True):
        for bird in (*pen["sires"], *pen["dams"]):
            after = told.split(f"{pen['labels'][bird]} {'cock' if bird in pen['sires'] else 'hen'} ")[1]
            far = known[bird] if known[bird] != "0.0" else "founder" if bird in founders else "none"
            assert far in after.split()[:6]
        assert "written down" in told if pen["mean_F"] is None else f"{100 * pen['mean_F']:.1f} %" in told
    against = report["compared_with"]
    for words, mean in (("This plan", report["mean_F"]), ("today", against["today"]), ("random", against["random"])):
        assert text.split("on average")[-1].split(words)[1].split("%")[0].strip() == f"{100 * mean:.1f}"
    assert "not known)" not in " ".join(text.split()), (
        "of whom the line begins is known, and of all others it is written"
    )
    assert " ".join(report["rotation"]["moves"]) in text
    assert report["rotation"]["words"] in text
    assert "carries on red R1M" in text
    assert "every cock and every hen is taken to count alike" in text
    # of equal plans that of birds worth keeping is taken; one asked for in any case is told where it is not among them
    assert "not among these" not in text
    asked = Wishes(must=frozenset({"yellow H52"}))
    assert "not among these: yellow H52." in words_of(matings_paper(demo, asked, WANTED))
    assert "are left out of these averages" in text
    assert "not among these" not in words_of(matings_paper(demo, Wishes(kept=True), WANTED))


def test_pens_that_cannot_be_and_forebears_nobody_knows_are_told_so():
    writer = BookWriter()
    writer.keeper()
    rowan = writer.family("Rowan")
    for name, sex in (("Bram", "male"), ("Una", "female"), ("Wren", "female")):
        writer.write("bird", {"name": name, "sex": sex, "family": rowan})
    standing = fold(writer.entries())
    text = words_of(matings_paper(standing, Wishes(), WANTED))
    assert "No inbreeding that is known of; not all their forebears are written down." in text
    assert text.count("none not known") == 2  # each hen: no forebears, and so no figure for her chicks
    none = words_of(matings_paper(standing, Wishes(pens=2), WANTED))
    assert "No plan fits these limits." in none
    assert "2 pens of 1 need 2 cocks; there are 1." in none


def test_the_country_says_the_size_of_the_sheets():
    writer = BookWriter()
    writer.keeper(region="us", mark_key={"LI+RO": "Hazel 2026"})
    printed = marks_paper(fold(writer.entries()), 2026, WANTED)
    assert round(pages(printed.content)[0].mediabox.width) == 612
    assert "left inner, right outer" in text_of(printed.content)


@pytest.mark.parametrize("seed", range(6))
def test_odd_books_have_their_papers(seed):
    standing = fold([read_entry(one) for one in odd_book(seed)])
    wanted = Wanted(NOW, None, "https://book.example", boxes=True)
    made = [season_paper(standing, 2026, wanted), marks_paper(standing, 2026, wanted)]
    made += [inspection_paper(standing, date(1, 1, 1), date(9999, 12, 31), wanted)]
    made += [away_paper(standing, TODAY, TODAY, wanted), matings_paper(standing, Wishes(), wanted)]
    made += [bird_paper(standing, bird, wanted) for bird in [*birds_of(standing, None)][:2]]
    for setting in [*standing.settings][:2]:
        made += [make(standing, setting, wanted) for make in (setting_paper, cards_paper, tally_paper)]
    assert all(printed.content.startswith(b"%PDF") for printed in made)


def test_days_and_sizes_are_read_or_refused():
    assert wanted_days(None, None, TODAY, 7) == (TODAY, date(2026, 12, 2))
    assert wanted_days(None, None, TODAY, -365) == (date(2025, 11, 25), TODAY)
    assert wanted_days("2026-01-01", "2026-01-01", TODAY, 7) == (date(2026, 1, 1), date(2026, 1, 1))
    for first, last in (("2026-02-30", None), ("2026-02-02", "2026-02-01"), ("soon", None)):
        with pytest.raises(EnvelopeError):
            wanted_days(first, last, TODAY, 7)
    assert wanted_paper("a4") == "a4"
    with pytest.raises(EnvelopeError):
        wanted_paper("a5")


def test_every_paper_says_the_keepers_own_words(demo):
    """The demo's book of a keeper who says line and hatch: no paper says family or setting."""
    book = [json.loads(one.canonical) for one in demo_entries()]
    keeper = max((one for one in book if one["kind"] == "keeper"), key=lambda one: one["id"])
    words = {**keeper["body"], "words": {"family": "line", "hatch": "hatch"}}
    amended = {**keeper, "id": "01ffffff-ffff-7000-8000-000000000000", "amends": keeper["id"], "body": words}
    standing = fold([read_entry(one) for one in (*book, amended)])
    assert standing.keeper.words == words["words"]
    setting = next(one for one in reversed(settings_of(standing)) if not one.runs).id
    bird = next(one.id for one in birds_of(standing, None).values() if one.label == "green A60")
    days = (date(2026, 1, 1), date(2026, 12, 31))
    made = [
        season_paper(standing, 2026, WANTED), marks_paper(standing, 2026, WANTED),
        *(make(standing, setting, WANTED) for make in (setting_paper, cards_paper, tally_paper)),
        away_paper(standing, TODAY, date(2026, 12, 20), WANTED), inspection_paper(standing, *days, WANTED),
        matings_paper(standing, Wishes(), WANTED), bird_paper(standing, bird, WANTED),
    ]  # fmt: skip
    iso = [re.findall(r"\d{4}-\d\d(?:-\d\d)?", words_of(one)) for one in made]
    assert iso == [[]] * len(made), "days are written as the keeper's region has them"
    said = [re.findall(r"(?i)\S* \b(?:famil(?:y|ies)|settings?)\b \S*", words_of(one)) for one in made]
    assert said == [[]] * len(made)
    assert sum("line" in words_of(one).lower() for one in made) >= 5
