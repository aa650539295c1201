import { measured, measures } from './access/run.ts';
import { atMost, type Bench, type Figure, type Row, short } from './bench.ts';

const number = (row: Row | undefined, key: string): number => {
  const value = row?.[key];
  return typeof value === 'number' ? value : NaN;
};
const ratio = (row: Row | undefined, of: string, to: string): number =>
  number(row, of) / number(row, to);
const ms = (what: string, row: Row | undefined, key: string): Figure => ({
  what,
  value: short(number(row, key)),
});

/** How far a ratio is from one, in percent. */
const percentOff = (value: number): number => 100 * Math.abs(value - 1);

export const signIn: Bench = {
  name: 'sign-in',
  about:
    'password hashing beside the one of Node at the same parameters; sign-ins right, wrong and of nobody; another yard’s record beside a missing one',
  publicFiles: false,
  longest: 120,
  measures,
  units: () => ['hashing', 'signing in', 'beside a missing record'],
  run: (unit) => measured(unit),
  summarise: (rows) => {
    const of = (unit: string): Row | undefined => rows.find((row) => row.unit === unit);
    const [hash, entry, beside] = [of('hashing'), of('signing in'), of('beside a missing record')];
    return [
      { what: 'argon2id, KiB and passes', value: `${hash?.memory ?? '-'}, ${hash?.passes ?? '-'}` },
      ms('a hash, ms, median', hash, 'hashMs'),
      ms('a comparison, ms', hash, 'verifyMs'),
      { what: 'a hash over that of node:crypto', value: short(ratio(hash, 'hashMs', 'peerMs')) },
      ms('a sign-in, ms', entry, 'rightMs'),
      {
        what: 'a sign-in over its comparison',
        value: short(number(entry, 'rightMs') / number(hash, 'verifyMs')),
      },
      atMost(
        'nobody’s sign-in off a wrong password’s, %',
        percentOff(ratio(entry, 'nobodyMs', 'wrongMs')),
        10,
      ),
      ms('a call with a session, ms', entry, 'meMs'),
      { what: 'over a call without', value: short(ratio(entry, 'meMs', 'healthMs')) },
      { what: 'reads by id of another yard’s', value: number(beside, 'operations') },
      atMost(
        'their medians off those of missing ones, worst %',
        percentOff(number(beside, 'worstRatio')),
        10,
      ),
      { what: 'the worst', value: String(beside?.worstFace ?? '-') },
      { what: 'median of the ratios', value: short(number(beside, 'medianRatio')) },
    ];
  },
};
