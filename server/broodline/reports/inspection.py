"""For an inspector: what came and went, was treated and died between two days, as it is written in the book."""

from collections import Counter
from collections.abc import Iterator, Sequence
from datetime import date
from itertools import chain
from typing import Any, cast

from broodline.book.birds import NEVER_HERE, bird_id, birds_of
from broodline.book.bodies_eggs import EggsOut, Moved
from broodline.book.bodies_flock import Came, Left
from broodline.book.bodies_rooms import Order, Treated
from broodline.book.kept_here import found_again, kept_here
from broodline.book.moments import instant
from broodline.book.out_of_shell import out_of_shell
from broodline.book.stages import NOT_WRITTEN
from broodline.book.standing import Move, Standing
from broodline.book.whereabouts import LIVING
from broodline.trade.calendar import local_date
from broodline.trade.counted import many

_DEAD = ("died", "culled", "lost")
_BATCH_ENDS = {"died": "died", "culled": "culled", "unaccounted": "missing", "parted": "sold or given"}


def inspection(standing: Standing, first: date, last: date) -> dict[str, Any]:
    """{came, left, deaths, treated, eggs, hatched, orders, here, batches, problems}: all from `first` to `last`, both
    included, by local days; `here` and `batches` as of `last`, `batches` of lots of which no bird is written down by
    itself. A treatment or order counts if any of its days is within, a treatment also while eggs or meat are held back
    by what was given `before`."""
    told = _Told(standing, first.isoformat(), last.isoformat())
    problems = len(standing.problems)
    return {
        "came": told.came(),
        **told.gone(),
        "treated": told.treated(),
        "eggs": told.eggs(),
        "hatched": told.hatched(),
        "orders": told.orders(),
        "here": told.here(),
        "batches": told.batches(),
        "problems": "" if problems == 0 else f"Things in the book that are still to be settled: {problems}.",
    }


