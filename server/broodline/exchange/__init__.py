"""Text and bytes in and out: the whole book as lines, sheets, printed papers.

Pure: bytes are taken and given back; opening files is the business of the storeys above. May import book,
trade and errors, but not reports. What comes in is bounded, and every bad row is told by its number.
"""
