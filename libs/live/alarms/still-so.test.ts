import { expect, it } from 'vitest';
import { smallYard } from '#planning/testing/small-yard.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import type { Task } from '#planning/workload/workload.ts';
import { type ClaimLife, untouched } from '../life/life.ts';
import type { AlarmFacts } from './facts.ts';
import { isStillSo, lapsesKey } from './still-so.ts';

const at = '2026-11-02T09:00:00.000Z';
const opens: AlarmFacts = { kind: 'opens', what: 'Coat two', opensAt: at };
const lapses: AlarmFacts = { kind: 'lapses', what: 'Coat two', lapsesAt: at };
const unbegun: AlarmFacts = { kind: 'unbegun', what: 'Coat two', startsAt: at };
const overrun: AlarmFacts = { kind: 'overrun', what: 'Coat two', expectedAt: at };

const claim: ClaimLife = {
  id: '0b6f0a3c-7f3e-4f5e-9a53-0d3a2f6f9a11',
  status: 'open',
  holder: 'ada',
  crew: ['ada'],
  claimedAt: at,
  lapsesAt: at,
  startedAt: null,
  override: null,
};
const made = makeWorkload(smallYard());
const workIn = (state: Task['state']) => ({
  ...made,
  tasks: made.tasks.map((task) => (task.id === 'lid.two' ? { ...task, state } : task)),
});

function isSo(
  facts: AlarmFacts,
  state: Task['state'],
  { held = null, key = 'opens:lid.two' }: { held?: ClaimLife | null; key?: string } = {},
): boolean {
  const lives = new Map([['lid.two', { ...untouched(), claim: held }]]);
  return isStillSo(facts, { key, taskId: 'lid.two' }, { workload: workIn(state), lives });
}

it('a window is told of while the work has not begun', () => {
  expect(isSo(opens, 'waiting')).toBe(true);
  expect(isSo(opens, 'working')).toBe(false);
  expect(isSo(opens, 'done')).toBe(false);
});

it('work that nobody begins is told of until somebody does', () => {
  expect(isSo(unbegun, 'waiting')).toBe(true);
  expect(isSo(unbegun, 'working')).toBe(false);
  expect(isSo(unbegun, 'redo')).toBe(false);
});

it('work that runs over is told of while it goes on', () => {
  expect(isSo(overrun, 'working')).toBe(true);
  expect(isSo(overrun, 'done')).toBe(false);
  expect(isSo(overrun, 'paused')).toBe(false);
});

it('a lease is told of while that claim is held and nobody has started', () => {
  const key = lapsesKey(claim.id);
  expect(isSo(lapses, 'waiting', { held: claim, key })).toBe(true);
  expect(isSo(lapses, 'waiting', { key })).toBe(false);
  const another = { ...claim, id: '0b6f0a3c-7f3e-4f5e-9a53-0d3a2f6f9a12' };
  expect(isSo(lapses, 'waiting', { held: another, key })).toBe(false);
  expect(isSo(lapses, 'working', { held: { ...claim, status: 'working' }, key })).toBe(false);
});

it('nothing is told of a task that is not in the work any more', () => {
  const gone = { workload: { ...made, tasks: [] }, lives: new Map() };
  expect(isStillSo(opens, { key: 'opens:lid.two', taskId: 'lid.two' }, gone)).toBe(false);
});
