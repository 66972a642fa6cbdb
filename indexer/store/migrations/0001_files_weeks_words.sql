-- The first shape of the index. Never edited: what changes later is a migration of its own.
-- Two kinds of tables: those read off files may be thrown away and read again; those told by the person may not.
BEGIN;

PRAGMA application_id = 1465075782;           -- "WSHF": how the tool knows its own files

-- one row per fact about the index itself
CREATE TABLE about (
  name  TEXT PRIMARY KEY,                     -- "index_id": a UUID, part of the names of the backups beside the index
  value TEXT NOT NULL
) STRICT;

---------------------------------------------------------------------------------------------------- read off files

-- one row per library folder that `index` was pointed at
CREATE TABLE library_folder (
  id   INTEGER PRIMARY KEY,
  path BLOB NOT NULL UNIQUE                   -- absolute, as the bytes the system gave
) STRICT;

-- one row per place in a library folder where a file lies, or lay when it was last seen
CREATE TABLE file (
  id             INTEGER PRIMARY KEY,
  folder_id      INTEGER NOT NULL REFERENCES library_folder (id),
  path           BLOB    NOT NULL,            -- below the folder, as the bytes the system gave
  size           INTEGER NOT NULL,            -- bytes
  mtime_ns       INTEGER NOT NULL,            -- nanoseconds since 1970 in UTC
  kind           TEXT    NOT NULL CHECK (kind IN ('photo', 'unreadable', 'other')),
  key            TEXT    CHECK ((key IS NOT NULL) = (kind = 'photo')),  -- the photo that these bytes show
  reader_version INTEGER NOT NULL,            -- of the reader that made this row; an older one is read again
  facts_digest   TEXT    NOT NULL DEFAULT '', -- hash of all that was read, to tell a touched file from a changed one
  missing_since  TEXT,                        -- UTC of the run that no longer found it; NULL while it is there
  stored_width   INTEGER,                     -- pixels as the data lie
  stored_height  INTEGER,
  orientation    INTEGER CHECK (orientation BETWEEN 1 AND 8),           -- Exif/TIFF value: stored to displayed
  format         TEXT,                        -- by content: JPEG, HEIF, AVIF, PNG, WebP, TIFF, raw
  make           TEXT,                        -- of the camera, as the file says
  model          TEXT,
  serial         TEXT,
  latitude       REAL,                        -- degrees, north positive
  longitude      REAL,                        -- degrees, east positive
  UNIQUE (folder_id, path)
) STRICT;
CREATE INDEX file_by_key ON file (key) WHERE key IS NOT NULL;

-- one row per claim about when a file's picture was taken
CREATE TABLE evidence (
  id             INTEGER PRIMARY KEY,
  file_id        INTEGER NOT NULL REFERENCES file (id) ON DELETE CASCADE,
  source         TEXT    NOT NULL,            -- exif original, xmp digitized, gps, file name, file time and the like
  text           TEXT    NOT NULL,            -- as it stands in the file
  claimed        TEXT,                        -- ISO 8601 of reduced precision; NULL where the claim is unusable
  precision      TEXT    NOT NULL,            -- second, minute, day, month, year, unknown
  fraction       TEXT    NOT NULL,            -- digits of the second's decimal fraction
  offset_minutes INTEGER,                     -- zone east of Greenwich, where the file tells it
  is_utc         INTEGER NOT NULL,            -- 1: `claimed` is universal time, not the wall clock
  is_arrival     INTEGER NOT NULL,            -- 1: when the file came here, not when the picture was taken
  problem        TEXT                         -- what is wrong with it
) STRICT;
CREATE INDEX evidence_by_file ON evidence (file_id);

-- one row per step that failed on a file
CREATE TABLE failure (
  file_id INTEGER NOT NULL REFERENCES file (id) ON DELETE CASCADE,
  step    TEXT    NOT NULL,                   -- open, header, metadata, pixels, reader
  reason  TEXT    NOT NULL,
  PRIMARY KEY (file_id, step)
) STRICT;

-- one row per photo: a picture, wherever its bytes lie. Derived from the rows above.
CREATE TABLE picture (
  key            TEXT    PRIMARY KEY,         -- hash of the picture data, 32 hexadecimal letters
  code           TEXT    NOT NULL,            -- its first letters, at least 5, as many as make it unique
  lead_file_id   INTEGER NOT NULL REFERENCES file (id),  -- the file that speaks for it
  taken          TEXT,                        -- ISO 8601 of reduced precision, local wall clock; NULL when unknown
  fraction       TEXT    NOT NULL,            -- digits of the second's decimal fraction
  precision      TEXT    NOT NULL,
  offset_minutes INTEGER,                     -- zone east of Greenwich, where known
  source         TEXT    NOT NULL,            -- of the claim that was believed
  evidence_id    INTEGER,                     -- that claim
  doubtful       INTEGER NOT NULL,            -- 1: to be looked at by the person
  reason         TEXT    NOT NULL             -- why this verdict, or what the doubt is
) STRICT;
CREATE INDEX picture_by_taken ON picture (taken);

