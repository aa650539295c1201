import { describe, expect, it } from 'vitest';
import { check } from '../checker/check.ts';
import type { Placement } from './plan.ts';
import { upgradePlan, upgradeProblem } from './upgrade.ts';
import { validate } from './validate.ts';

/**
 * A problem of version 1 as it was stored: a bulkhead is glued from 480 (frozen since 470), may
 * be coated from the table's minute on but not before 560, nor in the dew, inside the bond
 * window or after abrading; another is sanded with the clamp in the same hall.
 */
const stored: unknown = JSON.parse(`{
  "version": 1, "origin": "2026-01-05T00:00:00Z", "horizon": 1000,
  "skills": ["laminating", "sanding"],
  "calendars": [{ "id": "day", "shifts": [{ "start": 480, "end": 960 }], "breaks": [{ "start": 720, "end": 750 }] }],
  "builders": [
    { "id": "Ada", "calendar": 0, "abilities": [{ "skill": 0, "level": 2, "speed": 100 }], "source": "ada" },
    { "id": "Bo", "calendar": 0, "abilities": [{ "skill": 1, "level": 1, "speed": 50 }], "source": "bo" }
  ],
  "resources": [{ "id": "clamp", "steps": [{ "from": 0, "capacity": 1 }], "source": "clamp" }],
  "spaces": [{ "id": "hall", "dustReaches": [0], "settling": 10, "source": "hall" }],
  "activities": [
    { "id": "glue", "refit": 0, "release": 0, "source": "glue",
      "fixed": { "kind": "frozen", "start": 470, "finish": 500, "builders": [0] },
      "modes": [{ "duration": 0, "work": 3000, "floor": 0, "crew": [{ "skill": 0, "minLevel": 1, "count": 1 }],
        "demands": [{ "resource": 0, "amount": 1, "keptWhilePaused": false }], "splittable": false,
        "breaks": "relieved", "forbiddenStarts": [], "space": 0, "air": "clean" }] },
    { "id": "coat", "refit": 0, "release": 560, "source": "coat", "fixed": null,
      "modes": [{ "duration": 0, "work": 4000, "floor": 0, "crew": [{ "skill": 0, "minLevel": 2, "count": 1 }],
        "demands": [], "splittable": false, "breaks": "observed",
        "forbiddenStarts": [{ "start": 500, "end": 570 }], "space": 0, "air": "wet" }] },
    { "id": "sand", "refit": 1, "release": 0, "source": "sand", "fixed": null,
      "modes": [{ "duration": 0, "work": 5000, "floor": 0, "crew": [{ "skill": 1, "minLevel": 1, "count": 1 }],
        "demands": [{ "resource": 0, "amount": 1, "keptWhilePaused": true }], "splittable": true,
        "breaks": "relieved", "forbiddenStarts": [], "space": 0, "air": "dusty" }] },
    { "id": "abrade", "refit": 0, "release": 0, "source": "abrade", "fixed": null,
      "modes": [{ "duration": 5, "work": 0, "floor": 0, "crew": [], "demands": [], "splittable": false,
        "breaks": "relieved", "forbiddenStarts": [], "space": null, "air": "clean" }] }
  ],
  "tables": [{ "id": "cure", "grid": 500, "values": [60, 570, 1001], "source": "epoxy" }],
  "lags": [
    { "id": "open", "from": 0, "fromAnchor": "finish", "to": 1, "toAnchor": "start", "bound": "open",
      "fn": { "kind": "table", "table": 0 }, "kind": "bond", "source": "bond" },
    { "id": "close", "from": 0, "fromAnchor": "finish", "to": 1, "toAnchor": "start", "bound": "close",
      "fn": { "kind": "constant", "minutes": 70 }, "kind": "bond", "source": "bond" }
  ],
  "choices": [{ "id": "bond", "source": "bond", "branches": [
    { "id": "inside", "activities": [], "lags": [1] }, { "id": "abraded", "activities": [3], "lags": [] }] }],
  "surfaces": [{ "activity": 1, "until": { "kind": "constant", "minutes": 20 }, "source": "film" }],
  "refits": [
    { "id": "Aurora", "release": 480, "due": 600, "weight": 2, "source": "aurora" },
    { "id": "Borea", "release": 0, "due": null, "weight": 1, "source": "borea" }
  ],
  "tolerances": [0, 240]
}`);
const storedPlan: unknown = JSON.parse(`{
  "placements": [
    { "activity": 0, "mode": 0, "start": 470, "finish": 500, "segments": [{ "start": 470, "end": 500 }], "crew": [{ "builder": 0, "demand": 0 }] },
    { "activity": 1, "mode": 0, "start": 570, "finish": 610, "segments": [{ "start": 570, "end": 610 }], "crew": [{ "builder": 0, "demand": 0 }] },
    { "activity": 2, "mode": 0, "start": 630, "finish": 760, "segments": [{ "start": 630, "end": 720 }, { "start": 750, "end": 760 }], "crew": [{ "builder": 1, "demand": 0 }] }
  ],
  "branches": [0], "finishes": [610, 760], "values": [20, 1980]
}`);

