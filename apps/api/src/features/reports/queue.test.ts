import { expect, it } from 'vitest';
import type { Viewer } from '../../platform/access/viewer.ts';
import { readQueue } from './queue.ts';

const cato: Viewer = {
  yardId: 'small',
  memberId: 'cato',
  roles: ['builder'],
  accountId: '',
  sees: 'all',
};
const now = new Date('2026-12-01T10:00:00Z');

it.each([
  [{ kind: 'claim', taskId: 'hull.sand' }, { crew: ['cato'] }],
  [{ kind: 'join', taskId: 'hull.sand' }, { member: 'cato' }],
  [{ kind: 'leave', taskId: 'hull.sand' }, { member: 'cato' }],
  [{ kind: 'join', taskId: 'hull.sand', member: 'bram' }, { member: 'bram' }],
])('%j means whoever told it, also when the foreman settles it', (command, whom) => {
  const sent = { key: 'one', at: '2026-12-01T09:00:00Z', command };
  const [read] = readQueue([sent], undefined, cato, now);
  expect(read).toMatchObject({ report: { command: { ...command, ...whom } }, unlikely: [] });
});
