-- How somebody's screens show what is stored in SI units: theirs in every yard.

CREATE TYPE "unit_system" AS ENUM ('metric', 'imperial');
CREATE TYPE "temperature_scale" AS ENUM ('celsius', 'fahrenheit');

ALTER TABLE "account"
  ADD COLUMN "units" "unit_system" NOT NULL DEFAULT 'metric',
  ADD COLUMN "temperature" "temperature_scale" NOT NULL DEFAULT 'celsius';
