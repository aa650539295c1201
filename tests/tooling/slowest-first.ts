import { existsSync } from 'node:fs';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

const root = new URL('../../', import.meta.url).pathname;

/** Of each project, the first to be run first: a worker that changes projects is begun anew. */
const projects = ['whole', 'unit'];

/**
 * The files that take longest, the slowest first. One that came last would keep one worker busy while
 * the other has nothing left; vitest knows by itself only what it has run before, and a fresh clone has
 * run nothing.
 */
const slowest = [
  'tests/web/looks.test.ts',
  'tests/access/walk.test.ts',
  'tests/access/fuzz.test.ts',
  'tests/live/day.test.ts',
  'tests/integration/readme.test.ts',
  'tests/live/faults.test.ts',
  'tests/integration/start.test.ts',
  'tests/web/offline.test.ts',
  'tests/web/set-up.test.ts',
  'tests/web/now.test.ts',
  'tests/web/week.test.ts',
  'tests/web/plans.test.ts',
  'tests/live/storm.test.ts',
  'libs/scheduling/testing/laws-engine.test.ts',
  'apps/cli/plan/plan.test.ts',
  'libs/host/run-solve.test.ts',
  'apps/worker/src/pricing/plan-both.test.ts',
  'libs/scheduling/search/whole/whole.test.ts',
].map((file) => `${root}${file}`);

for (const file of slowest) {
  if (!existsSync(file)) throw new Error(`slowest-first.ts names ${file}, which is not there.`);
}

const rank = ({ moduleId }: TestSpecification): number => {
  const place = slowest.indexOf(moduleId);
  return place < 0 ? slowest.length : place;
};

/** Vitest's own order, but for the slowest: the small ones come last and fill what is left of the time. */
export default class SlowestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const turn = ({ project }: TestSpecification): number => projects.indexOf(project.name);
    return sorted.sort((a, b) => turn(a) - turn(b) || rank(a) - rank(b));
  }
}
