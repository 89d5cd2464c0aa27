"""A slow and obvious second opinion on the fold: every egg and chick is an object, corrections are found by search.

Debts are objects too: a chick that leaves a stage where none is left leaves a hole, so a stage may go below zero.
"""

from collections import Counter
from typing import Any

from pydantic import ValidationError

from broodline.book.kinds import KINDS

Document = dict[str, Any]


class Egg:
    """One egg or chick; worth is -1 for a hole."""

    def __init__(self, stage: str, worth: int = 1) -> None:
        self.stage = stage
        self.worth = worth


def count_eggs_one_by_one(documents: list[Document]) -> dict[str, dict[str, int]]:
    """Lot -> stage -> how many, for documents whose ids are all different."""
    counting = [(root, head) for root, head in heads(documents) if counts(root, head)]
    lots: dict[str, list[Egg]] = {}
    owner: dict[str, str | None] = {}
    for root, head in sorted(counting, key=lambda pair: str(pair[0]["id"])):
        if head["kind"] == "set":
            for lot in head["body"]["lots"]:
                if lot["lot"] not in lots:
                    lots[lot["lot"]] = [Egg("set") for _ in range(lot["n"])]
                    owner[lot["lot"]] = root["id"]
        if head["kind"] == "came" and head["body"].get("lot") and head["body"].get("n"):
            body = head["body"]
            if body["lot"] not in lots:
                lots[body["lot"]] = [Egg(body.get("stage") or "brooding") for _ in range(body["n"])]
                owner[body["lot"]] = None
    for _, head in counting:
        if head["kind"] == "moved":
            for move in head["body"]["moves"]:
                move_eggs(lots, move)
    return {lot: tally(eggs) for lot, eggs in lots.items()}


def move_eggs(lots: dict[str, list[Egg]], move: Document) -> None:
    if move.get("lot") is None:
        for lot in move["among"]:
            lots.setdefault(lot, [])
        return
    eggs = lots.setdefault(move["lot"], [])
    for _ in range(move["n"]):
        if move["from"] == move["to"]:
            continue
        here = [egg for egg in eggs if egg.stage == move["from"] and egg.worth == 1]
        if here:
            here[0].stage = move["to"]
        else:
            eggs.append(Egg(move["from"], worth=-1))
            eggs.append(Egg(move["to"]))


def tally(eggs: list[Egg]) -> dict[str, int]:
    found: Counter[str] = Counter()
    for egg in eggs:
        found[egg.stage] += egg.worth
    return {stage: n for stage, n in found.items() if n != 0}


def heads(documents: list[Document]) -> list[tuple[Document, Document]]:
    """(root, head) of every tree, by looking for children again and again."""
    known = {document["id"] for document in documents}
    found = []
    for root in documents:
        if root["amends"] is not None and root["amends"] in known:
            continue
        head = root
        while True:
            children = [one for one in documents if one["amends"] == head["id"]]
            if not children:
                break
            head = max(children, key=lambda one: str(one["id"]))
        found.append((root, head))
    return found


def counts(root: Document, head: Document) -> bool:
    if head["kind"] != root["kind"] or head["void"] or head["v"] > 1 or head["kind"] not in KINDS:
        return False
    try:
        KINDS[head["kind"]].model_validate(head["body"])
    except ValidationError:
        return False
    return True
