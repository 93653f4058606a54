/** Binders, pages, strips. A pocket is (page, row); a position counts frames from the left within the row. */
export const FILING_TABLES = `
-- One row is a page layout of the user's own; the usual ones are data of the program.
CREATE TABLE page_layout (
  id TEXT NOT NULL PRIMARY KEY,
  name TEXT NOT NULL,
  layout_json TEXT NOT NULL,
  created_at TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- One row is a binder on the shelf.
CREATE TABLE binder (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL UNIQUE,
  name_sort TEXT NOT NULL,
  spine_mm REAL CHECK (spine_mm > 0),
  place TEXT,
  note TEXT,
  created_at TEXT NOT NULL
) STRICT;

-- One row is a sleeve page in a binder.
CREATE TABLE page (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  binder_id INTEGER NOT NULL REFERENCES binder (id),
  number INTEGER NOT NULL CHECK (number > 0),
  layout_id TEXT NOT NULL,
  material TEXT,
  title TEXT,
  note TEXT,
  UNIQUE (binder_id, number)
) STRICT;

-- One row is a run of consecutive frames cut from a roll, lying in a pocket or (page NULL) still loose.
CREATE TABLE strip (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  roll_id INTEGER NOT NULL REFERENCES roll (id) ON DELETE CASCADE,
  ordinal INTEGER NOT NULL,
  page_id INTEGER REFERENCES page (id),
  row INTEGER CHECK (row > 0),
  position INTEGER CHECK (position > 0),
  reversed INTEGER NOT NULL DEFAULT 0 CHECK (reversed IN (0, 1)),
  note TEXT,
  CHECK ((page_id IS NULL) = (row IS NULL) AND (page_id IS NULL) = (position IS NULL))
) STRICT;
CREATE INDEX strip_roll ON strip (roll_id, ordinal);
CREATE UNIQUE INDEX strip_pocket ON strip (page_id, row, position);
`;
