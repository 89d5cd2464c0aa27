"""A slow and obvious second opinion on the agenda: walk through the days of each setting with a finger.

Reads plain documents (no corrections among them), replays every move, and asks of each day what falls on it.
"""

from collections import Counter
from datetime import UTC, date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

Document = dict[str, Any]
CHICKS = {"hatched", "brooding", "growing", "flock", "died", "culled", "parted"}
# candling days, lockdown, window: Texas A&M B-6092 (read on a copy); candling UF1112 and MSU P1150
DAYS = {"chicken": ([7, 14], 18, 21, 21), "duck": ([7, 14], 25, 28, 28), "coturnix": ([7], 15, 17, 18)}


def moment(text: str) -> datetime:
    return datetime.fromisoformat(text.replace("Z", "+00:00"))


class Story:
    """One setting as told by the documents."""

    def __init__(self, founding: Document, documents: list[Document], zone: ZoneInfo) -> None:
        body = founding["body"]
        self.id, self.place, self.zone = founding["id"], body["place"], zone
        self.set_at = moment(body["set_at"])
        self.candle, lockdown, self.first, self.last = DAYS[body["species"]]
        self.lockdown = body.get("lockdown_day", lockdown)
        dark = [self.family_is_dark(lot.get("family"), documents) for lot in body["lots"]]
        if all(dark):  # nothing is seen through such a shell before day 10: common practice, no source
            self.candle = [10 if day == 7 else day for day in self.candle]
        self.lots = {lot["lot"]: Counter({"set": lot["n"]}) for lot in body["lots"]}
        self.whole = Counter({"set": sum(lot["n"] for lot in body["lots"])})
        self.locked = [one for one in documents if one["kind"] == "locked" and one["body"]["setting"] == self.id]
        self.looks = [one for one in documents if one["kind"] == "looked" and one["body"]["lot"] in self.lots]
        self.moves: list[tuple[datetime, Document]] = []
        for one in documents:
            for move in one["body"]["moves"] if one["kind"] == "moved" else []:
                if move.get("lot") in self.lots or set(move.get("among", [])) & set(self.lots):
                    self.take(moment(one["at"]), move)
        # For each egg that left the setter without its family being known: the lots it may be of.
        self.strays = [
            sorted(set(move["among"]))
            for one in documents
            for move in (one["body"]["moves"] if one["kind"] == "moved" else [])
            if move["from"] == "set" and move["to"] != "set" and set(move.get("among", [])) & set(self.lots)
            for _ in range(move["n"])
        ]
        self.chicks = sorted(
            (at, move["n"]) for at, move in self.moves if move["to"] == "hatched" and move["from"] not in CHICKS
        )

    @staticmethod
    def family_is_dark(family: str | None, documents: list[Document]) -> bool:
        return any(one["id"] == family and one["body"].get("shell") == "dark" for one in documents)

    def take(self, at: datetime, move: Document) -> None:
        self.moves.append((at, move))
        for stages in (self.whole, self.lots.get(move.get("lot", ""))):
            if stages is not None:
                stages[move["from"]] -= move["n"]
                stages[move["to"]] += move["n"]

    def at(self, day: float) -> datetime:
        return self.set_at + timedelta(hours=24 * day)

    def on(self, at: datetime) -> date:
        return at.astimezone(self.zone).date()

    def hatcher(self) -> str:
        places = [one["body"]["place"] for one in self.locked if "place" in one["body"]]
        return places[0] if places else self.place

    def resting(self) -> int:
        return max(0, self.whole["set"]) + max(0, self.whole["locked"])

    def opening(self) -> datetime:
        over = self.at(self.last + 1)
        return max(over, self.chicks[-1][0] + timedelta(hours=24)) if self.chicks else over + timedelta(hours=24)

    def asks(self, now: datetime) -> list[tuple[str, datetime, str, int, date, date]]:
        """(task, at, place, n, due, since) of everything this setting still asks for."""
        found = []
        for day in range(200):
            if day in self.candle and day < self.lockdown:
                found += self.candling(day, now)
        if self.resting() and not self.locked:
            at = self.at(self.lockdown)
            found.append(("lockdown", at, self.place, self.resting(), self.on(at), self.on(at - timedelta(days=2))))
        found += self.hatching(now)
        still = self.whole["hatched"]
        for at, n in reversed(self.chicks):
            if 0 < still <= n:
                due = at + timedelta(hours=24)
                found.append(("pull", due, self.hatcher(), self.whole["hatched"], self.on(due), self.on(at)))
            still -= n
        shut = self.resting() + max(0, self.whole["unhatched"])
        if shut and now >= self.at(self.lockdown):
            at = self.opening()
            found.append(("open", at, self.hatcher(), shut, self.on(at), self.on(at)))
        return found

    def candling(self, day: int, now: datetime) -> list[tuple[str, datetime, str, int, date, date]]:
        later = [other for other in self.candle if day < other < self.lockdown]
        end = self.at(later[0] - 2) if later else self.at(self.lockdown)
        if self.locked or now >= end:
            return []
        hands = {lot: self.in_hand(lot, day) for lot in self.lots}
        for egg_could_be_of in self.strays:
            for lot in egg_could_be_of:
                if hands[lot] > 0:
                    hands[lot] -= 1
                    break
        waiting = sum(hands.values())
        at = self.at(day)
        return [("candle", at, self.place, waiting, self.on(at), self.on(self.at(day - 2)))] if waiting else []

    def in_hand(self, lot: str, day: int) -> int:
        """Eggs of a lot left over after taking out, one by one, those of the best attended day of this candling."""
        looks = [one["body"] for one in self.looks if one["body"]["lot"] == lot and one["body"]["what"] == "candled"]
        days = {look["day"] for look in looks if look["day"] >= day - 2}
        if not days and any(
            move.get("lot") == lot
            and move["from"] == "set"
            and move["to"] in ("clear", "blood_ring", "quitter")
            and at >= self.at(day - 2)
            for at, move in self.moves
        ):
            return 0
        left = [max(0, self.lots[lot]["set"])]
        for one in days:
            eggs = self.lots[lot]["set"]
            for look in looks:
                eggs -= (look.get("live", 0) + look.get("unsure", 0)) * (look["day"] == one)
            left.append(max(0, eggs))
        return min(left)

    def hatching(self, now: datetime) -> list[tuple[str, datetime, str, int, date, date]]:
        if not self.resting() or now >= self.opening():
            return []
        day = max(self.on(self.at(self.first)), self.on(now))
        looked = [moment(one["at"]) for one in self.looks if one["body"]["what"] == "hatch"]
        if any(self.on(at) >= day for at in [*looked, *(at for at, _ in self.chicks)]):
            return []
        return [("hatch", self.at(self.first), self.hatcher(), self.resting(), day, day)]


