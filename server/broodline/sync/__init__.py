"""One round of exchange with a phone: push, pull, pairing, and their rules.

May import store and below, and jobs beside it; no HTTP here. A push is taken whole or not at all. What an
entry means is judged after it is stored; an odd entry never blocks its neighbours.
"""
