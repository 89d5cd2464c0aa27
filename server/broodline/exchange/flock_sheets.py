"""Sheets about families and birds: who they are, who came and left, pens, marks, weights, treatments, scores."""

from typing import cast

from broodline.book.birds import birds_of
from broodline.book.bodies_flock import Came, Left, Marked, Penned, Same, Scored, Weighed
from broodline.book.bodies_rooms import Treated
from broodline.book.moments import instant
from broodline.book.problems import stage_words
from broodline.book.standing import Standing
from broodline.exchange.cell_words import in_words
from broodline.exchange.cells import BATCH, ENTRY, WEBS, Names, Rows, day, ids, tag_words
from broodline.exchange.sheet import Column, Sheet
from broodline.trade.calendar import local_date

_FAMILIES = (
    Column("family_id", "string", "Family (id)"),
    Column("name", "string", "Name"),
    Column("species", "string", "Species"),
    Column("breed", "string", "Breed"),
    Column("variety", "string", "Variety"),
    Column("shell", "string", "Shell"),
    Column("sign", "string", "Sign on eggs"),
)
_BIRDS = (
    Column("bird_id", "string", "Bird (id)"),
    Column("label", "string", "Known by"),
    Column("name", "string", "Name"),
    Column("sex", "string", "Sex"),
    *ids("family", "Family"),
    Column("species", "string", "Species"),
    Column("breed", "string", "Breed"),
    Column("variety", "string", "Variety"),
    Column("hatched_on", "date", "Hatched on"),
    Column("tags", "string", "Rings and tags"),
    Column("webs", "string", "Webs marked", WEBS),
    Column("batch_ids", "string", "From batches (ids)", "several where it is not known from which"),
    Column("sires", "string", "Sires", "with their chance where several are possible"),
    Column("dams", "string", "Dams", "with their chance where several are possible"),
    Column("founder", "boolean", "Founder"),
    Column("origin", "string", "From"),
    Column("origin_keeper", "string", "Its keeper there"),
    Column("carries", "string", "Carries"),
    Column("where", "string", "Where", "here, lent or gone"),
)
_PARENTS = (
    *ids("bird", "Bird"),
    Column("parent_is", "string", "Parent is", "sire or dam"),
    *ids("parent", "Possible parent"),
    Column("share", "number", "Chance", "0 to 1; empty: all possible parents alike"),
)
_FROM_BATCHES = (
    *ids("bird", "Bird"),
    BATCH,
    Column("share", "number", "Chance", "0 to 1; empty: all possible batches alike"),
)
_CAME = (
    ENTRY,
    Column("on", "date", "On"),
    *ids("bird", "Bird"),
    BATCH,
    Column("n", "integer", "Chicks of the batch"),
    Column("stage", "string", "As what"),
    *ids("family", "Family"),
    Column("hatched_on", "date", "Hatched on"),
    Column("how", "string", "How"),
    Column("from", "string", "From"),
    Column("apart_until", "date", "Apart until"),
)
_LEFT = (
    ENTRY,
    Column("on", "date", "On"),
    *ids("bird", "Bird"),
    Column("how", "string", "How"),
    Column("cause", "string", "Cause"),
    Column("to", "string", "To"),
)
_PENS = (
    ENTRY,
    *ids("family", "Family"),
    *ids("place", "Place"),
    Column("since", "date", "Since"),
    Column("until", "date", "Until"),
    Column("sires", "string", "Cocks"),
    Column("dams", "string", "Hens"),
)
_MARKS = (
    ENTRY,
    Column("on", "date", "On"),
    *ids("bird", "Bird"),
    BATCH,
    Column("n", "integer", "Chicks"),
    Column("webs", "string", "Webs", WEBS),
    Column("tag", "string", "Ring or tag"),
    Column("recheck", "boolean", "Only looked at again"),
    Column("replaces_id", "string", "Instead of mark (entry id)"),
)
_JOINED = (
    ENTRY,
    *ids("bird", "Bird"),
    Column("one_id", "string", "One id"),
    Column("other_id", "string", "The other id"),
)
_WEIGHTS = (
    ENTRY,
    Column("on", "date", "On"),
    *ids("bird", "Bird"),
    BATCH,
    Column("sex", "string", "Sex"),
    Column("mass_g", "number", "Weight", "g"),
)
_TREATED = (
    ENTRY,
    *ids("bird", "Bird"),
    BATCH,
    *ids("place", "Place"),
    Column("product", "string", "Product"),
    Column("product_batch", "string", "Batch of the product"),
    Column("reason", "string", "Reason"),
    Column("by", "string", "By"),
    Column("from", "date", "From"),
    Column("until", "date", "Until"),
    Column("no_eggs_until", "date", "No eggs until"),
    Column("no_meat_until", "date", "No meat until"),
)
_SCORES = (
    ENTRY,
    Column("on", "date", "On"),
    *ids("bird", "Bird"),
    Column("trait", "string", "Trait"),
    Column("score", "number", "Score"),
)


