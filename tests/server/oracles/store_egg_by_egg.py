"""A slow and obvious second opinion on the egg store: every kept egg lies on a shelf until a hand takes it away.

Day after day: eggs are laid down, then those that left are taken, then those that were set. A hand takes the egg
laid longest ago among those it may take.
"""

from dataclasses import dataclass


@dataclass(eq=False)
class Egg:
    """laid: the day. order: which was written first, among those of a day. gone: how it left, or nothing."""

    laid: str
    order: str
    dam: str | None
    gone: str = ""


def shelf(
    kept: list[tuple[str, str, int, str | None]], outs: list[tuple[str, str, int]], sets: list[dict[str, object]]
) -> tuple[dict[str, int], dict[str, int]]:
    """What lies there by day of laying, and how many went which way.

    kept: (day, entry, n, dam). outs: (day, entry, n). sets: {day, entry, n, first, last, dams}.
    """
    eggs = [Egg(day, entry, dam) for day, entry, n, dam in kept for _ in range(n)]
    eggs.sort(key=lambda egg: (egg.laid, egg.order))
    ways = {"out": 0, "set": 0, "beyond": 0}
    days = sorted({day for day, *_ in kept} | {day for day, *_ in outs} | {str(one["day"]) for one in sets})
    for today in days:
        for _, _, n in sorted(out for out in outs if out[0] == today):
            for _ in range(n):
                egg = next((egg for egg in eggs if not egg.gone and egg.laid <= today), None)
                ways["out" if egg else "beyond"] += 1
                if egg:
                    egg.gone = "out"
        for one in sorted((one for one in sets if one["day"] == today), key=lambda one: str(one["entry"])):
            for _ in range(int(str(one["n"]))):
                for egg in eggs:
                    mother = not one["dams"] or egg.dam is None or egg.dam in set(one["dams"])  # type: ignore[call-overload]
                    laid = (one["first"] or "") <= egg.laid <= (one["last"] or "9999") and egg.laid <= today  # type: ignore[operator]
                    if not egg.gone and mother and laid:
                        egg.gone = "set"
                        ways["set"] += 1
                        break
    left: dict[str, int] = {}
    for egg in eggs:
        if not egg.gone:
            left[egg.laid] = left.get(egg.laid, 0) + 1
    return left, ways
