import { expect, test } from 'vitest';
import { measured, weighed } from './weigh.ts';

const metric = { units: 'metric', temperature: 'celsius' } as const;
const imperial = { units: 'imperial', temperature: 'fahrenheit' } as const;

test('small amounts keep the digit that the scales show', () => {
  expect(weighed(8.34, metric)).toBe('8.3 g');
  expect(weighed(412.4, metric)).toBe('412 g');
  expect(weighed(412.4, imperial)).toBe('14.55 oz');
  expect(weighed(3, imperial)).toBe('0.11 oz');
});

test('millilitres are shown in the units of whoever measures', () => {
  expect(measured(2.55, metric)).toBe('2.6 ml');
  expect(measured(29.5735295625, imperial)).toBe('1 fl oz');
});
