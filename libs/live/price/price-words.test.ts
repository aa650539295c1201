import { expect, it } from 'vitest';
import { priceWords } from './price-words.ts';

it('in words a price says what each boat loses, and what is promised', () => {
  const boat = {
    boatId: 'gull',
    refitId: 'gull-refit',
    without: '2026-11-03T12:00:00Z',
    promised: '2026-11-04T12:00:00Z',
    lateWithout: 0,
    lateWith: 0,
  };
  const words = priceWords(
    {
      work: [
        { skill: 'coating', name: 'Coating', minutes: -90 },
        { skill: 'sanding', name: 'Sanding', minutes: 60 },
        { skill: 'lifting', name: 'Lifting', minutes: 0.2 },
      ],
      materials: [{ id: 'resin', name: 'Resin', amount: 250, unit: 'g' }],
      cents: 0,
      boats: [
        { ...boat, boat: 'Gull', with: '2026-11-05T15:00:00Z', minutes: 3060, lateWith: 1620 },
        { ...boat, boat: 'Tern', with: '2026-11-03T12:00:00Z', minutes: 0 },
        { ...boat, boat: 'Knot', with: '2026-11-03T12:00:00Z', minutes: 0 },
        { ...boat, boat: 'Skua', with: '2026-11-03T11:15:00Z', minutes: -45, lateWithout: 20 },
        {
          ...boat,
          boat: 'Auk',
          with: '2026-11-03T13:00:00Z',
          minutes: 60,
          lateWithout: 5,
          lateWith: 65,
        },
      ],
    },
    'Europe/Paris',
  );
  expect(words).toEqual([
    'Coating: 1.5 crew hours less.',
    'Sanding: 1 crew hour more.',
    'Resin: 250 g more.',
    'Gull: finished Thu 5 Nov 16:00, 2 days 3 h later. That is later than promised.',
    'Skua: finished Tue 3 Nov 12:15, 45 min earlier. That is in time, which it was not.',
    'Auk: finished Tue 3 Nov 14:00, 1 h later. It is later than promised either way.',
    'Tern and Knot: finished as without it.',
  ]);
});

it('in words a price that moves no boat and comes to no hours says so', () => {
  const words = priceWords(
    {
      work: [{ skill: 'lifting', name: 'Lifting', minutes: 0.2 }],
      materials: [],
      cents: 0,
      boats: [
        {
          boatId: 'tern',
          boat: 'Tern',
          refitId: 'tern-refit',
          without: '2026-11-03T12:00:00Z',
          with: '2026-11-03T12:00:00Z',
          minutes: 0,
          promised: null,
          lateWithout: 0,
          lateWith: 0,
        },
      ],
    },
    'Europe/Paris',
  );
  expect(words).toEqual([
    'No crew hours more or less.',
    'Tern: finished Tue 3 Nov 13:00, as without it.',
  ]);
});
