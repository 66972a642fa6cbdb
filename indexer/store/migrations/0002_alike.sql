-- Alike photos: what the pixels show, which photos resemble each other, which one stands for its set.
BEGIN;

---------------------------------------------------------------------------------------------------- read off files

-- one row per photo whose pixels were looked at, or that has none to look at. Kept while its photo is known, and beyond
-- while a word names it.
CREATE TABLE pixel (
  key           TEXT    PRIMARY KEY,
  method        INTEGER NOT NULL,             -- of the looking that made this row; an older one is looked at again
  made_from     TEXT    NOT NULL CHECK (made_from IN ('thumbnail', 'decode', 'nothing')),
  problem       TEXT    CHECK ((problem IS NOT NULL) = (made_from = 'nothing')),  -- why nothing could be looked at
  orientation   INTEGER,                      -- of the file looked at; a photo that is turned is looked at again
  width         INTEGER,                      -- pixels as displayed
  height        INTEGER,
  phash         BLOB,                         -- 8 bytes: perceptual hash by the low frequencies
  dhash         BLOB,                         -- 8 bytes: perceptual hash by the differences of neighbours
  layout        BLOB,                         -- 8 x 8 x 3 bytes: CIELAB means, L * 2.55, a + 128, b + 128
  contrast      REAL,                         -- standard deviation of `grey`, 0..127.5
  sharpness_960 REAL,                         -- variance of the Laplacian at a longer side of 960 pixels; NULL where
  sharpness_480 REAL,                         --   the picture is smaller or was not decoded
  sharpness_240 REAL,
  dark          REAL,                         -- share of the pixels that are clipped at black, 0..1
  bright        REAL,                         -- share that is clipped at white
  subject       TEXT    CHECK (subject IN ('photograph', 'text', 'blank')),
  pictures      INTEGER,                      -- how many the file holds: frames of an animation, shots of a burst file
  grey          BLOB                          -- 64 x 64 bytes, row by row: the upright picture squashed to a square.
) STRICT;                                     --   Last, since what comes behind so long a value is slow to reach
CREATE INDEX pixel_by_source ON pixel (made_from, key);

-- one row per photo that was compared with all others
CREATE TABLE compared (
  key     TEXT PRIMARY KEY,
  with_it TEXT NOT NULL                       -- method, time, camera and size then; others are a reason to compare anew
) STRICT, WITHOUT ROWID;

-- one row per two photos that show one picture or one scene. Derived from the rows above.
CREATE TABLE likeness (
  one_key   TEXT NOT NULL,                    -- the smaller key
  other_key TEXT NOT NULL,
  kind      TEXT NOT NULL CHECK (kind IN ('copy', 'burst')),
  score     REAL NOT NULL,                    -- how sure: log odds for a burst, 1 - difference for a copy
  PRIMARY KEY (one_key, other_key)
) STRICT, WITHOUT ROWID;
CREATE INDEX likeness_by_other ON likeness (other_key);

-- one row per photo in a set of photos alike. Derived anew whenever a likeness, a time or a choice changes.
CREATE TABLE alike_member (
  set_id    INTEGER NOT NULL,                 -- of no lasting meaning
  kind      TEXT    NOT NULL CHECK (kind IN ('copy', 'burst')),
  photo_key TEXT    NOT NULL,
  place     INTEGER NOT NULL,                 -- 0: the keeper, others in the order they were taken
  keeper    INTEGER NOT NULL,                 -- 1: stands for the set; several do when the person kept several
  reason    TEXT    NOT NULL,                 -- why the keeper was chosen; '' on the other rows
  PRIMARY KEY (set_id, place)
) STRICT, WITHOUT ROWID;
CREATE INDEX alike_member_by_photo ON alike_member (photo_key);

--------------------------------------------------------------------------------------------- told by the person

-- one row per word about a photo: append-only, the latest one holds
CREATE TABLE choice (
  uuid      TEXT PRIMARY KEY,
  told_at   TEXT NOT NULL,                    -- UTC, microseconds
  photo_key TEXT NOT NULL,
  choice    TEXT CHECK (choice IN ('keep', 'leave'))   -- NULL: back to the tool's own choice
) STRICT;
CREATE INDEX choice_by_photo ON choice (photo_key, told_at, uuid);

-- one row per photo for which a word about another one holds, since it was edited in place and shows the same picture.
-- Derived from the words.
CREATE TABLE followed_choice (
  photo_key TEXT PRIMARY KEY,
  choice    TEXT CHECK (choice IN ('keep', 'leave')),  -- NULL: back to the tool's own choice
  since     TEXT NOT NULL                     -- when it was told: UTC, microseconds
) STRICT, WITHOUT ROWID;

------------------------------------------------------------------------------------------------ what readers select

-- one row per photo that something was chosen for, as it stands now
CREATE VIEW photo_choice AS
SELECT photo_key, choice, told_at
FROM choice
WHERE choice IS NOT NULL
  AND NOT EXISTS (SELECT 1 FROM choice AS later WHERE later.photo_key = choice.photo_key
                  AND (later.told_at, later.uuid) > (choice.told_at, choice.uuid))
  AND NOT EXISTS (SELECT 1 FROM followed_choice WHERE followed_choice.photo_key = choice.photo_key)
UNION ALL
SELECT photo_key, choice, since
FROM followed_choice
WHERE choice IS NOT NULL;

-- one row per photo in a set of photos alike, the keeper of each set first
CREATE VIEW alike_set AS
SELECT set_id, kind, photo_key, place, keeper, reason FROM alike_member;

-- one row per photo whose pixels were looked at, or that has none to look at
CREATE VIEW look AS
SELECT key, made_from, problem, phash, dhash, layout, contrast, sharpness_960, sharpness_480, sharpness_240, dark,
       bright, subject, pictures
FROM pixel;

-- one row per photo, sizes and shape as displayed; `present` is 0 when no file of it is there any more; `keeper` is 1
-- for a photo that stands for itself or its set, 0 for one that is left out
DROP VIEW photo;
CREATE VIEW photo AS
SELECT picture.key, picture.code, picture.taken, picture.fraction, picture.precision, picture.offset_minutes,
       picture.source, picture.doubtful, picture.reason, picture.evidence_id,
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

PRAGMA user_version = 2;
COMMIT;
