import { expect, test } from 'vitest';
import { closingFor } from './closing.ts';

const at = (clock: string): number => Date.parse(`2026-11-30T${clock}:00Z`);
const closes = { at: '2026-11-30T12:00:00Z', local: '2026-11-30 12:00' };
type Briefing = Parameters<typeof closingFor>[0];
const lasting = (useWithinMinutes: number | null, potLifeMinutes: number | null): Briefing['mix'] =>
  // Nothing else of the sheet is looked at.
  ({ useWithinMinutes, potLifeMinutes }) as Briefing['mix'];

test('warns once a cup mixed now would outlast the window, and forbids once it has shut', () => {
  const briefing = { mix: lasting(12, 25), closes };
  expect(closingFor(briefing, at('11:48'))).toBeNull();
  expect(closingFor(briefing, at('11:49'))).toBe('short');
  expect(closingFor(briefing, at('12:00'))).toBe('shut');
});

test('goes by the pot life where nothing else is known, and says nothing where no window presses', () => {
  expect(closingFor({ mix: lasting(null, 25), closes }, at('11:36'))).toBe('short');
  expect(closingFor({ mix: lasting(null, null), closes }, at('11:59'))).toBeNull();
  expect(closingFor({ mix: lasting(12, 25), closes: null }, at('13:00'))).toBeNull();
  expect(closingFor({ mix: null, closes }, at('13:00'))).toBeNull();
});
