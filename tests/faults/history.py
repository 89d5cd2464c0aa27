"""What the server has said of its history so far, and whether it keeps to it."""

from dataclasses import dataclass, field
from typing import Any

from broodline.book.wire import canonical_bytes


@dataclass
class History:
    """Positions of one history, as pushes and pulls told them. A restore goes back to an earlier one."""

    told: dict[int, tuple[str, str | None]] = field(default_factory=dict)  # position -> id, text where it was seen
    gaps: set[int] = field(default_factory=set)  # positions a pull went past without a row

    def acknowledged(self, answer: Any) -> None:
        """Invariants 3 and 4: what was answered has a position, and stays there under this id."""
        for result in answer["results"]:
            if "position" in result:
                held = self.told.setdefault(result["position"], (result["id"], None))
                assert held[0] == result["id"], f"position {result['position']} was given twice"

    def pulled(self, after: int, page: Any) -> None:
        """Invariants 1, 5 and 6: ascending, nothing left out, nothing changed, nothing that appears late."""
        seen = {row["position"]: row["entry"] for row in page["entries"]}
        assert list(seen) == sorted(seen), "a page that does not ascend"
        end = int(page["cursor"].split(".")[1])
        assert end == max(seen, default=after), "a cursor that is not the place of its last row"
        reaches = end if page["more"] else max(self.told, default=0)
        missing = [p for p in self.told if after < p <= reaches and p not in seen]
        assert not missing, f"positions {missing} were told before and are gone"
        assert not self.gaps & seen.keys(), "a row appeared behind a cursor that was given out"
        self.gaps |= {p for p in range(after + 1, end + 1) if p not in seen}
        for position, entry in seen.items():
            text = canonical_bytes(entry).decode()
            held = self.told.get(position, (entry["id"], text))
            assert held[0] == entry["id"], f"position {position} holds another entry than was told"
            assert held[1] in (None, text), f"entry {entry['id']} changed its content"
            self.told[position] = (entry["id"], text)

    def copy(self) -> "History":
        return History(dict(self.told), set(self.gaps))