def flock_sheets(standing: Standing) -> list[Sheet]:
    """What the book knows of families and birds."""
    names = Names(standing)
    families: Rows = [
        (one, body.name, body.species, body.breed, body.variety, body.shell, body.sign)
        for one, body in standing.families.items()
    ]
    return [
        Sheet("families", "Families", _FAMILIES, families, "family_id"),
        Sheet("birds", "Birds", _BIRDS, _bird_rows(standing, names), "bird_id"),
        Sheet("from_batches", "Possible batches", _FROM_BATCHES, _from_batches_rows(standing)),
        Sheet("joined", "Two ids, one bird", _JOINED, _joined_rows(standing, names), "entry_id"),
        Sheet("parents", "Possible parents", _PARENTS, _parent_rows(standing, names)),
        Sheet("came", "Came", _CAME, _came_rows(standing, names), "entry_id"),
        Sheet("left", "Left", _LEFT, _left_rows(standing, names), "entry_id"),
        Sheet("pens", "Pens", _PENS, _pen_rows(standing, names), "entry_id"),
        Sheet("marks", "Marks", _MARKS, _mark_rows(standing, names), "entry_id"),
        Sheet("weights", "Weights", _WEIGHTS, _weight_rows(standing, names)),
        Sheet("treatments", "Treatments", _TREATED, _treated_rows(standing, names), "entry_id"),
        Sheet("scores", "Scores", _SCORES, _score_rows(standing, names)),
    ]


def _bird_rows(standing: Standing, names: Names) -> Rows:
    return [
        (
            bird,
            one.label,
            one.body.name,
            one.body.sex,
            *names.family_cells(one.body.family),
            one.body.species,
            one.body.breed,
            one.body.variety,
            day(one.body.hatched_on),
            "; ".join(words for words in map(tag_words, one.body.tags or ()) if words) or None,
            " ".join(one.body.webs or ()) or None,
            " ".join(lot.lot for lot in one.body.lots or ()) or None,
            names.shares(one.body.sires),
            names.shares(one.body.dams),
            one.body.founder,
            None if one.body.origin is None else one.body.origin.holding,
            None if one.body.origin is None else one.body.origin.keeper,
            "; ".join(one.body.carries or ()) or None,
            one.where,
        )
        for bird, one in birds_of(standing, None).items()
    ]


def _parent_rows(standing: Standing, names: Names) -> Rows:
    rows: Rows = []
    for bird, one in birds_of(standing, None).items():
        for role, parents in (("sire", one.body.sires), ("dam", one.body.dams)):
            for parent in parents or ():
                named = names.bird_cells(parent.bird)
                rows.append((bird, one.label, role, *named, parent.share))
    return rows


def _from_batches_rows(standing: Standing) -> Rows:
    birds = birds_of(standing, None).items()
    return [(bird, one.label, lot.lot, lot.share) for bird, one in birds for lot in one.body.lots or ()]


def _came_rows(standing: Standing, names: Names) -> Rows:
    rows: Rows = []
    for head in standing.heads.get("came", ()):
        one = cast(Came, head.body)
        bird = names.bird_cells(one.bird)
        stage = None if one.stage is None else stage_words(one.stage)
        batch = (one.lot, one.n, stage, *names.family_cells(one.family), day(one.hatched_on))
        rows.append((head.id, day(one.on), *bird, *batch, one.how, one.from_, day(one.apart_until)))
    return rows


def _left_rows(standing: Standing, names: Names) -> Rows:
    rows: Rows = []
    for head in standing.heads.get("left", ()):
        one = cast(Left, head.body)
        rows.append((head.id, day(one.on), *names.bird_cells(one.bird), one.how, in_words("cause", one.cause), one.to))
    return rows


def _pen_rows(standing: Standing, names: Names) -> Rows:
    rows: Rows = []
    for head in standing.heads.get("penned", ()):
        one = cast(Penned, head.body)
        where = (*names.family_cells(one.family), *names.place_cells(one.place))
        rows.append((head.id, *where, day(one.since), day(one.until), names.shares(one.sires), names.shares(one.dams)))
    return rows


def _mark_rows(standing: Standing, names: Names) -> Rows:
    rows: Rows = []
    for head in standing.heads.get("marked", ()):
        one = cast(Marked, head.body)
        on = day(one.on or local_date(instant(head.at_ms), standing.keeper.zone))
        webs = " ".join(one.webs or ()) or None
        bird = names.bird_cells(one.bird)
        told = (webs, tag_words(one.tag), one.recheck, names.root(one.replaces))
        rows.append((head.id, on, *bird, one.lot, one.n, *told))
    return rows


def _joined_rows(standing: Standing, names: Names) -> Rows:
    told = [(head.id, cast(Same, head.body)) for head in standing.heads.get("same", ())]
    return [(entry, *names.bird_cells(one.bird), one.bird, one.as_) for entry, one in told]


def _weight_rows(standing: Standing, names: Names) -> Rows:
    rows: Rows = []
    for head in standing.heads.get("weighed", ()):
        one = cast(Weighed, head.body)
        for bird in one.birds or ():
            named = names.bird_cells(bird.bird)
            rows.append((head.id, day(one.on), *named, one.lot, one.sex, bird.mass_g))
    return rows


def _treated_rows(standing: Standing, names: Names) -> Rows:
    rows: Rows = []
    for head in standing.heads.get("treated", ()):
        one = cast(Treated, head.body)
        who = (*names.bird_cells(one.bird), one.lot, *names.place_cells(one.place))
        days = (day(one.from_), day(one.until), day(one.no_eggs_until), day(one.no_meat_until))
        rows.append((head.id, *who, one.product, one.batch, one.reason, one.by, *days))
    return rows


def _score_rows(standing: Standing, names: Names) -> Rows:
    rows: Rows = []
    for head in standing.heads.get("scored", ()):
        one = cast(Scored, head.body)
        bird = names.bird_cells(one.bird)
        rows += [(head.id, day(one.on), *bird, trait, score) for trait, score in sorted(one.scores.items())]
    return rows
