import { expect, test } from 'vitest';
import { likely } from './likely.ts';

const metric = { units: 'metric', temperature: 'celsius' } as const;
const imperial = { units: 'imperial', temperature: 'fahrenheit' } as const;

test('offers whole degrees, five to either side', () => {
  expect(likely(11.6, metric)).toEqual([7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17]);
  expect(likely(-1.2, metric).at(5)).toBe(-1);
});

test('offers as wide a range in Fahrenheit, by twos', () => {
  // 11.6 °C is 52.88 °F.
  expect(likely(11.6, imperial)).toEqual([42, 44, 46, 48, 50, 52, 54, 56, 58, 60, 62]);
});
