import { describe, expect, it } from 'vitest';
import { check } from '#scheduling/checker/check.ts';
import { solveFile } from '../../apps/cli/solve/solveFile.ts';
import { absence, contradiction, knownOf } from './data.ts';
import { rulesOf } from './rules/of-file.ts';
import { asDone } from './rules/schedule.ts';

/**
 * A sample of the multi-mode, multi-skill and calendar files: plans by the rules of the file
 * (played from its text) and of the problem, no answer that the table of best known values
 * contradicts. `npm run bench -- --only multi-mode-j10,multi-skill,calendars` takes all of them, to the proof.
 */
describe.skipIf(absence !== null)(
  `published and derived files${absence === null ? '' : ` (skipped: ${absence})`}`,
  () => {
    it.each([
      ['mm-j10', 8, 6],
      ['mspsp/mzn12', 4, 3],
      ['mspsp/instlib', 4, 3],
      ['max-cal', 5, 3],
    ] as const)('%s', { timeout: 120_000 }, (set, step, planned) => {
      const sample = knownOf(set).filter((_, k) => k % step === 1);
      let plans = 0;
      for (const known of sample) {
        const limit = { kind: 'iterations', iterations: 300 } as const;
        const { outcome, problem, plan } = solveFile(known.path, limit, 1);
        expect(contradiction(known, outcome), known.name).toBeNull();
        if (plan === null) continue;
        plans += 1;
        expect(check(problem, plan), known.name).toEqual([]);
        expect(rulesOf(known.path)(asDone(problem, plan)), known.name).toEqual([]);
      }
      expect(plans).toBeGreaterThanOrEqual(planned);
    });
  },
);