def chicks_of(lot: str, documents: list[Document]) -> Counter[str]:
    """Where the eggs or chicks of a lot are, by replaying every move."""
    stages: Counter[str] = Counter()
    for one in documents:
        if one["kind"] == "set":
            stages["set"] += sum(sown["n"] for sown in one["body"]["lots"] if sown["lot"] == lot)
        if one["kind"] == "came" and one["body"].get("lot") == lot:
            stages[one["body"].get("stage", "brooding")] += one["body"]["n"]
        for move in one["body"]["moves"] if one["kind"] == "moved" else []:
            if move.get("lot") == lot:
                stages[move["from"]] -= move["n"]
                stages[move["to"]] += move["n"]
    return stages


def marked(documents: list[Document], zone: ZoneInfo) -> list[tuple[Any, ...]]:
    """(lot, setting, place, task, at, n, due, since) of what marked chicks ask for: walk on from each mark, day by day.

    Webs again after 14 days (Slocum, c. 1920), two days early counts; rings every 7 days (from memory) for 182 days.
    """
    day_of = lambda one: date.fromisoformat(  # noqa: E731
        one["body"].get("on") or moment(one["at"]).astimezone(zone).date().isoformat()
    )
    found = []
    marks = sorted((one for one in documents if one["kind"] == "marked"), key=lambda one: (one["at"], one["id"]))
    for lot in sorted({one["body"]["lot"] for one in marks}):
        own = [one for one in marks if one["body"]["lot"] == lot]
        stages = chicks_of(lot, documents)
        alive = sum(max(0, stages[stage]) for stage in ("hatched", "brooding", "growing", "flock"))
        founding = [
            one for one in documents if one["kind"] == "set" and lot in [sown["lot"] for sown in one["body"]["lots"]]
        ]
        setting = founding[0]["id"] if founding else None
        place = founding[0]["body"]["place"] if founding else ""
        for one in documents:
            if one["kind"] == "locked" and one["body"]["setting"] == setting:
                place = one["body"].get("place", place)
        moves = sorted((one for one in documents if one["kind"] == "moved"), key=lambda one: (one["at"], one["id"]))
        for one in moves:
            for move in one["body"]["moves"]:
                if move.get("lot") == lot and move["to"] in ("brooding", "growing", "flock"):
                    place = one["body"].get("place", place)
        if alive <= 0:
            continue
        webs = [one for one in own if one["body"].get("webs") and not one["body"].get("recheck")]
        for look in (one for one in own if one["body"].get("recheck")):
            pattern = sorted(set(look["body"].get("webs", [])))
            of_it = [one for one in webs if not pattern or sorted(set(one["body"]["webs"])) == pattern]
            webs = [one for one in webs if one not in of_it or (day_of(look) - day_of(one)).days < 12]
        if webs:
            n = sum(one["body"].get("n", alive) for one in webs)
            day = day_of(webs[0])
            at = moment(webs[0]["at"]) + (day - moment(webs[0]["at"]).astimezone(zone).date()) + timedelta(days=14)
            many = None if min(stages.values()) < 0 else min(n, alive)  # nobody can say how many
            row = (many, day + timedelta(days=14), day + timedelta(days=12))
            found.append((lot, setting, place, "webs_again", at, *row))
        rings = [one for one in own if one["body"].get("tag", {}).get("kind") == "ring"]
        growing = alive - max(0, stages["flock"])
        if rings and growing > 0:
            first = day_of(rings[0])
            looks = {day_of(one) for one in rings} | {
                date.fromisoformat(one["body"]["on"])
                for one in documents
                if one["kind"] == "care" and one["body"]["task"] == "rings" and one["body"].get("place", place) == place
            }
            last, day = first, first
            while day <= max(looks):
                last, day = (day if day in looks else last), day + timedelta(days=1)
            due = last + timedelta(days=7)
            if due <= first + timedelta(days=182):
                at = moment(rings[0]["at"]) + (due - moment(rings[0]["at"]).astimezone(zone).date())
                n = None if min(stages.values()) < 0 else growing  # nobody can say how many
                found.append((lot, setting, place, "rings", at, n, due, due))
    return found


