-- Prints: the week's own words for its journaling cards, and the orders that went to the lab.
BEGIN;

--------------------------------------------------------------------------------------------- told by the person

-- one row per text told for a week's journaling cards, or per one taken back: append-only
CREATE TABLE note_log (
  uuid       TEXT PRIMARY KEY,
  told_at    TEXT NOT NULL,                   -- UTC, microseconds
  first_day  TEXT NOT NULL,                   -- of the week as it was told, for ever
  day        TEXT,                            -- ISO date of the one day it tells of; NULL: the whole week
  text       TEXT CHECK (text <> ''),         -- paragraphs with line feeds between them; NULL where one is taken back
  takes_back TEXT,                            -- the uuid of a note that no longer holds
  CHECK ((text IS NULL) = (takes_back IS NOT NULL))
) STRICT;
CREATE INDEX note_log_by_taken_back ON note_log (takes_back);

-- one row per word about an order of prints: append-only
CREATE TABLE order_log (
  uuid     TEXT PRIMARY KEY,
  told_at  TEXT NOT NULL,                     -- UTC, microseconds
  order_id TEXT NOT NULL,                     -- a UUID, the same in all words about one order
  number   INTEGER NOT NULL CHECK (number > 0), -- as in the names of its prints, o12-07: 12
  what     TEXT NOT NULL CHECK (what IN ('planned', 'sent', 'arrived', 'dropped', 'reprint', 'taken back')),
  content  TEXT,                              -- JSON: what a planned order holds, which pieces are to be printed again
  takes_back TEXT,                            -- the uuid of a word about the order that no longer holds
  CHECK ((content IS NOT NULL) = (what IN ('planned', 'reprint'))),
  CHECK ((takes_back IS NOT NULL) = (what = 'taken back'))
) STRICT;
CREATE INDEX order_log_by_order ON order_log (order_id, what, told_at, uuid);
CREATE INDEX order_log_by_taken_back ON order_log (takes_back);

------------------------------------------------------------------------------------------------ what readers select

-- one row per note that holds (first_day as told)
CREATE VIEW week_note AS
SELECT uuid, told_at, first_day, day, text
FROM note_log
WHERE text IS NOT NULL
  AND NOT EXISTS (SELECT 1 FROM note_log AS later WHERE later.takes_back = note_log.uuid);

-- one row per word about an order that holds
CREATE VIEW order_word AS
SELECT uuid, told_at, order_id, number, what, content
FROM order_log
WHERE what <> 'taken back'
  AND NOT EXISTS (SELECT 1 FROM order_log AS later WHERE later.takes_back = order_log.uuid);

-- one row per order as it stands now; what it held when it went to the lab holds for ever, before that the last told
CREATE VIEW print_order AS
SELECT
  order_id, number, told_at AS planned_at, content,
  CASE
    WHEN EXISTS (SELECT 1 FROM order_word AS word WHERE word.order_id = planned.order_id AND word.what = 'arrived')
      THEN 'arrived'
    WHEN EXISTS (SELECT 1 FROM order_word AS word WHERE word.order_id = planned.order_id AND word.what = 'sent')
      THEN 'sent'
    WHEN EXISTS (SELECT 1 FROM order_word AS word WHERE word.order_id = planned.order_id AND word.what = 'dropped')
      THEN 'dropped'
    ELSE 'planned'
  END AS state,
  (SELECT min(word.told_at) FROM order_word AS word
   WHERE word.order_id = planned.order_id AND word.what IN ('sent', 'arrived')) AS sent_at,
  (SELECT min(word.told_at) FROM order_word AS word
   WHERE word.order_id = planned.order_id AND word.what = 'arrived') AS arrived_at
FROM order_word AS planned
WHERE what = 'planned'
  AND uuid = (SELECT word.uuid FROM order_word AS word
              WHERE word.order_id = planned.order_id AND word.what = 'planned'
              ORDER BY word.told_at > coalesce((SELECT min(gone.told_at) FROM order_word AS gone
                                                WHERE gone.order_id = word.order_id
                                                AND gone.what IN ('sent', 'arrived')), '~'),
                       word.told_at DESC, word.uuid DESC
              LIMIT 1);

-- one row per word that pieces of a print are to be printed again
CREATE VIEW print_again AS
SELECT uuid, told_at, order_id, content
FROM order_word
WHERE what = 'reprint';

-- one row per two photos of different cameras that show one scene, whatever their clocks say
CREATE VIEW scene_pair AS
SELECT one_key, other_key, score FROM same_scene;

PRAGMA user_version = 5;
COMMIT;
