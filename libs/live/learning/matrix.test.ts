import { expect, it } from 'vitest';
import { random } from '#kernel/random.ts';
import { inverse, times, zeros } from './matrix.ts';

it('inverts a positive definite matrix', () => {
  const from = random(3);
  const n = 30;
  const root = Array.from({ length: n * n }, () => from.unit() - 0.5);
  const matrix = zeros(n);
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j < n; j += 1) {
      for (let k = 0; k < n; k += 1) matrix.cells[i * n + j] += root[i * n + k] * root[j * n + k];
    }
    matrix.cells[i * n + i] += 0.1;
  }
  const vector = Float64Array.from({ length: n }, (_, k) => k + 1);
  const back = times(matrix, times(inverse(matrix), vector));
  back.forEach((value, k) => {
    expect(value).toBeCloseTo(k + 1, 8);
  });
});

it('refuses one that is not', () => {
  expect(() => inverse(zeros(2))).toThrow(RangeError);
});
