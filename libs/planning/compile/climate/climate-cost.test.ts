import { expect, it } from 'vitest';
import { smallYard } from '../../testing/small-yard.ts';
import { climateChangeSchema } from '../../yard/spaces.ts';
import { climateCost } from './climate-cost.ts';
import { frameOf } from '../frame/time.ts';

const cost = (from: string, to: string): number => {
  const yard = smallYard((draft) => {
    const heater = { id: 'heater', name: 'Heater', kind: 'heater', celsius: 20, costPerDay: 700 };
    draft.spaces[0].changes = [climateChangeSchema.parse({ ...heater, from, to })];
  });
  return climateCost(yard, frameOf(yard, undefined, undefined));
};

it('counts each day begun in the plan’s time', () => {
  // The plan is 2 November 08:00 to 16 November 08:00.
  expect(cost('2026-11-03T12:00:00Z', '2026-11-04T12:00:00Z')).toBe(700);
  expect(cost('2026-11-03T12:00:00Z', '2026-11-04T12:01:00Z')).toBe(1400);
  // Four days begin before it, at noon of 29 October to 1 November; noon of 2 November does not.
  expect(cost('2026-10-29T12:00:00Z', '2026-11-03T10:00:00Z')).toBe(700);
  // And the days after its end, from noon of 16 November on, are not its own.
  expect(cost('2026-11-14T12:00:00Z', '2026-12-14T12:00:00Z')).toBe(1400);
  expect(cost('2026-10-01T12:00:00Z', '2026-11-01T12:00:00Z')).toBe(0);
});
