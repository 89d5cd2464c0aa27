"""Papers that lost or changed bytes on the way are refused in words, never with a fault of the program."""

import io
import zipfile
from random import Random

from broodline.errors import EnvelopeError
from broodline.exchange.travel import LINES, _lines_in


def test_a_damaged_file_is_read_or_refused_in_words() -> None:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as made:
        made.writestr(LINES, b'{"id": "a", "kind": "bird"}\n' * 400)
    whole, chance = packed.getvalue(), Random(7)
    assert _lines_in(whole).startswith(b'{"id"')
    refused = []
    for _ in range(600):
        bent = bytearray(whole)
        for _ in range(chance.randint(1, 2)):
            bent[chance.randrange(4, len(bent))] = chance.randrange(256)
        try:
            _lines_in(bytes(bent))
        except EnvelopeError as fault:
            refused.append(fault.remedy)
    assert len(refused) > 100
    assert all(refused)
