/** Processes, tanks, baths and developments. Temperatures in °C, times in seconds, volumes in ml, areas in cm². */
export const DEVELOPMENT_TABLES = `
-- One row is a process of the user's own (a copy of a shipped one, edited); shipped ones are data of the program.
CREATE TABLE process (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL UNIQUE,
  kind TEXT NOT NULL CHECK (kind IN ('c41', 'bw', 'e6', 'ecn2', 'other')),
  copied_from TEXT,
  process_json TEXT NOT NULL,
  note TEXT,
  created_at TEXT NOT NULL
) STRICT;

-- One row is a tank with what it takes.
CREATE TABLE tank (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL UNIQUE,
  kind TEXT NOT NULL DEFAULT 'inversion' CHECK (kind IN ('inversion', 'rotary', 'tray', 'other')),
  reels INTEGER CHECK (reels > 0),
  ml_per_135 REAL CHECK (ml_per_135 > 0),
  ml_per_120 REAL CHECK (ml_per_120 > 0),
  volume_ml REAL CHECK (volume_ml > 0),
  cooling_per_minute REAL CHECK (cooling_per_minute > 0),
  note TEXT
) STRICT;

-- One row is a mixed solution with a life of its own.
CREATE TABLE bath (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  name TEXT NOT NULL UNIQUE,
  kind TEXT NOT NULL,
  process TEXT,
  mixed_edtf TEXT,
  mixed_typed TEXT,
  mixed_earliest TEXT,
  mixed_latest TEXT,
  volume_ml REAL CHECK (volume_ml > 0),
  dilution TEXT,
  capacity_cm2 REAL CHECK (capacity_cm2 > 0),
  shelf_days INTEGER CHECK (shelf_days > 0),
  one_shot INTEGER NOT NULL DEFAULT 0 CHECK (one_shot IN (0, 1)),
  added_time_json TEXT,
  used_before_cm2 REAL NOT NULL DEFAULT 0 CHECK (used_before_cm2 >= 0),
  state TEXT NOT NULL DEFAULT 'in use' CHECK (state IN ('in use', 'discarded', 'spoilt')),
  ended_at TEXT,
  ended_reason TEXT,
  note TEXT,
  created_at TEXT NOT NULL
) STRICT;

-- One row is a session of developing: the plan as it was made, and what happened, apart.
CREATE TABLE development (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  process TEXT NOT NULL CHECK (process IN ('c41', 'bw', 'e6', 'ecn2', 'other')),
  process_name TEXT,
  tank_id INTEGER REFERENCES tank (id),
  state TEXT NOT NULL CHECK (state IN ('planned', 'running', 'done', 'aborted')),
  date_edtf TEXT,
  date_typed TEXT,
  date_earliest TEXT,
  date_latest TEXT,
  push_stops REAL NOT NULL DEFAULT 0,
  developer_seconds REAL CHECK (developer_seconds > 0),
  developer_temp_c REAL,
  developer_nominal_temp_c REAL,
  developer_bath_id INTEGER REFERENCES bath (id),
  developer_used_before_cm2 REAL,
  plan_json TEXT,
  started_at TEXT,
  finished_at TEXT,
  who TEXT,
  place TEXT,
  note TEXT,
  created_at TEXT NOT NULL
) STRICT;
CREATE INDEX development_date ON development (date_earliest);
CREATE INDEX development_bath ON development (developer_bath_id);

-- One row says that a roll went through a development.
CREATE TABLE development_roll (
  development_id INTEGER NOT NULL REFERENCES development (id) ON DELETE CASCADE,
  roll_id INTEGER NOT NULL REFERENCES roll (id) ON DELETE CASCADE,
  reel INTEGER,
  PRIMARY KEY (development_id, roll_id)
) STRICT, WITHOUT ROWID;
CREATE INDEX development_roll_roll ON development_roll (roll_id);

-- One row is a step of a development: planned and actual beside each other, the plan never overwritten.
CREATE TABLE development_step (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  development_id INTEGER NOT NULL REFERENCES development (id) ON DELETE CASCADE,
  ordinal INTEGER NOT NULL,
  name TEXT NOT NULL,
  bath_kind TEXT,
  bath_id INTEGER REFERENCES bath (id),
  planned_seconds REAL,
  planned_temp_c REAL,
  tolerance_c REAL,
  agitation TEXT,
  actual_seconds REAL,
  actual_temp_c REAL,
  started_at TEXT,
  UNIQUE (development_id, ordinal)
) STRICT;
CREATE INDEX development_step_bath ON development_step (bath_id);

-- One row is a thing that happened during a run, in the order it was recorded; never changed, only added to.
CREATE TABLE development_event (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  development_id INTEGER NOT NULL REFERENCES development (id) ON DELETE CASCADE,
  at TEXT NOT NULL,
  kind TEXT NOT NULL,
  step INTEGER,
  temp_c REAL,
  seconds REAL,
  text TEXT,
  corrects INTEGER REFERENCES development_event (id)
) STRICT;
CREATE INDEX development_event_development ON development_event (development_id, id);

-- One row is film that went through a bath: the bath's ledger.
CREATE TABLE bath_use (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  bath_id INTEGER NOT NULL REFERENCES bath (id),
  development_id INTEGER REFERENCES development (id) ON DELETE CASCADE,
  area_cm2 REAL NOT NULL CHECK (area_cm2 >= 0),
  weighted_area_cm2 REAL NOT NULL CHECK (weighted_area_cm2 >= 0),
  used_at TEXT NOT NULL,
  note TEXT
) STRICT;
CREATE INDEX bath_use_bath ON bath_use (bath_id, used_at);
CREATE INDEX bath_use_development ON bath_use (development_id);

-- One row is a clearing test of a fixer with a scrap of film.
CREATE TABLE clearing_test (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  bath_id INTEGER NOT NULL REFERENCES bath (id) ON DELETE CASCADE,
  stock_id INTEGER REFERENCES stock (id),
  tested_at TEXT NOT NULL,
  seconds REAL NOT NULL CHECK (seconds > 0),
  fresh INTEGER NOT NULL CHECK (fresh IN (0, 1))
) STRICT;
CREATE INDEX clearing_test_bath ON clearing_test (bath_id, tested_at);

-- One row is a density read on a frame of a step wedge or grey card.
CREATE TABLE control_reading (
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  frame_id INTEGER NOT NULL REFERENCES frame (id) ON DELETE CASCADE,
  patch TEXT NOT NULL,
  aim REAL,
  red REAL NOT NULL,
  green REAL NOT NULL,
  blue REAL NOT NULL,
  read_at TEXT NOT NULL,
  UNIQUE (frame_id, patch)
) STRICT;
`;