def agenda(documents: list[Document], now: datetime) -> list[dict[str, Any]]:
    """Tasks in order, without words: due, at, place, setting, task, n, overdue."""
    zone = ZoneInfo(next((one["body"]["zone"] for one in documents if one["kind"] == "keeper"), "UTC"))
    cares = [one["body"] for one in documents if one["kind"] == "care"]
    today = now.astimezone(zone).date()
    week = (now + timedelta(days=7)).astimezone(zone).date()
    tasks = []
    for founding in documents:
        if founding["kind"] != "set" or founding["body"]["species"] not in DAYS:
            continue
        story = Story(founding, documents, zone)
        for task, at, place, n, due, since in story.asks(now):
            cared = any(
                care["task"] == task and care.get("place", place) == place and date.fromisoformat(care["on"]) >= since
                for care in cares
            )
            if due <= week and not cared:
                tasks.append(
                    {
                        "due": due.isoformat(),
                        "at": at.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z"),
                        "place": place,
                        "setting": story.id,
                        "task": task,
                        "n": n,
                        "overdue": due < today,
                        "lot": None,
                    }
                )
    for lot, setting, place, name, at, n, due, since in marked(documents, zone):
        cared = any(
            care["task"] == name and care.get("place", place) == place and date.fromisoformat(care["on"]) >= since
            for care in cares
        )
        if due <= week and not cared:
            tasks.append(
                {
                    "due": due.isoformat(),
                    "at": at.astimezone(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z"),
                    "place": place,
                    "setting": setting,
                    "task": name,
                    "n": n,
                    "overdue": due < today,
                    "lot": lot,
                }
            )
    return sorted(
        tasks,
        key=lambda one: (
            not one["overdue"],
            one["at"],
            one["place"],
            one["setting"] or "",
            one["task"],
            one["lot"] or "",
        ),
    )
