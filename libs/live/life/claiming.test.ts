import { describe, expect, it } from 'vitest';
import { assertFree } from './claiming.ts';
import { type ClaimLife, untouched } from './life.ts';

describe('a task that somebody holds', () => {
  const acting = {
    task: { name: 'sand' },
    nameOf: (id: string) => id.toUpperCase(),
    timeZone: 'Asia/Kathmandu',
  };
  const claim: ClaimLife = {
    ...{ id: '00000000-0000-4000-8000-000000000001', status: 'open', holder: 'anke' },
    ...{ crew: ['anke', 'bram'], claimedAt: '2026-07-01T23:40:12.345Z', lapsesAt: null },
    ...{ startedAt: null, override: null },
  };

  it('is refused to others, who are told since when by the clocks of the yard', () => {
    // Nepal's are 5 h 45 min ahead: it is the next day there.
    expect(() => {
      assertFree({ ...untouched([]), claim }, acting);
    }).toThrow('ANKE and BRAM hold "sand" since Thu 2 Jul 05:25.');
    expect(() => {
      assertFree(untouched([]), acting);
    }).not.toThrow();
  });
});
