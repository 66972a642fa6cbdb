-- Capture times judged from evidence: clock corrections, photos put into a week or dated by hand, scenes that two cameras saw.
BEGIN;

---------------------------------------------------------------------------------------------------- read off files

ALTER TABLE file ADD COLUMN sidecar TEXT NOT NULL DEFAULT '';  -- names, sizes and times of the sidecars read with it

ALTER TABLE picture ADD COLUMN placed TEXT;   -- what puts it into a week: `taken`, or a day of the week told by hand
ALTER TABLE picture ADD COLUMN twin_key TEXT; -- the photo whose capture time it has, being a copy of it
UPDATE picture SET placed = taken;
DROP INDEX picture_by_taken;
CREATE INDEX picture_by_placed ON picture (placed);

-- one row per two photos of different cameras that show one scene, however far apart their clocks are. Derived.
CREATE TABLE same_scene (
  one_key   TEXT NOT NULL,                    -- the smaller key
  other_key TEXT NOT NULL,
  score     REAL NOT NULL,                    -- how sure: log odds
  PRIMARY KEY (one_key, other_key)
) STRICT, WITHOUT ROWID;
CREATE INDEX same_scene_by_other ON same_scene (other_key);

-- one row per clock correction that the evidence speaks for. Derived whenever photos are judged.
CREATE TABLE clock_suggestion (
  number        INTEGER PRIMARY KEY,          -- from 1
  make          TEXT NOT NULL,
  model         TEXT NOT NULL,
  serial        TEXT NOT NULL,
  shift_seconds INTEGER NOT NULL,             -- what is to be added to the camera's own times
  since         TEXT,                         -- the camera's own time from which on, NULL: from the first
  until         TEXT,                         -- the camera's own time before which, NULL: to the last
  grounds       TEXT NOT NULL                 -- what speaks for it
) STRICT;

--------------------------------------------------------------------------------------------- told by the person

-- one row per word about a camera's clock: append-only; a correction holds until a row takes it back
CREATE TABLE clock_log (
  uuid          TEXT PRIMARY KEY,
  told_at       TEXT NOT NULL,                -- UTC, microseconds
  make          TEXT NOT NULL,
  model         TEXT NOT NULL,
  serial        TEXT NOT NULL,
  shift_seconds INTEGER,                      -- what is added to the camera's own times; NULL where one is taken back
  since         TEXT,                         -- the camera's own, uncorrected time from which on; NULL: from the first
  until         TEXT,                         -- the camera's own, uncorrected time before which; NULL: to the last
  takes_back    TEXT,                         -- the uuid of a correction that no longer holds
  CHECK ((shift_seconds IS NULL) = (takes_back IS NOT NULL))
) STRICT;

-- one row per word that dates a photo or puts it into a week: append-only, the latest one of each kind holds
CREATE TABLE assignment (
  uuid      TEXT PRIMARY KEY,
  told_at   TEXT NOT NULL,                    -- UTC, microseconds
  photo_key TEXT NOT NULL,
  what      TEXT NOT NULL CHECK (what IN ('week', 'taken')),
  value     TEXT                              -- first day of the week as told, or the time (ISO 8601 of reduced
) STRICT;                                     --   precision); NULL: back to the tool's own judgement
CREATE INDEX assignment_by_photo ON assignment (photo_key, what, told_at, uuid);

-- one row per photo and kind for which a word about another photo holds, since it was edited in place and shows the same
-- picture. Derived from the words.
CREATE TABLE followed_assignment (
  photo_key TEXT NOT NULL,
  what      TEXT NOT NULL CHECK (what IN ('week', 'taken')),
  value     TEXT,                             -- NULL: back to the tool's own judgement
  since     TEXT NOT NULL,                    -- when it was told: UTC, microseconds
  PRIMARY KEY (photo_key, what)
) STRICT, WITHOUT ROWID;

------------------------------------------------------------------------------------------------ what readers select

-- one row per clock correction that holds, in the order they were told
CREATE VIEW clock_correction AS
SELECT uuid, told_at, make, model, serial, shift_seconds, since, until
FROM clock_log
WHERE shift_seconds IS NOT NULL
  AND NOT EXISTS (SELECT 1 FROM clock_log AS later WHERE later.takes_back = clock_log.uuid);

-- one row per photo and kind ('week', 'taken') for which something was told by hand, as it stands now
CREATE VIEW photo_assignment AS
SELECT photo_key, what, value, told_at
FROM assignment
WHERE value IS NOT NULL
  AND NOT EXISTS (SELECT 1 FROM assignment AS later
                  WHERE later.photo_key = assignment.photo_key AND later.what = assignment.what
                  AND (later.told_at, later.uuid) > (assignment.told_at, assignment.uuid))
  AND NOT EXISTS (SELECT 1 FROM followed_assignment AS followed
                  WHERE followed.photo_key = assignment.photo_key AND followed.what = assignment.what)
UNION ALL
SELECT photo_key, what, value, since
FROM followed_assignment
WHERE value IS NOT NULL;

-- one row per photo, sizes and shape as displayed; `present` is 0 when no file of it is there any more; `keeper` is 1
-- for a photo that stands for itself or its set, 0 for one that is left out; `placed` has 10 letters or more where a
-- day is known: the album day is its date, moved by day.starts_at where it has a clock time
DROP VIEW photo;
CREATE VIEW photo AS
SELECT picture.key, picture.code, picture.taken, picture.placed, picture.fraction, picture.precision,
       picture.offset_minutes, picture.source, picture.doubtful, picture.reason, picture.evidence_id, picture.twin_key,
       lead.file_id, lead.folder, lead.path, lead.size, lead.mtime_ns, lead.format, lead.orientation,
       lead.camera, lead.make, lead.model, lead.serial, lead.latitude, lead.longitude, lead.width, lead.height, lead.damage,
       CASE WHEN abs(lead.width - lead.height) <= 0.03 * max(lead.width, lead.height) THEN 'square'
            WHEN lead.height > lead.width THEN 'portrait' ELSE 'landscape' END AS shape,
       lead.missing_since IS NULL AS present,
       photo_choice.choice,
       photo_choice.choice IS NOT 'leave'
         AND NOT EXISTS (SELECT 1 FROM alike_member WHERE alike_member.photo_key = picture.key AND NOT keeper) AS keeper
FROM picture JOIN photo_file AS lead ON lead.file_id = picture.lead_file_id
     LEFT JOIN photo_choice ON photo_choice.photo_key = picture.key;

PRAGMA user_version = 3;
COMMIT;