--------------------------------------------------------------------------------------------- told by the person

-- one row per word about a week: append-only, the latest one holds
CREATE TABLE week_log (
  uuid        TEXT PRIMARY KEY,
  told_at     TEXT NOT NULL,                  -- UTC, microseconds
  first_day   TEXT NOT NULL,                  -- of the week as it was told, for ever
  state       TEXT NOT NULL CHECK (state IN ('open', 'started', 'waiting', 'done', 'skipped')),
  waiting_for TEXT NOT NULL DEFAULT '[]',     -- JSON list of "kind:what"; kinds: supplies, prints, photos, words
  note        TEXT NOT NULL DEFAULT ''
) STRICT;
CREATE INDEX week_log_by_week ON week_log (first_day, told_at, uuid);

-- one row per photo that a week held when it was marked done
CREATE TABLE week_holding (
  log_uuid  TEXT NOT NULL REFERENCES week_log (uuid),
  photo_key TEXT NOT NULL,
  PRIMARY KEY (log_uuid, photo_key)
) STRICT, WITHOUT ROWID;

-- one row per told setting: append-only, the latest one holds
CREATE TABLE setting_log (
  uuid    TEXT PRIMARY KEY,
  told_at TEXT NOT NULL,                      -- UTC, microseconds
  name    TEXT NOT NULL,                      -- such as week.first_day
  value   TEXT                                -- NULL: back to the tool's own choice
) STRICT;

-- one row per photo whose picture data were changed in place (edited and saved over) while the old ones are nowhere else
CREATE TABLE succession (
  uuid    TEXT PRIMARY KEY,
  told_at TEXT NOT NULL,                      -- UTC, microseconds: the run that saw it
  old_key TEXT NOT NULL,
  new_key TEXT NOT NULL
) STRICT;

------------------------------------------------------------------------------------------------ what readers select

-- one row per file that is a photo, with the whole place
CREATE VIEW photo_file AS
SELECT file.id AS file_id, file.key, library_folder.path AS folder, file.path, file.size, file.mtime_ns,
       file.missing_since, file.format, file.orientation, file.make, file.model, file.serial,
       CASE WHEN instr(lower(file.model), lower(file.make)) = 1 THEN file.model
            ELSE trim(file.make || ' ' || file.model) END AS camera,    -- as a person reads it; '' when not named
       file.latitude, file.longitude,
       CASE WHEN file.orientation >= 5 THEN file.stored_height ELSE file.stored_width END AS width,
       CASE WHEN file.orientation >= 5 THEN file.stored_width ELSE file.stored_height END AS height,
       (SELECT reason FROM failure WHERE failure.file_id = file.id AND failure.step = 'pixels') AS damage
FROM file JOIN library_folder ON library_folder.id = file.folder_id
WHERE file.kind = 'photo';

-- one row per photo, sizes and shape as displayed; `present` is 0 when no file of it is there any more
CREATE VIEW photo AS
SELECT picture.key, picture.code, picture.taken, picture.fraction, picture.precision, picture.offset_minutes,
       picture.source, picture.doubtful, picture.reason, picture.evidence_id,
       lead.file_id, lead.folder, lead.path, lead.size, lead.mtime_ns, lead.format, lead.orientation,
       lead.camera, lead.make, lead.model, lead.serial, lead.latitude, lead.longitude, lead.width, lead.height, lead.damage,
       CASE WHEN abs(lead.width - lead.height) <= 0.03 * max(lead.width, lead.height) THEN 'square'
            WHEN lead.height > lead.width THEN 'portrait' ELSE 'landscape' END AS shape,
       lead.missing_since IS NULL AS present
FROM picture JOIN photo_file AS lead ON lead.file_id = picture.lead_file_id;

-- one row per week that anything was told of, as it stands now (first_day as told)
CREATE VIEW week_state AS
SELECT uuid, told_at, first_day, state, waiting_for, note
FROM week_log
WHERE NOT EXISTS (SELECT 1 FROM week_log AS later WHERE later.first_day = week_log.first_day
                  AND (later.told_at, later.uuid) > (week_log.told_at, week_log.uuid));

-- one row per setting that was told, as it stands now
CREATE VIEW setting AS
SELECT name, value, told_at
FROM setting_log
WHERE value IS NOT NULL
  AND NOT EXISTS (SELECT 1 FROM setting_log AS later WHERE later.name = setting_log.name
                  AND (later.told_at, later.uuid) > (setting_log.told_at, setting_log.uuid));

-- one row per file and step that could not be read
CREATE VIEW unreadable AS
SELECT library_folder.path AS folder, file.path, failure.step, failure.reason, file.kind
FROM failure JOIN file ON file.id = failure.file_id JOIN library_folder ON library_folder.id = file.folder_id
WHERE file.missing_since IS NULL;

PRAGMA user_version = 1;
COMMIT;
