"""What is kept on disk, in SQLite. The only storey that opens a database.

May import book and errors (and the pure storeys between). No SQL, row or path leaves this storey; a cursor
is an opaque string outside. The id of the holding is in every call and every key.
"""