describe('upgrade', () => {
  const problem = upgradeProblem(stored);
  const plan = upgradePlan(storedPlan);
  const shifted = (index: number, by: number): string[] => {
    const move = (one: Placement): Placement => ({
      ...one,
      start: one.start + by,
      finish: one.finish + by,
      segments: one.segments.map(({ start, end }) => ({ start: start + by, end: end + by })),
    });
    const placements = plan.placements.map((one) => (one.activity === index ? move(one) : one));
    return check(problem, { ...plan, placements })
      .map(({ kind }) => kind)
      .filter((kind) => kind !== 'values');
  };

  it('gives a problem that means the same: its plan passes, and a minute more does not', () => {
    expect(validate(problem)).toEqual([]);
    expect(check(problem, plan)).toEqual([]);
    expect(plan.values).toEqual([20, 1980, 0, 0]);
    expect(shifted(0, 1)).toContain('fixed');
    expect(shifted(1, -1)).toEqual(['forbidden-start', 'lag-open']);
    expect(shifted(1, 1)).toEqual(['lag-close', 'dust']);
    expect(shifted(2, -1)).toEqual(['segments', 'shift', 'dust']);
  });

  it('keeps every record, its row and what bound it', () => {
    expect(problem.activities.map(({ releases }) => releases)).toEqual([
      [],
      [{ at: 560, kind: 'release', source: 'coat' }],
      [],
      [],
    ]);
    expect(shifted(1, -11)).toContain('release');
    expect(problem.calendars[0].source).toBe('day');
    expect(problem.surfaces.map(({ id, source }) => [id, source])).toEqual([['surface-0', 'film']]);
    expect(problem.tolerances).toEqual([0, 240, 0]);
    expect('fn' in problem.lags[0] || 'release' in problem.activities[0]).toBe(false);
    expect('forbiddenStarts' in problem.activities[1].modes[0]).toBe(false);
  });

  it('leaves this version as it is', () => {
    expect(upgradeProblem(problem)).toBe(problem);
    expect(upgradePlan(plan)).toBe(plan);
    const again: unknown = JSON.parse(JSON.stringify({ problem, plan }));
    expect(again).toEqual({ problem, plan });
  });

  it.each([null, 2, 'problem', {}, { version: 3 }, { version: '1' }, []])('refuses %j', (other) => {
    expect(() => upgradeProblem(other)).toThrow('version 1 or 2');
    expect(() => upgradePlan(other)).toThrow('two or four ranks');
  });

  it.each([{ values: 4 }, { values: [1, 2, 3] }])('refuses the plan %j', (other) => {
    expect(() => upgradePlan(other)).toThrow('two or four ranks');
  });
});
