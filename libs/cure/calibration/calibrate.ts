import { DomainError } from '#kernel/error.ts';

import { spreadOf } from '../evidence/spread.ts';
import { judge } from './judge.ts';
import type { Calibration, Finding } from './observed.ts';
import { posterior, SPREAD_Z } from './posterior.ts';

/** Films of one yard differ from one another, however many were seen: never narrower than that. */
const NARROWEST = spreadOf('measured', 'factor');

const FOUND = { 'just-now': 'just then', already: 'already', 'not-yet': 'not yet' } as const;

function heard({ milestone, found, age }: Finding): string {
  const at = `at ${age.toPrecision(3)} of the sheet’s time`;
  return found === 'just-now'
    ? `${milestone} ${at}.`
    : `${milestone} ${FOUND[found]} reached ${at}.`;
}

/**
 * The yard's own factor on a milestone's times, from what was found on its films of one material.
 * `priorSpread` is the sheet's (a factor of at least 1). What does not fit is flagged and left
 * out. The answer's spread is again such that the truth lies within it nine times in ten. The
 * order of the findings decides nothing but the order of the evidence.
 *
 * Throws `input.field` without findings or for findings of several milestones, `cure.implausible`
 * for an age that is not a number of 0 or more or a spread below 1.
 */
export function calibrate(priorSpread: number, findings: readonly Finding[]): Calibration {
  checked(priorSpread, findings);
  const [{ milestone }] = findings;
  const sd = Math.log(priorSpread) / SPREAD_Z;
  const out = judge(sd, findings);
  const counted = findings.filter((one) => one.age > 0 && !out.has(one));
  const { median, low, high } = posterior(sd, counted);
  const spread =
    counted.length === 0 ? priorSpread : Math.exp(Math.max(median - low, high - median));
  const alike = counted.length === 0 && allOneWay(findings, out);
  return {
    milestone,
    factor: counted.length === 0 ? 1 : Math.exp(median),
    spread: Math.max(spread, Math.min(priorSpread, NARROWEST)),
    prior: { factor: 1, spread: priorSpread },
    evidence: findings.map((finding) => {
      const left = out.get(finding);
      const words = finding.age === 0 ? 'It says nothing.' : 'It counts.';
      return {
        finding,
        flag: left?.flag ?? null,
        words: `${heard(finding)} ${left?.words ?? words}${alike ? ALIKE : ''}`,
      };
    }),
  };
}

const ALIKE =
  ' All that was found differs from the sheet in the same way: check its line, the hardener, the readings; if they are right, enter your own time on the sheet.';

/** Whether several findings were left out, and not because they contradict each other. */
function allOneWay(all: readonly Finding[], out: ReturnType<typeof judge>): boolean {
  const findings = all.filter((one) => out.get(one)?.flag !== 'implied');
  return (
    findings.length > 1 &&
    findings.every((one) => out.get(one)?.flag === 'outlier' && one.age > 0) &&
    (findings.every(({ age }) => age > 1) || findings.every(({ age }) => age < 1))
  );
}

function checked(priorSpread: number, findings: readonly Finding[]): void {
  if (!(priorSpread >= 1 && priorSpread < Infinity)) {
    throw new DomainError(
      'cure.implausible',
      `A spread of ${priorSpread} is not a factor of 1 or more`,
    );
  }
  if (new Set(findings.map(({ milestone }) => milestone)).size !== 1) {
    throw new DomainError('input.field', 'A factor needs findings, all of one milestone');
  }
  const wrong = findings.find(({ age }) => !(age >= 0 && age < Infinity));
  if (wrong === undefined) return;
  throw new DomainError('cure.implausible', `“${wrong.id}” was found at an age of ${wrong.age}`);
}
