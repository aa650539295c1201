import { expect, it } from 'vitest';
import { observationSchema } from '#planning/yard/observed.ts';
import { observationsOf, tackFindingSchema } from './tack-test.ts';

const film = { material: 'epoxy', space: 'bay', laidAt: '2026-12-01T08:00:00Z' };
const test = (found: (typeof tackFindingSchema.options)[number]) =>
  observationsOf({ found, note: 'port side' }, film, '2026-12-01T12:00:00Z', 'test-1');

it.each([
  ['still-wet', { 'tacky-opens': 'not-yet', 'tack-free': 'not-yet' }],
  ['tacky', { 'tacky-opens': 'already', 'tacky-closes': 'not-yet', 'tack-free': 'not-yet' }],
  ['clogs', { sandable: 'not-yet' }],
  ['dry', { sandable: 'already' }],
] as const)('a film that is %s says so much of its milestones', (found, said) => {
  const made = test(found);
  expect(Object.fromEntries(made.map((one) => [one.milestone, one.found]))).toEqual(said);
  expect(new Set(made.map(({ id }) => id)).size).toBe(made.length);
});

it('a test of every kind is an observation that a yard can hold', () => {
  for (const found of tackFindingSchema.options)
    for (const made of test(found)) expect(observationSchema.parse(made)).toEqual(made);
});
