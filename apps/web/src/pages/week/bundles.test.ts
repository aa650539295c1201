import { describe, expect, it } from 'vitest';
import { bundlesOf } from './bundles.ts';
import { hoursOf } from './hours.ts';
import type { Piece } from './lanes.ts';

const hour = 3_600_000;
const whole = { from: 0, until: 100 * hour };
const hours = hoursOf([whole], whole, { room: 4_000 });

const piece = (from: number, until: number, isFirst = true): Piece =>
  ({ from: from * hour, until: until * hour, isFirst }) as Piece;

describe('planks in bundles', () => {
  const pieces = Array.from({ length: 40 }, (_, k) => piece(2 * k, 2 * k + 1.5));
  const bundles = bundlesOf(pieces, hours);

  it('holds each plank once, in the order of time, and within its bundle', () => {
    expect(bundles.flatMap((one) => one.pieces.map((held) => held.piece))).toEqual(pieces);
    for (const { start, width, pieces: within } of bundles) {
      expect(within[0].place.start).toBe(start);
      for (const { place } of within) {
        expect(place.start).toBeGreaterThanOrEqual(start);
        expect(place.start + place.width).toBeLessThanOrEqual(start + width);
      }
    }
  });

  it('is narrow enough to be left out of sight, but for a plank that is wider by itself', () => {
    expect(bundles.length).toBeGreaterThan(2);
    for (const { width } of bundles) expect(width).toBeLessThanOrEqual(1000);
    const [wide] = bundlesOf([piece(0, 60)], hours);
    expect(wide.width).toBeGreaterThan(1000);
  });

  it('makes a first piece so wide that it can be hit, and keeps it within the days', () => {
    const [brief] = bundlesOf([piece(10, 10.1)], hours);
    expect(brief.width).toBe(24);
    const [last] = bundlesOf([piece(99.9, 100)], hours);
    expect(last.start + last.width).toBeLessThanOrEqual(hours.width);
    const [rest] = bundlesOf([piece(10, 10.01, false)], hours);
    expect(rest.width).toBe(5);
  });
});
