import { expect, it } from 'vitest';
import { reportOf } from './report.ts';

const head = { number: 3n, hash: 'ab'.repeat(32) };
const whole = { rows: 3n, head, fault: null, found: null };
const row = {
  chain: 'y',
  number: 3n,
  at: new Date(0),
  accountId: null,
  memberId: null,
  change: 'update',
  record: 'part',
  key: '{"id": "hatch"}',
  before: '{}',
  after: '{}',
};

it.each([
  ['whole', null, whole, true, 'The yard "y": 3 changes, each fits the one before it.'],
  ['empty', null, { ...whole, rows: 0n, head: null }, true, 'The yard "y": no changes yet.'],
  ['with the noted head', head.hash, { ...whole, found: 2n }, true, 'the noted one (change 2).'],
  ['without it', 'cd'.repeat(32), whole, false, 'the end was cut off after that'],
  [
    'with a gap',
    null,
    { ...whole, fault: { kind: 'missing', number: 4n, next: 6n } as const },
    false,
    'change 4 is missing; the next one that there is has number 6.',
  ],
  [
    'altered',
    null,
    { ...whole, rows: 2n, fault: { kind: 'changed', number: 3n, row } as const },
    false,
    'update of part {"id": "hatch"} by nobody signed in at 1970-01-01T00:00:00.000Z.',
  ],
])('a chain that is %s', (_what, noted, verdict, isWhole, words) => {
  const report = reportOf('y', noted, verdict);
  expect(report.whole).toBe(isWhole);
  expect(report.lines.join('\n')).toContain(words);
});