class _Told:
    def __init__(self, standing: Standing, first: str, last: str) -> None:
        self._standing, self._first, self._last = standing, first, last
        self._birds = birds_of(standing, last)
        self._kept = kept_here(standing, last)
        self._zone = standing.keeper.zone

    def _within(self, on: str) -> bool:
        return self._first <= on[:10] <= self._last

    def _day(self, ms: int) -> str:
        return local_date(instant(ms), self._zone)

    def _bird(self, name: str) -> str:
        known = self._birds.get(bird_id(self._standing, name))
        return known.label if known is not None else "a bird"

    def _family(self, name: str | None) -> str:
        known = self._standing.families.get(self._standing.root_of.get(name or "", name or ""))
        return known.name if known is not None else "unknown family"

    def _batch(self, name: str) -> str:
        lot = self._standing.lots.get(name)
        return "a batch" if lot is None else f"batch of {self._family(lot.family)}"

    def came(self) -> list[dict[str, Any]]:
        found = []
        for head in self._standing.heads.get("came", ()):
            one = cast(Came, head.body)
            if self._within(one.on):
                chicks = "? chicks" if one.n is None else many(one.n, "chick")
                what = self._bird(one.bird) if one.bird else f"{chicks}, {self._family(one.family)}"
                row = {"on": one.on, "what": what, "how": one.how, "from": one.from_, "apart_until": one.apart_until}
                found.append(row)
        for move in chain.from_iterable(map(found_again, self._kept_apart())):
            if self._within(self._day(move.at_ms)):
                row = {"on": self._day(move.at_ms), "what": f"{move.n}, {self._whose(move)}", "how": "found"}
                found.append({**row, "from": None, "apart_until": None})
        return sorted(found, key=lambda row: (str(row["on"]), str(row["what"])))

    def gone(self) -> dict[str, list[dict[str, Any]]]:
        """Birds by themselves, and chicks of batches by day."""
        left: list[dict[str, Any]] = []
        deaths: list[dict[str, Any]] = []
        told: set[tuple[str, str, str]] = set()  # a bird that goes by two names leaves once
        for head in self._standing.heads.get("left", ()):
            one = cast(Left, head.body)
            once = bird_id(self._standing, one.bird), one.on, one.how
            if self._within(one.on) and one.cause != NEVER_HERE and once not in told:
                told.add(once)
                row = {"on": one.on, "what": self._bird(one.bird), "how": one.how, "cause": one.cause, "to": one.to}
                (deaths if one.how in _DEAD else left).append(row)
        whom = {head.id: cast(Moved, head.body).who for head in self._standing.heads.get("moved", ())}
        sums: Counter[tuple[str, str, str, str, str | None]] = Counter()
        for move in chain.from_iterable(self._kept_apart()):
            ends = move.target in _BATCH_ENDS and move.source in LIVING and move.cause != NOT_WRITTEN
            if ends and self._within(self._day(move.at_ms)):
                how = _BATCH_ENDS[move.target]
                sums[self._day(move.at_ms), self._whose(move), how, move.cause or "", whom.get(move.entry)] += move.n
        for (on, what, how, cause, to), n in sums.items():
            row = {"on": on, "what": f"{n}, {what}", "how": how, "cause": cause or None, "to": to}
            (left if how == "sold or given" else deaths).append(row)
        return {
            "left": sorted(left, key=lambda row: (row["on"], row["what"])),
            "deaths": sorted(deaths, key=lambda row: (row["on"], row["what"])),
        }

    def _kept_apart(self) -> Iterator[Sequence[Move]]:
        """All that was moved: of one lot each, and of one of several, nobody knows which."""
        for lot in self._standing.lots.values():
            yield lot.moves
        for setting in self._standing.settings.values():
            yield setting.among

    def _whose(self, move: Move) -> str:
        if move.lot is not None:
            return self._batch(move.lot)
        families = sorted({self._family(self._standing.lots[lot].family) for lot in move.among})
        return f"batch of {' or '.join(families)}"

    def treated(self) -> list[dict[str, Any]]:
        found = []
        for head in self._standing.heads.get("treated", ()):
            one = cast(Treated, head.body)
            given = (one.until or one.from_)[:10]
            over = max(filter(None, (given, one.no_eggs_until, one.no_meat_until)))
            if one.from_[:10] <= self._last and over >= self._first:
                place = self._standing.places.get(self._standing.root_of.get(one.place or "", one.place or ""))
                what = [self._bird(one.bird)] if one.bird else []
                what += [self._batch(one.lot)] if one.lot else []
                what += [place.name] if place is not None else []
                found.append(
                    {
                        "from": one.from_[:10],
                        "until": None if one.until is None else one.until[:10],
                        "before": given < self._first,
                        "what": ", ".join(what) or "not said",
                        "product": ", ".join(filter(None, (one.product, one.batch))),
                        "reason": ", ".join(filter(None, (one.reason, one.by))) or "–",
                        "no_eggs_until": one.no_eggs_until,
                        "no_meat_until": one.no_meat_until,
                    }
                )
        return sorted(found, key=lambda row: (str(row["from"]), str(row["what"])))

    def eggs(self) -> list[dict[str, Any]]:
        found = []
        for head in self._standing.heads.get("eggs_out", ()):
            one = cast(EggsOut, head.body)
            if self._within(one.on) and one.how in ("sold", "given"):
                row = {"on": one.on, "family": self._family(one.family), "n": one.n, "how": one.how, "to": one.to}
                found.append(row)
        return sorted(found, key=lambda row: (str(row["on"]), str(row["family"])))

    def hatched(self) -> list[dict[str, Any]]:
        """Settings with chicks that hatched within the days."""
        found = []
        for setting in self._standing.settings.values():
            apart = [setting.among, *(self._standing.lots[lot].moves for lot in setting.lots)]
            out = chain.from_iterable(map(out_of_shell, apart))
            n = sum(move.n for move in out if self._within(self._day(move.at_ms)))
            if n > 0:
                place = self._standing.places.get(self._standing.root_of.get(setting.place, setting.place))
                eggs = sum(self._standing.lots[lot].n for lot in setting.lots)
                named = "unknown place" if place is None else place.name
                found.append({"on": self._day(setting.set_at_ms), "place": named, "n": eggs, "hatched": n})
        return sorted(found, key=lambda row: (str(row["on"]), str(row["place"])))

    def orders(self) -> list[dict[str, Any]]:
        found = []
        for head in self._standing.heads.get("order", ()):
            one = cast(Order, head.body)
            if one.since[:10] <= self._last and (one.until is None or one.until[:10] >= self._first):
                until = None if one.until is None else one.until[:10]
                found.append({"since": one.since[:10], "until": until, "text": one.text})
        return sorted(found, key=lambda row: (str(row["since"]), str(row["text"])))

    def here(self) -> list[dict[str, Any]]:
        """Birds that are here on the last day, by family."""
        sums: dict[str, Counter[str]] = {}
        for one in self._kept.birds.values():
            sums.setdefault(self._family(one.body.family), Counter())[one.body.sex] += 1
        return [
            {"family": family, "male": by["male"], "female": by["female"], "all": by.total()}
            for family, by in sorted(sums.items())
        ]

    def batches(self) -> int:
        """Chicks and birds of batches on the last day, as many as no bird is written down of."""
        return self._kept.chicks
