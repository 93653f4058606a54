/** What the archive says of itself: settings, jobs, undo, corrections, fixity checks. */
export const KEEPING_TABLES = `
-- One row is a setting of this archive: its identity, the numbering pattern, units.
CREATE TABLE setting (
  name TEXT NOT NULL PRIMARY KEY,
  value TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- One row is a long piece of work, so that it can go on after a restart.
CREATE TABLE job (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  kind TEXT NOT NULL,
  input_json TEXT NOT NULL,
  state TEXT NOT NULL CHECK (state IN ('running', 'stopped', 'done', 'failed')),
  done INTEGER NOT NULL DEFAULT 0,
  total INTEGER,
  report_json TEXT,
  started_at TEXT NOT NULL,
  ended_at TEXT
) STRICT;

-- One row is one action of the user that can be taken back (or, after undo, done again).
CREATE TABLE undo_action (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  label TEXT NOT NULL,
  stack TEXT NOT NULL CHECK (stack IN ('undo', 'redo')),
  made_at TEXT NOT NULL
) STRICT;

-- One row is the inverse of one change of one row.
CREATE TABLE undo_step (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  action_id INTEGER NOT NULL REFERENCES undo_action (id) ON DELETE CASCADE,
  sql TEXT NOT NULL
) STRICT;
CREATE INDEX undo_step_action ON undo_step (action_id, id);

-- One row is a fact that was corrected after it had been recorded, with what stood there before.
CREATE TABLE correction (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  of_table TEXT NOT NULL,
  of_id INTEGER NOT NULL,
  of_column TEXT NOT NULL,
  before TEXT,
  after TEXT,
  why TEXT,
  made_at TEXT NOT NULL
) STRICT;
CREATE INDEX correction_of ON correction (of_table, of_id);

-- One row is a time that the contents of a scan root were checked against their checksums.
CREATE TABLE fixity_check (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  root_id INTEGER REFERENCES scan_root (id) ON DELETE CASCADE,
  started_at TEXT NOT NULL,
  ended_at TEXT,
  checked INTEGER NOT NULL DEFAULT 0,
  changed INTEGER NOT NULL DEFAULT 0,
  missing INTEGER NOT NULL DEFAULT 0
) STRICT;
CREATE INDEX fixity_check_root ON fixity_check (root_id);
`;
