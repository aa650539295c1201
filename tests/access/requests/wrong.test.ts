import { describe, expect, it } from 'vitest';
import { choose } from './choose.ts';
import { wrongText, wrongValue } from './wrong.ts';

const skill = { id: 'fairing', name: 'Fairing', uses: [{ of: 'sander', minutes: 3 }] };
const text = (value: unknown): string => JSON.stringify(value);

describe('a wrong value', () => {
  const picks = choose(5);
  const made = Array.from({ length: 2_000 }, () => wrongValue(skill, picks, ['theirs']));

  it('differs from the right one, which stays as it was', () => {
    const same = made.filter((value) => text(value) === text(skill));
    expect(same.length).toBeLessThan(20);
    expect(skill.uses[0].minutes).toBe(3);
  });

  it('lacks a field, has one too many, names what is another’s, or nests', () => {
    const has = (found: (value: string) => boolean): number =>
      made.filter((value) => value !== undefined && found(text(value))).length;
    expect(has((value) => !value.includes('"name"'))).toBeGreaterThan(10);
    expect(has((value) => value.includes('"__proto__"'))).toBeGreaterThan(5);
    expect(has((value) => value.includes('theirs'))).toBeGreaterThan(50);
    expect(has((value) => value.includes('[{"value":'.repeat(15)))).toBeGreaterThan(20);
    expect(has((value) => value.includes('\\u0000'))).toBeGreaterThan(5);
  });
});

it('wrong JSON is mostly none', () => {
  const picks = choose(9);
  const made = Array.from({ length: 300 }, () => wrongText(text(skill), picks));
  const readable = made.filter((json) => {
    try {
      JSON.parse(json);
      return true;
    } catch {
      return false;
    }
  });
  expect(readable.length).toBeGreaterThan(0);
  expect(readable.length).toBeLessThan(200);
});
