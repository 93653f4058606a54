/**
 * Stocks, batches, cameras, rolls, frames, outings.
 * A calendar date is four columns: `*_edtf` (EDTF, ISO 8601-2), `*_typed` (the words as given), `*_earliest` and
 * `*_latest` (YYYY-MM-DD, for searching). Unknown is NULL everywhere.
 */
export const FILM_TABLES = `
-- One row is a film that the user uses.
CREATE TABLE stock (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL UNIQUE,
  maker TEXT,
  iso INTEGER CHECK (iso > 0),
  process TEXT NOT NULL CHECK (process IN ('c41', 'bw', 'e6', 'ecn2', 'other')),
  base TEXT CHECK (base IN ('acetate', 'polyester')),
  fixer_factor REAL NOT NULL DEFAULT 1 CHECK (fixer_factor > 0),
  note TEXT,
  created_at TEXT NOT NULL
) STRICT;

-- One row says that a stock comes in a film format.
CREATE TABLE stock_format (
  stock_id INTEGER NOT NULL REFERENCES stock (id) ON DELETE CASCADE,
  film_format TEXT NOT NULL,
  PRIMARY KEY (stock_id, film_format)
) STRICT, WITHOUT ROWID;

-- One row is rolls (or one tin of bulk film) bought together.
CREATE TABLE batch (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  stock_id INTEGER NOT NULL REFERENCES stock (id),
  kind TEXT NOT NULL DEFAULT 'rolls' CHECK (kind IN ('rolls', 'bulk')),
  film_format TEXT NOT NULL,
  emulsion_number TEXT,
  expires_edtf TEXT,
  expires_typed TEXT,
  expires_earliest TEXT,
  expires_latest TEXT,
  rolls_bought INTEGER CHECK (rolls_bought >= 0),
  exposures INTEGER CHECK (exposures > 0),
  bulk_length_mm REAL CHECK (bulk_length_mm > 0),
  bulk_wasted_mm REAL CHECK (bulk_wasted_mm >= 0),
  bought_edtf TEXT,
  note TEXT,
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX batch_stock ON batch (stock_id);
CREATE INDEX batch_expires ON batch (expires_latest);

-- One row is a time that a batch lay in one place; the next row of the batch ends it.
CREATE TABLE batch_storage (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  batch_id INTEGER NOT NULL REFERENCES batch (id) ON DELETE CASCADE,
  place TEXT NOT NULL CHECK (place IN ('room', 'fridge', 'freezer')),
  since_edtf TEXT,
  since_typed TEXT,
  since_earliest TEXT,
  since_latest TEXT
) STRICT;
CREATE INDEX batch_storage_batch ON batch_storage (batch_id, since_earliest);

-- One row is a camera body (or a film back) of the user.
CREATE TABLE camera (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL UNIQUE,
  film_format TEXT,
  frame_format TEXT,
  note TEXT,
  created_at TEXT NOT NULL
) STRICT;

-- One row is something done to a camera: seals replaced, shutter serviced; it splits faults into before and after.
CREATE TABLE camera_service (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  camera_id INTEGER NOT NULL REFERENCES camera (id) ON DELETE CASCADE,
  done_edtf TEXT NOT NULL,
  done_earliest TEXT,
  done_latest TEXT,
  what TEXT NOT NULL
) STRICT;
CREATE INDEX camera_service_camera ON camera_service (camera_id);

-- One row is a lens.
CREATE TABLE lens (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL UNIQUE,
  note TEXT
) STRICT;

-- One row is a piece of film with a number of its own for life.
CREATE TABLE roll (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  number TEXT NOT NULL UNIQUE,
  number_sort TEXT NOT NULL,
  title TEXT,
  stock_id INTEGER REFERENCES stock (id),
  batch_id INTEGER REFERENCES batch (id),
  camera_id INTEGER REFERENCES camera (id),
  film_format TEXT NOT NULL,
  frame_format TEXT NOT NULL,
  exposures INTEGER CHECK (exposures > 0),
  exposure_index INTEGER CHECK (exposure_index > 0),
  push_stops REAL,
  expires_edtf TEXT,
  expires_typed TEXT,
  expires_earliest TEXT,
  expires_latest TEXT,
  state TEXT NOT NULL CHECK (state IN ('on hand', 'in camera', 'to develop', 'developed', 'filed')),
  cassette TEXT,
  scan_polarity TEXT NOT NULL DEFAULT 'auto' CHECK (scan_polarity IN ('auto', 'negative', 'positive')),
  scan_tone TEXT NOT NULL DEFAULT 'auto' CHECK (scan_tone IN ('auto', 'colour', 'monochrome')),
  look_json TEXT,
  lab TEXT,
  note TEXT,
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX roll_number_order ON roll (number_sort);
CREATE INDEX roll_state ON roll (state, number_sort);
CREATE INDEX roll_stock ON roll (stock_id, number_sort);
CREATE INDEX roll_camera ON roll (camera_id, number_sort);
CREATE INDEX roll_batch ON roll (batch_id);

-- One row is the day a roll came into a state. Kept when the state goes on.
CREATE TABLE roll_state_date (
  roll_id INTEGER NOT NULL REFERENCES roll (id) ON DELETE CASCADE,
  state TEXT NOT NULL,
  since_edtf TEXT,
  since_typed TEXT,
  since_earliest TEXT,
  since_latest TEXT,
  PRIMARY KEY (roll_id, state)
) STRICT, WITHOUT ROWID;

-- One row is a roll number ever given; numbers are never reused.
CREATE TABLE issued_number (
  number TEXT NOT NULL PRIMARY KEY,
  issued_at TEXT NOT NULL
) STRICT, WITHOUT ROWID;

-- One row is a session of shooting.
CREATE TABLE outing (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  title TEXT NOT NULL,
  date_edtf TEXT,
  date_typed TEXT,
  date_earliest TEXT,
  date_latest TEXT,
  place TEXT,
  note TEXT,
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX outing_date ON outing (date_earliest);

-- One row says that frames of a roll were made on an outing: all of it ('whole'), or those whose frame.outing_id says so.
CREATE TABLE outing_roll (
  outing_id INTEGER NOT NULL REFERENCES outing (id) ON DELETE CASCADE,
  roll_id INTEGER NOT NULL REFERENCES roll (id) ON DELETE CASCADE,
  whole INTEGER NOT NULL CHECK (whole IN (0, 1)),
  PRIMARY KEY (outing_id, roll_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX outing_roll_roll ON outing_roll (roll_id);

-- One row is an exposure of a roll: its place along the film and the label printed on the film's edge.
CREATE TABLE frame (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  roll_id INTEGER NOT NULL REFERENCES roll (id) ON DELETE CASCADE,
  ordinal INTEGER NOT NULL,
  label TEXT NOT NULL,
  frame_format TEXT,
  outing_id INTEGER REFERENCES outing (id) ON DELETE SET NULL,
  lens_id INTEGER REFERENCES lens (id) ON DELETE SET NULL,
  shutter TEXT,
  aperture REAL CHECK (aperture > 0),
  filter TEXT,
  caption TEXT,
  place TEXT,
  latitude REAL CHECK (latitude BETWEEN -90 AND 90),
  longitude REAL CHECK (longitude BETWEEN -180 AND 180),
  taken_edtf TEXT,
  taken_typed TEXT,
  taken_earliest TEXT,
  taken_latest TEXT,
  taken_time TEXT,
  turned INTEGER NOT NULL DEFAULT 0 CHECK (turned IN (0, 90, 180, 270)),
  mirrored INTEGER NOT NULL DEFAULT 0 CHECK (mirrored IN (0, 1)),
  look_json TEXT,
  strip_id INTEGER REFERENCES strip (id) ON DELETE SET NULL,
  strip_position INTEGER CHECK (strip_position > 0),
  note TEXT,
  UNIQUE (roll_id, label)
) STRICT;
CREATE UNIQUE INDEX frame_order ON frame (roll_id, ordinal);
CREATE INDEX frame_strip ON frame (strip_id, strip_position);
CREATE INDEX frame_outing ON frame (outing_id);
CREATE INDEX frame_taken ON frame (taken_earliest, id);
CREATE INDEX frame_lens ON frame (lens_id);

-- One row is a word that frames are tagged with.
CREATE TABLE tag (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL UNIQUE
) STRICT;

CREATE TABLE frame_tag (
  tag_id INTEGER NOT NULL REFERENCES tag (id) ON DELETE CASCADE,
  frame_id INTEGER NOT NULL REFERENCES frame (id) ON DELETE CASCADE,
  PRIMARY KEY (tag_id, frame_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX frame_tag_frame ON frame_tag (frame_id);

-- One row is a mark drawn with a grease pencil: box (print this), dot (maybe), stroke (no), crop lines.
-- Crop lines are fractions of the picture as it lies on the film.
CREATE TABLE pencil_mark (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  frame_id INTEGER NOT NULL REFERENCES frame (id) ON DELETE CASCADE,
  kind TEXT NOT NULL CHECK (kind IN ('box', 'dot', 'stroke', 'crop')),
  x REAL, y REAL, width REAL, height REAL,
  made_at TEXT NOT NULL,
  UNIQUE (frame_id, kind)
) STRICT;
CREATE INDEX pencil_mark_kind ON pencil_mark (kind, frame_id);

-- One row is something wrong on a frame, with where it shows (fractions of the picture, or millimetres from the edge).
CREATE TABLE fault (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  frame_id INTEGER NOT NULL REFERENCES frame (id) ON DELETE CASCADE,
  kind TEXT NOT NULL,
  edge TEXT CHECK (edge IN ('left', 'right', 'top', 'bottom')),
  from_edge_mm REAL,
  x REAL, y REAL, width REAL, height REAL,
  source TEXT NOT NULL DEFAULT 'seen' CHECK (source IN ('seen', 'measured')),
  note TEXT
) STRICT;
CREATE INDEX fault_frame ON fault (frame_id);
CREATE INDEX fault_kind ON fault (kind, frame_id);
`;
