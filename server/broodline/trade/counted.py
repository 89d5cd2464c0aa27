"""How many of something, in words."""


def many(n: int, one: str) -> str:
    """A number of things in words. one: the word for one of them.

    >>> many(1, "cock"), many(3, "hen")
    ('1 cock', '3 hens')
    """
    return f"{n} {one}" if n == 1 else f"{n} {one}s"
