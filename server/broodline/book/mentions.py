"""What entries name: families, places, settings and birds, kept by name so that each is looked up once."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any

from broodline.book.problems import Problem, problem
from broodline.book.standing import Head

Named = Iterable[tuple[str, str | None]]


def _place(body: Any) -> Named:
    return (("place", body.place),)


def _setting(body: Any) -> Named:
    return (("setting", body.setting),)


def _family(body: Any) -> Named:
    return (("family", body.family),)


def _bird(body: Any) -> Named:
    return (("bird", body.bird),)


# What an entry of each kind names, and as what. A moved entry's `settles` names a count; nobody asks for its being.
_NAMED: Mapping[str, Callable[[Any], Named]] = MappingProxyType(
    {
        "set": lambda body: (("place", body.place), *(("family", lot.family) for lot in body.lots)),
        "looked": _setting,
        "eggs_weighed": _setting,
        "locked": lambda body: (("setting", body.setting), ("place", body.place)),
        "moved": _place,
        "gathered": _family,
        "eggs_out": _family,
        "penned": lambda body: (
            ("family", body.family),
            *(("bird", share.bird) for share in (*body.sires, *body.dams)),
        ),
        "air": _place,
        "turned": _place,
        "vented": _place,
        "watered": _place,
        "gauge_checked": _place,
        "brooder_check": _place,
        "left": _bird,
        "marked": _bird,
        "scored": _bird,
        "same": lambda body: (("bird", body.bird), ("bird", body.as_)),
        "came": lambda body: (("bird", body.bird), ("family", body.family)),
    }
)


@dataclass(slots=True)
class Mentions:
    """by: what it is named as -> name -> root of each entry that names it -> that entry's id."""

    by: dict[str, dict[str, dict[str, str]]] = field(
        default_factory=lambda: {"family": {}, "place": {}, "setting": {}, "bird": {}}
    )

    def enter(self, head: Head) -> None:
        """Take up what a head names."""
        named = _NAMED.get(head.kind)
        if named is not None:
            for what, name in named(head.body):
                if name is not None:
                    self.by[what].setdefault(name, {})[head.root] = head.id

    def strike(self, head: Head) -> None:
        """Forget what a head named."""
        named = _NAMED.get(head.kind)
        if named is not None:
            for what, name in named(head.body):
                if name is not None and (roots := self.by[what].get(name)) is not None:
                    roots.pop(head.root, None)
                    if not roots:
                        del self.by[what][name]

    def naming(self, names: Iterable[str]) -> set[str]:
        """The roots of the entries that name one of these."""
        return {root for name in names for named in self.by.values() for root in named.get(name, ())}

    def unknown(self, known: Mapping[str, Iterable[str]], refer: Callable[[str], str]) -> Iterator[Problem]:
        """Entries that name what is not in the book. known: what it is -> its identities."""
        for what, named in self.by.items():
            there = set(known[what])
            for name, roots in named.items():
                if refer(name) not in there:
                    yield from (problem(f"unknown_{what}", entry) for entry in roots.values())
