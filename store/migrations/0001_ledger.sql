-- The shop's book of entries and the shelf of documents that entries refer to. Both only ever grow; the triggers hold
-- that against any program that writes to the file, this one included.

CREATE TABLE entry (
    stream TEXT    NOT NULL CHECK (stream <> ''),
    seq    INTEGER NOT NULL CHECK (seq >= 1),
    id     TEXT    NOT NULL CHECK (id <> ''),
    at     TEXT    NOT NULL, -- RFC 3339 in UTC with nanoseconds, readable without this program
    "by"   TEXT    NOT NULL,
    kind   TEXT    NOT NULL CHECK (kind <> ''),
    body   TEXT    NOT NULL, -- JSON, kept byte for byte
    PRIMARY KEY (stream, seq),
    UNIQUE (stream, id)
) STRICT;

CREATE TRIGGER entry_is_not_changed BEFORE UPDATE ON entry
BEGIN SELECT raise(ABORT, 'an entry is never changed; a later entry says what was wrong'); END;

CREATE TRIGGER entry_is_not_removed BEFORE DELETE ON entry
BEGIN SELECT raise(ABORT, 'an entry is never removed; a later entry says what was wrong'); END;

-- This also keeps INSERT OR REPLACE from overwriting, which fires no delete trigger by itself.
CREATE TRIGGER entry_follows_the_last BEFORE INSERT ON entry
WHEN NEW.seq <> (SELECT coalesce(max(seq), 0) + 1 FROM entry WHERE stream = NEW.stream)
  OR EXISTS (SELECT 1 FROM entry WHERE stream = NEW.stream AND id = NEW.id)
BEGIN SELECT raise(ABORT, 'an entry follows the last of its stream without a gap and has an ID of its own'); END;

CREATE TABLE document (
    key  TEXT NOT NULL PRIMARY KEY CHECK (length(key) = 64), -- lower-case hex SHA-256 of data
    data BLOB NOT NULL
) STRICT;

CREATE TRIGGER document_is_not_changed BEFORE UPDATE ON document
BEGIN SELECT raise(ABORT, 'what is on the shelf never changes'); END;

CREATE TRIGGER document_is_not_removed BEFORE DELETE ON document
BEGIN SELECT raise(ABORT, 'what is on the shelf stays there'); END;

CREATE TRIGGER document_is_not_replaced BEFORE INSERT ON document
WHEN EXISTS (SELECT 1 FROM document WHERE key = NEW.key)
BEGIN SELECT raise(ABORT, 'what is on the shelf never changes'); END;
