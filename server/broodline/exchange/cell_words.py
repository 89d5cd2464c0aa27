"""Codes of bodies in a keeper's words, for cells. A code that has none here is told by itself, without underscores."""

_WORDS = {
    "cause": {
        "weak": "weak from the start",
        "smothered": "smothered in a heap",
        "navel": "navel not closed",
        "disease": "ill",
        "injury": "injured",
        "predator_fox": "fox",
        "predator_rat": "rat",
        "predator_bird": "bird of prey or crow",
        "predator_other": "another predator",
        "other": "something else",
        "unknown": "not known",
    },
    "gauge": {"dry": "dry bulb", "wet": "wet bulb", "humidity": "hygrometer"},
    "look": {"spread": "spread out", "huddled": "huddled", "away": "away from the heat", "one_side": "to one side"},
    "role": {"apart": "place apart", "store": "egg store"},
    "round": {"turned": "turned", "vented": "vents", "watered": "water"},
    "task": {
        "air": "alarm of the air",
        "apart": "end of time apart",
        "drinkers": "drinkers cleaned",
        "dust_bath": "dust bath filled",
        "eat": "look for chicks that do not eat",
        "feed": "feed changed",
        "grit": "grit of the next size",
        "heat": "heat lowered",
        "litter": "wet litter out",
        "pan": "feed in a pan",
        "raise": "feeders and drinkers raised",
        "ring_size": "rings of the next size",
        "rings": "rings looked at",
        "vitamins": "vitamins in the water",
        "water": "fresh water",
        "webs_again": "toe webs looked at again",
        "weigh": "weighed",
    },
}


def in_words(of: str, code: str | None) -> str | None:
    """A code of a body as a keeper says it. of: cause, gauge, look, role, round or task.

    >>> in_words("cause", "predator_rat"), in_words("task", "spring_clean"), in_words("look", None)
    ('rat', 'spring clean', None)
    """
    return None if code is None else _WORDS[of].get(code, code.replace("_", " "))
