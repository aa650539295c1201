import { expect, it } from 'vitest';
import { closingOf } from './closing.ts';

const when = (at: string) => ({ at, local: at });
const noon = when('2026-11-30T12:00:00Z');
const later = when('2026-11-30T12:30:00.000Z');
const opener = (...windows: Parameters<typeof closingOf>[0][number]['windows']) => ({ windows });

it('is the first of the closings that others leave to the task', () => {
  const tasks = [
    opener(
      { toTask: 'topcoat', closes: later },
      { toTask: 'sand', closes: when('2026-11-30T08:00:00Z') },
    ),
    opener({ toTask: 'topcoat', closes: noon }, { toTask: 'topcoat', closes: null }),
  ];
  expect(closingOf(tasks, 'topcoat')).toBe(noon);
  expect(closingOf(tasks, 'tape')).toBeNull();
});
