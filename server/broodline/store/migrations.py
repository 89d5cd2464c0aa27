"""How the tables came to be. Steps are only ever added at the end; a released step never changes.

The log is never rebuilt: sqlite-utils' transform() would drop its AUTOINCREMENT, and positions of deleted rows
would come back.
"""

import sqlite3

from sqlite_utils import Database, Migrations

from broodline.errors import BookDamaged

STEPS = Migrations("broodline")


@STEPS()
def m001_holding_log_and_devices(db: Database) -> None:
    """The holding, its log, what clashed with it, the devices that may write, the codes that pair them."""
    for statement in (
        """
        CREATE TABLE holdings (
            id TEXT PRIMARY KEY,
            epoch TEXT NOT NULL,
            demo INTEGER NOT NULL,
            seeded_on TEXT,
            made_ms INTEGER NOT NULL
        ) STRICT
        """,
        """
        CREATE TABLE log (
            position INTEGER PRIMARY KEY AUTOINCREMENT,
            holding TEXT NOT NULL REFERENCES holdings (id) ON UPDATE CASCADE,
            id TEXT NOT NULL,
            document BLOB NOT NULL,
            sha256 TEXT NOT NULL,
            chain TEXT NOT NULL,
            brought_by TEXT,
            received_ms INTEGER NOT NULL,
            UNIQUE (holding, id)
        ) STRICT
        """,
        """
        CREATE TABLE clashes (
            holding TEXT NOT NULL REFERENCES holdings (id) ON UPDATE CASCADE,
            id TEXT NOT NULL,
            document BLOB NOT NULL,
            sha256 TEXT NOT NULL,
            brought_by TEXT,
            received_ms INTEGER NOT NULL,
            PRIMARY KEY (holding, id, sha256)
        ) STRICT
        """,
        """
        CREATE TABLE devices (
            id TEXT PRIMARY KEY,
            holding TEXT NOT NULL REFERENCES holdings (id) ON UPDATE CASCADE,
            name TEXT NOT NULL,
            role TEXT NOT NULL,
            token_sha256 TEXT NOT NULL UNIQUE,
            created_ms INTEGER NOT NULL,
            last_seen_ms INTEGER NOT NULL,
            revoked_ms INTEGER
        ) STRICT
        """,
        """
        CREATE TABLE codes (
            code_sha256 TEXT PRIMARY KEY,
            holding TEXT NOT NULL REFERENCES holdings (id) ON UPDATE CASCADE,
            role TEXT NOT NULL,
            expires_ms INTEGER NOT NULL
        ) STRICT
        """,
        "CREATE TABLE backups (taken_ms INTEGER PRIMARY KEY) STRICT",
    ):
        db.execute(statement)


@STEPS()
def m002_photos(db: Database) -> None:
    """Pictures, which travel apart from the entries that name them."""
    db.execute(
        """
        CREATE TABLE photos (
            holding TEXT NOT NULL REFERENCES holdings (id) ON UPDATE CASCADE,
            sha256 TEXT NOT NULL,
            type TEXT NOT NULL,
            content BLOB NOT NULL,
            brought_by TEXT,
            received_ms INTEGER NOT NULL,
            PRIMARY KEY (holding, sha256)
        ) STRICT
        """
    )


@STEPS()
def m003_reminders(db: Database) -> None:
    """Where each device is reminded and of what, and what it was sent."""
    for statement in (
        """
        CREATE TABLE subscriptions (
            device TEXT PRIMARY KEY REFERENCES devices (id),
            endpoint TEXT NOT NULL,
            p256dh BLOB NOT NULL,
            auth BLOB NOT NULL,
            origin TEXT NOT NULL,
            wishes TEXT NOT NULL,
            since_ms INTEGER NOT NULL,
            seen_ms INTEGER NOT NULL,
            ended_ms INTEGER,
            told_ms INTEGER,
            told_well INTEGER,
            outcome TEXT
        ) STRICT
        """,
        """
        CREATE TABLE reminders (
            device TEXT NOT NULL REFERENCES devices (id),
            key TEXT NOT NULL,
            outcome TEXT NOT NULL,
            tries INTEGER NOT NULL,
            done INTEGER NOT NULL,
            next_ms INTEGER NOT NULL,
            PRIMARY KEY (device, key)
        ) STRICT
        """,
    ):
        db.execute(statement)


@STEPS()
def m004_calendars(db: Database) -> None:
    """The secret address of each device's calendar feed."""
    db.execute(
        """
        CREATE TABLE calendars (
            device TEXT PRIMARY KEY REFERENCES devices (id),
            token_sha256 TEXT NOT NULL UNIQUE,
            made_ms INTEGER NOT NULL,
            read_ms INTEGER
        ) STRICT
        """
    )


@STEPS()
def m005_sensors(db: Database) -> None:
    """Thermometers, each with the place it writes of and what of it was kept last."""
    db.execute(
        """
        CREATE TABLE sensors (
            id TEXT PRIMARY KEY,
            place TEXT NOT NULL,
            name TEXT NOT NULL,
            token_sha256 TEXT NOT NULL UNIQUE,
            created_ms INTEGER NOT NULL,
            heard_ms INTEGER,
            kept_ms INTEGER,
            kept_at_ms INTEGER,
            kept_beyond INTEGER,
            revoked_ms INTEGER
        ) STRICT
        """
    )


@STEPS()
def m006_codes_of_devices(db: Database) -> None:
    """Who asked for a code, and how often a wrong one was typed while it was open."""
    db.execute("ALTER TABLE codes ADD COLUMN invited_by TEXT")
    db.execute("ALTER TABLE codes ADD COLUMN wrong_tries INTEGER NOT NULL DEFAULT 0")


@STEPS()
def m007_kept_readings(db: Database) -> None:
    """Each reading kept of a place, and no longer the last alone; kept_ms, kept_at_ms and kept_beyond of `sensors` are
    of no use since."""
    for statement in (
        """
        CREATE TABLE kept_readings (
            place TEXT NOT NULL,
            at_ms INTEGER NOT NULL,
            beyond INTEGER,
            PRIMARY KEY (place, at_ms)
        ) STRICT
        """,
        "INSERT OR IGNORE INTO kept_readings"
        " SELECT place, kept_at_ms, kept_beyond FROM sensors WHERE kept_at_ms IS NOT NULL",
    ):
        db.execute(statement)


@STEPS()
def m008_band_of_kept_readings(db: Database) -> None:
    """The tier and side of each, so that amber hides no red; `beyond` is of no use since. Of an old one outside its
    band neither is known: it is like no other, and what comes next is kept."""
    db.execute("ALTER TABLE kept_readings ADD COLUMN band TEXT")
    db.execute("UPDATE kept_readings SET band = CASE beyond WHEN 0 THEN 'within' WHEN 1 THEN 'beyond' END")


def migrate(connection: sqlite3.Connection) -> None:
    """Bring the tables up to date, all steps or none. Raises BookDamaged for a book of a newer Broodline."""
    db = Database(connection, execute_plugins=False)
    known = {step.name for step in STEPS._migrations}
    if newer := [step.name for step in STEPS.applied(db) if step.name not in known]:
        raise BookDamaged(
            f"This book was written by a newer Broodline ({newer[-1]}).",
            remedy="Update Broodline on this machine. Nothing in the book was changed.",
            code="newer",
        )
    if not STEPS.pending(db):
        return
    connection.execute("BEGIN IMMEDIATE")
    try:
        STEPS.apply(db)  # asks again what is pending: another process may have been first
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        raise
