import type { Finding, Judged } from './observed.ts';
import { NOISE, posterior } from './posterior.ts';

/** Standard deviations beyond which a finding does not fit: by chance one in some 370 (calculated). */
const BOUND = 3;

type Flag = NonNullable<Judged['flag']>;

/** Which findings are left out, each with the reason in words. */
type LeftOut = ReadonlyMap<Finding, { readonly flag: Flag; readonly words: string }>;

/**
 * Standard deviations by which a finding is later (above 0) or earlier than the sheet and the
 * other findings make it; of `already` only earlier counts against it, of `not-yet` only later.
 * The belief is taken as a normal one of its mean and deviation.
 */
function misfit(sd: number, finding: Finding, others: readonly Finding[]): number {
  const { mean, sd: known } = posterior(sd, others);
  const z = (Math.log(finding.age) - mean) / Math.hypot(known, NOISE);
  if (finding.found === 'already') return Math.min(0, z);
  return finding.found === 'not-yet' ? Math.max(0, z) : z;
}

/** By how much in log time `early` says sooner than `late` says at the soonest; 0 or less: they agree. */
const gapBetween = (early: Finding, late: Finding): number =>
  early.found === 'not-yet' || late.found === 'already'
    ? -Infinity
    : Math.log(late.age) - Math.log(early.age);

/** Both are off by one finding's noise. */
const CLEARLY = BOUND * Math.SQRT2 * NOISE;

interface Pair {
  readonly early: Finding;
  readonly late: Finding;
  readonly gap: number;
}

function worstPair(findings: readonly Finding[]): Pair | null {
  let worst: Pair | null = null;
  for (const early of findings) {
    for (const late of findings) {
      const gap = gapBetween(early, late);
      if (gap > (worst?.gap ?? CLEARLY)) worst = { early, late, gap };
    }
  }
  return worst;
}

const times = (value: number): string => value.toPrecision(3);

const outlierWords = (z: number): string =>
  `Left out: ${Math.abs(z).toFixed(1)} standard deviations ${z > 0 ? 'later' : 'earlier'} than the sheet and the other findings make it (${BOUND} are allowed).`;

const contradictionWords = (other: Finding, ratio: number): string =>
  `Left out: it and “${other.id}” cannot both be right, ${times(ratio)} times apart, and nothing else says which is.`;

const impliedWords = (other: Finding): string =>
  `Not counted again: “${other.id}”, of the same film, says as much.`;

/** Whether `other`, of the same film, leaves nothing for `finding` to say: looked at again, it is no second film. */
function implies(other: Finding, finding: Finding): boolean {
  if (other === finding || other.film === undefined || other.film !== finding.film) return false;
  if (finding.found === 'just-now') return false;
  if (other.found !== 'just-now' && other.found !== finding.found) return false;
  if (other.found === finding.found && other.age === finding.age) return other.id < finding.id;
  return finding.found === 'not-yet' ? other.age >= finding.age : other.age <= finding.age;
}

const IMPOSSIBLE = 'Left out: found before its cure could have begun.';

/** By what they say, and by id only where they say the same: the order of reporting decides nothing. */
const inOrder = (a: Finding, b: Finding): number =>
  a.age - b.age || compare(a.found, b.found) || compare(a.id, b.id);

const compare = (a: string, b: string): number => (a < b ? -1 : Number(a > b));

/**
 * Finds what does not fit, the worst first, judging each finding only by what is left. Two that
 * contradict each other are both left out, unless the sheet and the rest show which of them is
 * off. `sd` is that of the sheet, in log time.
 */
export function judge(sd: number, findings: readonly Finding[]): LeftOut {
  const out = new Map<Finding, { flag: Flag; words: string }>();
  for (const finding of findings) {
    if (finding.age === 0 && finding.found !== 'not-yet')
      out.set(finding, { flag: 'outlier', words: IMPOSSIBLE });
  }
  for (const finding of findings) {
    const other = out.has(finding)
      ? undefined
      : findings.find((one) => implies(one, finding) && !findings.some((two) => implies(two, one)));
    if (other !== undefined) out.set(finding, { flag: 'implied', words: impliedWords(other) });
  }
  let left = findings.filter((one) => one.age > 0 && !out.has(one)).sort(inOrder);
  const leaveOut = (finding: Finding, flag: Flag, words: string): void => {
    out.set(finding, { flag, words });
    left = left.filter((one) => one !== finding);
  };

  for (let pair = worstPair(left); pair !== null; pair = worstPair(left)) {
    const { early, late, gap } = pair;
    const rest = left.filter((one) => one !== early && one !== late);
    const [first, second] = [misfit(sd, early, rest), misfit(sd, late, rest)];
    const neither = Math.abs(first) <= BOUND && Math.abs(second) <= BOUND;
    if (neither) {
      leaveOut(early, 'contradicts', contradictionWords(late, Math.exp(gap)));
      leaveOut(late, 'contradicts', contradictionWords(early, Math.exp(gap)));
    }
    if (Math.abs(first) > BOUND) leaveOut(early, 'outlier', outlierWords(first));
    if (Math.abs(second) > BOUND) leaveOut(late, 'outlier', outlierWords(second));
  }
  for (;;) {
    const misfits = left.map((finding) => ({
      finding,
      z: misfit(
        sd,
        finding,
        left.filter((one) => one !== finding),
      ),
    }));
    const worst = misfits.reduce((a, b) => (Math.abs(b.z) > Math.abs(a.z) ? b : a), {
      finding: left[0],
      z: 0,
    });
    if (Math.abs(worst.z) <= BOUND) return out;
    leaveOut(worst.finding, 'outlier', outlierWords(worst.z));
  }
}
