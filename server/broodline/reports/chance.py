"""A chance in a keeper's words."""


def in_words(p: float) -> str:
    """How often of a hundred, or of a thousand where it is rare.

    >>> in_words(0.284), in_words(0.0031), in_words(0.00002), in_words(1)
    ('28 of 100', '3 of 1,000', 'fewer than 1 of 1,000', '100 of 100')
    """
    if p >= 0.0095:
        return f"{100 * p:.0f} of 100"
    return f"{1000 * p:.0f} of 1,000" if p >= 0.001 else "fewer than 1 of 1,000"
