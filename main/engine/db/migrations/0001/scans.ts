/** Scan roots, scans, their pages, the pictures they hold, and which frame each shows. */
export const SCAN_TABLES = `
-- One row is a folder or drive that holds scans; it may be absent, and may come back under another path.
CREATE TABLE scan_root (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  path TEXT NOT NULL UNIQUE,
  name TEXT,
  last_seen_at TEXT,
  created_at TEXT NOT NULL
) STRICT;

-- One row is one image file on a scan root. 'path' is relative to the root, as the file system spells it.
CREATE TABLE scan (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  root_id INTEGER NOT NULL REFERENCES scan_root (id),
  path TEXT NOT NULL,
  path_compare TEXT NOT NULL,
  size_bytes INTEGER NOT NULL,
  modified_ns TEXT NOT NULL,
  sha256 TEXT NOT NULL,
  kind TEXT NOT NULL,
  state TEXT NOT NULL CHECK (state IN ('complete', 'damaged', 'unfinished', 'refused')),
  reason TEXT,
  reason_code TEXT,
  remarks_json TEXT NOT NULL DEFAULT '[]',
  pages INTEGER NOT NULL DEFAULT 1,
  width INTEGER,
  height INTEGER,
  bits INTEGER,
  channels INTEGER,
  profile TEXT,
  orientation INTEGER,
  infrared INTEGER NOT NULL DEFAULT 0 CHECK (infrared IN (0, 1)),
  ppi REAL,
  phys_width_mm REAL,
  phys_height_mm REAL,
  captured TEXT,
  captured_raw TEXT,
  scanned TEXT,
  scanned_raw TEXT,
  maker TEXT,
  model TEXT,
  software TEXT,
  captions_json TEXT NOT NULL DEFAULT '[]',
  found_at TEXT NOT NULL,
  checked_at TEXT NOT NULL,
  missing_since TEXT,
  UNIQUE (root_id, path)
) STRICT;
CREATE INDEX scan_content ON scan (sha256);
CREATE INDEX scan_compare ON scan (root_id, path_compare);

-- One row is a picture by content: one page of a file, with what was measured on it. Previews lie under this key.
CREATE TABLE picture (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  sha256 TEXT NOT NULL,
  page INTEGER NOT NULL,
  role TEXT NOT NULL CHECK (role IN ('scan', 'preview', 'infrared')),
  width INTEGER NOT NULL,
  height INTEGER NOT NULL,
  hash BLOB,
  statistics_json TEXT,
  cast_json TEXT,
  polarity TEXT CHECK (polarity IN ('negative', 'positive')),
  tone TEXT CHECK (tone IN ('colour', 'monochrome', 'toned')),
  described_at TEXT,
  UNIQUE (sha256, page)
) STRICT;

-- One row says that a picture (or a part of it: half frames, strips) shows a frame. Region in fractions.
CREATE TABLE frame_scan (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  frame_id INTEGER NOT NULL REFERENCES frame (id) ON DELETE CASCADE,
  scan_id INTEGER NOT NULL REFERENCES scan (id) ON DELETE CASCADE,
  page INTEGER NOT NULL DEFAULT 0,
  x REAL NOT NULL DEFAULT 0, y REAL NOT NULL DEFAULT 0,
  width REAL NOT NULL DEFAULT 1, height REAL NOT NULL DEFAULT 1,
  version TEXT NOT NULL DEFAULT 'scan',
  best INTEGER NOT NULL DEFAULT 0 CHECK (best IN (0, 1)),
  turned INTEGER NOT NULL DEFAULT 0 CHECK (turned IN (0, 90, 180, 270)),
  mirrored INTEGER NOT NULL DEFAULT 0 CHECK (mirrored IN (0, 1)),
  confidence REAL NOT NULL,
  reason TEXT NOT NULL,
  UNIQUE (frame_id, scan_id, page, x, y)
) STRICT;
CREATE INDEX frame_scan_scan ON frame_scan (scan_id);

-- One row is what was measured on a roll's scans: a cache. 'shown' names its previews where negatives are shown as
-- positives.
CREATE TABLE roll_colour (
  roll_id INTEGER NOT NULL PRIMARY KEY REFERENCES roll (id) ON DELETE CASCADE,
  key TEXT NOT NULL,
  shown TEXT,
  measured_json TEXT NOT NULL
) STRICT;

-- One row is a sheet that was printed or saved: what was chosen, for printing it again.
CREATE TABLE contact_sheet (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  title TEXT NOT NULL,
  spec_json TEXT NOT NULL,
  rolls_json TEXT NOT NULL,
  made_at TEXT NOT NULL
) STRICT;

-- One row is a search kept under a name.
CREATE TABLE saved_search (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL UNIQUE,
  query TEXT NOT NULL,
  shown_as TEXT NOT NULL CHECK (shown_as IN ('frames', 'rolls', 'pages')),
  created_at TEXT NOT NULL
) STRICT;

-- The words of a frame, folded: a cache that is rebuilt from the rest.
CREATE VIRTUAL TABLE frame_words USING fts5 (
  caption, place, tags, roll, outing, notes,
  tokenize = 'unicode61 remove_diacritics 2', prefix = '2 3', content = '', contentless_delete = 1
);

-- One row is a frame whose words are to be read again.
CREATE TABLE stale_words (
  frame_id INTEGER NOT NULL PRIMARY KEY
) STRICT;
`;
