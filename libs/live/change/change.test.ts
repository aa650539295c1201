import { describe, expect, it } from 'vitest';
import { smallYard } from '#planning/testing/small-yard.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import type { Task, TaskState, Workload } from '#planning/workload/workload.ts';
import { applyEdits } from '../edits/apply.ts';
import { effectOf, effectSchema, sameEffect } from '../edits/effect.ts';
import { editsOfChange } from './change-edits.ts';
import { changeInputSchema, type ChangeInput } from './change-input.ts';
import { changeMeaning, changeWords } from './meaning.ts';

const yard = smallYard();

function workWith(states: Readonly<Record<string, TaskState>>): Workload {
  const made = makeWorkload(yard);
  return {
    ...made,
    tasks: made.tasks.map((task): Task => ({ ...task, state: states[task.id] ?? 'waiting' })),
  };
}

function told(input: object, states: Readonly<Record<string, TaskState>> = {}): string[] {
  const change = changeInputSchema.parse(input);
  const before = workWith(states);
  const after = applyEdits(yard, before, editsOfChange(yard, change)).workload;
  return changeMeaning(change, before, after, effectOf(before, after));
}

const wider: ChangeInput = { kind: 'size', partId: 'lid', areaM2: 4 };

describe('what a change means', () => {
  it('says what is sized anew, and what has begun and is not', () => {
    expect(told(wider)).toEqual(['4 tasks sized anew, 2 h of work more.']);
    expect(told(wider, { 'lid.sand': 'done', 'lid.one': 'working' })).toEqual([
      '2 tasks sized anew, 50 min of work more.',
      'Done at the old size, and not done again by this: "Sand". Where it does not fit any more, raise a snag on it or add a job.',
      'Under way at the old size: "Coat one". Its hours stay as planned; report what is left if the new size changes it.',
    ]);
    expect(told({ ...wider, areaM2: 2, jointM: 3 })).toEqual([
      'No task that waits takes longer or shorter by these measures.',
    ]);
  });

  it('says what is left out, and what of it stays', () => {
    const drop = { kind: 'drop-part', partId: 'lid' };
    expect(told(drop)).toEqual(['4 tasks not done, 3 h 20 min of work less.']);
    expect(told(drop, { 'lid.sand': 'done', 'lid.one': 'paused' })).toEqual([
      '2 tasks not done, 1 h 30 min of work less.',
      'Done already, which stays on record and is to be paid for: "Sand".',
      'Under way, so it stays in the plan until somebody finishes or abandons it: "Coat one".',
    ]);
  });

  it('says how much comes', () => {
    const part = { id: 'door', name: 'Door', space: 'shop', areaM2: 1 };
    const job = { id: 'door', procedure: 'two-coats' };
    const add = { kind: 'add-part', refitId: 'gull-refit', part: { ...part, jobs: [job] } };
    expect(told(add)).toEqual(['4 tasks more, 2 h 20 min of work.']);
    expect(told({ ...add, part })).toEqual([
      'It has no jobs, so there is nothing to do on it yet.',
    ]);
  });
});

it('a change is told in one sentence', () => {
  const words = (change: object): string => changeWords(yard, changeInputSchema.parse(change));
  expect(words({ ...wider, edgeM: 3 })).toBe(
    'Gull: Lid: area 4 m² in place of 2 m², edges 3 m in place of 0 m',
  );
  expect(words({ kind: 'drop-part', partId: 'lid' })).toBe('Gull: leave out Lid');
});

it('a change of nothing, and of a part that is not there, is refused', () => {
  expect(() => editsOfChange(yard, { kind: 'size', partId: 'lid', areaM2: 2 })).toThrow(
    'Lid has these measures already.',
  );
  expect(() => editsOfChange(yard, { kind: 'size', partId: 'lid' })).toThrow('already');
  expect(() => editsOfChange(yard, { kind: 'drop-part', partId: 'door' })).toThrow(
    'There is no part "door".',
  );
});

it('an effect is the same however it was stored, and another once work has begun', () => {
  const drop = editsOfChange(yard, { kind: 'drop-part', partId: 'lid' });
  const effect = (states: Readonly<Record<string, TaskState>>) => {
    const before = workWith(states);
    return effectOf(before, applyEdits(yard, before, drop).workload);
  };
  const [all, begun] = [effect({}), effect({ 'lid.sand': 'working' })];
  const shuffled = Object.fromEntries(Object.entries(all).reverse());
  expect(sameEffect(all, effectSchema.parse(shuffled))).toBe(true);
  expect(sameEffect(all, begun)).toBe(false);
});
