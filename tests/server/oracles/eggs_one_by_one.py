"""A slow and obvious second opinion on rates: every egg is an object that remembers what happened to it.

Works on stories that can be true: nothing leaves a stage in which there is nothing. Chicks of a lot are not told
apart, so whoever leaves is taken to be the one that hatched first of those still there.
"""

from dataclasses import dataclass, field

LIVING = ("hatched", "brooding", "growing", "flock")
GONE = ("died", "culled", "parted")
WEEK_MS = 7 * 24 * 3600 * 1000


@dataclass(eq=False)
class Egg:
    """stage: where it is. born_ms: when it hatched. left_ms, how: when and how it left the living."""

    stage: str = "set"
    born_ms: int | None = None
    left_ms: int | None = None
    how: str = ""

    @property
    def is_chick(self) -> bool:
        return self.born_ms is not None


@dataclass
class Nest:
    """One lot of eggs, told as a story."""

    n: int
    eggs: list[Egg] = field(default_factory=list)
    live_by_day: dict[int, int] = field(default_factory=dict)
    judged_at_candling: bool = False

    def __post_init__(self) -> None:
        self.eggs = [Egg() for _ in range(self.n)]

    def here(self, stage: str) -> list[Egg]:
        return [egg for egg in self.eggs if egg.stage == stage]

    def look(self, day: int, live: int) -> None:
        self.live_by_day[day] = self.live_by_day.get(day, 0) + live

    def movable(self, source: str, target: str) -> list[Egg]:
        """Those in the source stage; of the missing, chicks come back as chicks and eggs as eggs."""
        found = self.here(source)
        if source == "unaccounted":
            found = [egg for egg in found if egg.is_chick == (target in LIVING + GONE)]
        return found

    def move(self, at_ms: int, source: str, target: str) -> None:
        egg = self.movable(source, target)[0]
        if source in ("set", "locked") and target in ("clear", "blood_ring", "quitter"):
            self.judged_at_candling = True
        if source in LIVING and target not in LIVING:
            self.swap_lives(egg, min((one for one in self.eggs if self.lives(one)), key=lambda one: one.born_ms or 0))
            egg.left_ms, egg.how = at_ms, target
        elif source == "unaccounted" and egg.is_chick:
            self.swap_lives(
                egg, min((one for one in self.here(source) if one.is_chick), key=lambda one: one.left_ms or 0)
            )
            if target in LIVING:
                egg.left_ms, egg.how = None, ""
            else:
                egg.how = target
        elif target in LIVING and not egg.is_chick:
            egg.born_ms = at_ms
        egg.stage = target

    def lives(self, egg: Egg) -> bool:
        return egg.is_chick and egg.stage in LIVING

    def swap_lives(self, one: Egg, other: Egg) -> None:
        one.born_ms, other.born_ms = other.born_ms, one.born_ms
        one.left_ms, other.left_ms = other.left_ms, one.left_ms
        one.how, other.how = other.how, one.how

    def never_judged(self) -> bool:
        if self.here("set") and not self.live_by_day:
            return True
        if self.live_by_day or self.judged_at_candling:
            return False
        return any(egg.stage in ("set", "locked", "unhatched") for egg in self.eggs)

    def rates(self, now_ms: int) -> dict[str, tuple[int, int]]:
        seen_live = max(self.live_by_day.values(), default=0)
        hatched = [egg for egg in self.eggs if egg.is_chick]
        examined = [egg for egg in self.eggs if self.is_examined(egg)]
        examined += self.here("set")[:seen_live]
        fertile = [egg for egg in examined if egg.stage not in ("clear", "infertile")]
        if self.never_judged():
            examined, fertile = [], []
        week_old = [egg for egg in hatched if (egg.born_ms or 0) <= now_ms - WEEK_MS]
        counted = [egg for egg in week_old if not (self.left_within_a_week(egg) and egg.how == "parted")]
        return {
            "fertility": (len(fertile), len(examined)),
            "hatch_of_set": (len(hatched), self.n),
            "hatch_of_fertile": (len(hatched) if fertile else 0, len(fertile)),
            "alive_7d": (sum(not self.left_within_a_week(egg) for egg in counted), len(counted)),
        }

    def is_examined(self, egg: Egg) -> bool:
        if egg.stage == "unaccounted":
            return egg.is_chick
        return egg.stage not in ("set", "cracked", "rotten", "taken")

    def left_within_a_week(self, egg: Egg) -> bool:
        return egg.left_ms is not None and egg.left_ms <= (egg.born_ms or 0) + WEEK_MS
