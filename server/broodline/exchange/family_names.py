"""Families as rows name them: one name in several spellings is one family, and a near one is told."""

import re
from dataclasses import dataclass, field

from broodline.exchange.row_values import Unread, name_key

_SAYS_NOTHING = frozenset(("line", "lines", "strain", "family", "bloodline", "the", "flock", "group", "pen"))


def loose_key(text: str) -> str:
    """What "Rowan", "Rowan line" and "the Rowan-strain" share; the whole key where nothing would be left.

    >>> loose_key("The Rowan-strain"), loose_key("Line"), loose_key("Line 2")
    ('rowan', 'line', '2')
    """
    words = re.sub(r"[^\w]|_", " ", name_key(text)).split()
    return " ".join(word for word in words if word not in _SAYS_NOTHING) or name_key(text)


@dataclass(slots=True)
class FamilyNames:
    """ids: `name_key` of a name -> id. names: id -> the name itself. loose: ids by their loose keys. coming: names of
    the file that make a new family, by theirs."""

    ids: dict[str, str] = field(default_factory=dict)
    names: dict[str, str] = field(default_factory=dict)
    loose: dict[str, set[str]] = field(default_factory=dict)
    coming: dict[str, str] = field(default_factory=dict)

    def add(self, name: str, one: str) -> None:
        """A family known from now on."""
        self.ids[name_key(name)] = one
        self.names[one] = name
        self.loose.setdefault(loose_key(name), set()).add(one)

    def known(self, name: str) -> str | None:
        """The id under just this name."""
        return self.ids.get(name_key(name))

    def near(self, name: str) -> str | None:
        """The known family that it names in other words, None for none. Raises Unread where it may be several."""
        found = self.loose.get(loose_key(name), set())
        if len(found) > 1:
            told = " or ".join(sorted(self.names[one] for one in found))
            raise Unread("family", f"“{name}” may be {told}.", "Write the name as that family's own row does.")
        return next(iter(found), None)

    def new(self, name: str) -> str:
        """The name under which the file's first row of a new family wrote it."""
        return self.coming.setdefault(loose_key(name), name)
