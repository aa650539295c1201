import { expect, it } from 'vitest';
import { mayOutdate } from './outdates.ts';

const told = (kind: string, subject: string): boolean => mayOutdate({ kind, subject });

it('is what changes the work, or begins what a change is about; not work that goes on', () => {
  expect(told('part-added', 'part')).toBe(true);
  expect(told('refit-changed', 'refit')).toBe(true);
  expect(told('rework-made', 'task')).toBe(true);
  expect(told('task-started', 'task')).toBe(true);
  expect(told('task-undone', 'task')).toBe(true);
  expect(told('task-progressed', 'task')).toBe(false);
  expect(told('photo-added', 'photo')).toBe(false);
});
