// The ledger's tables, as the steps that made them. Step n brings a file of version n - 1 to
// version n; a step that has been released is never changed, the next one is added below it.
#pragma once

#include <array>

namespace soot::ledger {

/// Marks the file as ours: "soot" in ASCII. Step 1 writes it.
inline constexpr int application_id = 0x736f6f74;

inline constexpr std::array<const char*, 1> schema_steps{R"sql(
PRAGMA application_id = 0x736f6f74;

CREATE TABLE job (
  number         INTEGER PRIMARY KEY,
  family         TEXT NOT NULL CHECK (family <> ''),
  family_version TEXT NOT NULL,
  plugin         TEXT NOT NULL,
  plugin_version TEXT NOT NULL,
  engine         TEXT NOT NULL,          -- the engine's own name, as the shop says it
  opened_at      TEXT NOT NULL           -- ISO 8601, UTC
) STRICT;

CREATE TABLE line (
  number  INTEGER PRIMARY KEY,           -- rises through the whole ledger
  job     INTEGER NOT NULL REFERENCES job (number),
  at      TEXT NOT NULL,                 -- ISO 8601, UTC
  kind    TEXT NOT NULL,
  payload TEXT NOT NULL CHECK (json_valid(payload)),
  strikes INTEGER UNIQUE REFERENCES line (number),
  CHECK ((kind = 'struck') = (strikes IS NOT NULL))
) STRICT;
CREATE INDEX line_of_job ON line (job, number);

CREATE TRIGGER line_stays BEFORE DELETE ON line
BEGIN SELECT raise(ABORT, 'a line of the record is never deleted'); END;
CREATE TRIGGER line_keeps BEFORE UPDATE ON line
BEGIN SELECT raise(ABORT, 'a line of the record is never overwritten'); END;

-- What still counts: neither crossed out nor a crossing-out.
CREATE VIEW standing AS
  SELECT * FROM line
  WHERE strikes IS NULL
    AND NOT EXISTS (SELECT 1 FROM line AS strike WHERE strike.strikes = line.number);

-- Open or closed follows from the lines, so that striking one out is the way back.
CREATE VIEW job_state AS
  SELECT job.*, coalesce((SELECT kind FROM standing
                          WHERE standing.job = job.number AND kind IN ('closed', 'reopened')
                          ORDER BY number DESC LIMIT 1), '') <> 'closed' AS is_open
  FROM job;

CREATE TABLE current_job (
  only_row INTEGER PRIMARY KEY CHECK (only_row = 1),
  job      INTEGER NOT NULL REFERENCES job (number)
) STRICT;
)sql"};

}  // namespace soot::ledger
