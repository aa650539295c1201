import { expect, it } from 'vitest';
import { boatFigures, type PriceBoat } from './price-figures.ts';

const zone = 'Europe/Paris';
const boat = (name: string, change: Partial<PriceBoat>): PriceBoat => ({
  boat: name,
  without: '2026-11-03T12:00:00Z',
  with: '2026-11-03T12:00:00Z',
  lateWithout: 0,
  lateWith: 0,
  ...change,
});

it('says of each boat what becomes of it, the worst first, and of several alike once', () => {
  expect(
    boatFigures(
      [
        boat('Tern', {}),
        boat('Knot', { with: '2026-11-03T14:00:00Z' }),
        boat('Gull', { with: '2026-11-05T15:00:00Z', lateWith: 1620 }),
        boat('Skua', { with: '2026-11-04T12:00:00Z' }),
        boat('Auk', { with: '2026-11-02T12:00:00Z', lateWithout: 5000, lateWith: 3560 }),
      ],
      zone,
    ),
  ).toEqual([
    { tone: 'harm', words: 'Gull: 2 days later, later than promised' },
    { tone: 'heed', words: 'Skua: 1 day later' },
    { tone: 'well', words: 'Tern and Knot: finished on the same day' },
    { tone: 'well', words: 'Auk: 1 day earlier, later than promised either way' },
  ]);
});

it('counts the days of the yard’s calendar: past its midnight is another day', () => {
  const late = { without: '2026-11-03T22:30:00Z', with: '2026-11-03T23:30:00Z' };
  expect(boatFigures([boat('Tern', late)], zone)).toEqual([
    { tone: 'heed', words: 'Tern: 1 day later' },
  ]);
  expect(boatFigures([boat('Tern', late)], 'Etc/UTC')).toEqual([
    { tone: 'well', words: 'Tern: finished on the same day' },
  ]);
});

it('of a boat that is late either way, and later with it, says both', () => {
  const later = { with: '2026-11-04T12:00:00Z', lateWithout: 20, lateWith: 1460 };
  expect(boatFigures([boat('Tern', later)], zone)).toEqual([
    { tone: 'harm', words: 'Tern: 1 day later, later than promised either way' },
  ]);
});
