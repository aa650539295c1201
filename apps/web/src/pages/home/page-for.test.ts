import { describe, expect, it } from 'vitest';
import { pageFor } from './page-for.ts';

describe('the page that somebody begins with', () => {
  it.each([
    [['owner'], true, 'my-boat'],
    [['builder'], true, 'now'],
    [['builder', 'owner'], true, 'now'],
    [['foreman'], true, 'week'],
    [['foreman', 'builder'], true, 'week'],
    [['foreman', 'builder', 'owner'], true, 'now'],
    [['foreman'], false, 'set-up'],
    [['foreman', 'builder', 'owner'], false, 'set-up'],
    [['builder'], false, 'now'],
  ] as const)('is for %j, where there is a plan: %s, %s', (roles, hasPlan, page) => {
    expect(pageFor({ yardId: 'anse', roles: [...roles] }, hasPlan)).toBe(`/yards/anse/${page}`);
  });
});
