-- The spread planned: sleeves that the person drew, those at home, and the plan of each week's spread.
BEGIN;

--------------------------------------------------------------------------------------------- told by the person

-- one row per word about a sleeve's drawing: append-only, the latest one of each name holds
CREATE TABLE sleeve_log (
  uuid    TEXT PRIMARY KEY,
  told_at TEXT NOT NULL,                      -- UTC, microseconds
  name    TEXT NOT NULL,
  cell    TEXT,                               -- width x height of a letter of the drawing, such as 1x1in, 10x10mm
  drawing TEXT,                               -- of its front, equal letters one pocket; NULL: the sleeve is taken back
  CHECK ((drawing IS NULL) = (cell IS NULL))
) STRICT;
CREATE INDEX sleeve_log_by_name ON sleeve_log (name, told_at, uuid);

-- one row per word about a sleeve being at home or not: append-only, the latest one of each name holds
CREATE TABLE sleeve_own_log (
  uuid    TEXT PRIMARY KEY,
  told_at TEXT NOT NULL,                      -- UTC, microseconds
  name    TEXT NOT NULL,                      -- of a drawn sleeve or of one made by rule
  owned   INTEGER NOT NULL CHECK (owned IN (0, 1)) -- 1: at home
) STRICT;
CREATE INDEX sleeve_own_log_by_name ON sleeve_own_log (name, told_at, uuid);

-- one row per word about the plan of a week's spread: append-only, the latest one of each week holds
CREATE TABLE plan_log (
  uuid      TEXT PRIMARY KEY,
  told_at   TEXT NOT NULL,                    -- UTC, microseconds
  first_day TEXT NOT NULL,                    -- of the week as it was told, for ever
  plan      TEXT                              -- JSON: the whole plan and what was fixed in it; NULL: forgotten
) STRICT;
CREATE INDEX plan_log_by_week ON plan_log (first_day, told_at, uuid);

------------------------------------------------------------------------------------------------ what readers select

-- one row per sleeve that the person drew, as it stands now
CREATE VIEW sleeve_drawing AS
SELECT name, cell, drawing, told_at
FROM sleeve_log
WHERE drawing IS NOT NULL
  AND NOT EXISTS (SELECT 1 FROM sleeve_log AS later
                  WHERE later.name = sleeve_log.name
                  AND (later.told_at, later.uuid) > (sleeve_log.told_at, sleeve_log.uuid));

-- one row per sleeve that was told to be at home or not, as it stands now
CREATE VIEW sleeve_owned AS
SELECT name, owned, told_at
FROM sleeve_own_log
WHERE NOT EXISTS (SELECT 1 FROM sleeve_own_log AS later
                  WHERE later.name = sleeve_own_log.name
                  AND (later.told_at, later.uuid) > (sleeve_own_log.told_at, sleeve_own_log.uuid));

-- one row per week that has a plan, as it stands now (first_day as told)
CREATE VIEW spread_plan AS
SELECT uuid, told_at, first_day, plan
FROM plan_log
WHERE plan IS NOT NULL
  AND NOT EXISTS (SELECT 1 FROM plan_log AS later
                  WHERE later.first_day = plan_log.first_day
                  AND (later.told_at, later.uuid) > (plan_log.told_at, plan_log.uuid));

PRAGMA user_version = 4;
COMMIT;
