import { describe, expect, it } from 'vitest';
import { idFor } from './names.ts';

describe('an id from a name', () => {
  it.each([
    ['Main bulkhead', 'main-bulkhead'],
    ['  Île de Bréhat  ', 'ile-de-brehat'],
    ['Hatch (port) №2', 'hatch-port-no2'],
    ['<img src=x>', 'img-src-x'],
    ['船', 'item'],
    ['', 'item'],
  ])('%j', (name, id) => {
    expect(idFor(name, [])).toBe(id);
  });

  it('is what the service takes, however long the name', () => {
    const id = idFor('word '.repeat(60), []);
    expect(id).toMatch(/^[a-z0-9][a-z0-9._-]{0,119}$/);
    expect(id.length).toBeLessThanOrEqual(60);
  });

  it('is free', () => {
    expect(idFor('Hatch', ['hatch', 'hatch-2'])).toBe('hatch-3');
  });
});
