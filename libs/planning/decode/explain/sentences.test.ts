import { describe, expect, it } from 'vitest';
import { easing, elapsed, gains } from './easing.ts';
import { asks, refusalOf, waits, type Cause, type Wait } from './sentences.ts';

const wait: Wait = { to: 'Coat two (Lid)', from: 'Coat one (Lid)', until: 'Mon 2 Nov 12:20' };

/** One cause of every kind. */
const causes: Record<Cause['kind'], Cause> = {
  sequence: { kind: 'sequence' },
  order: { kind: 'order' },
  wait: { kind: 'wait', minutes: 15 },
  film: {
    kind: 'film',
    state: 'sandable',
    cure: { material: 'Resin', space: 'Shop', low: 18, high: 20, takes: '2 h' },
  },
  closing: { kind: 'closing', window: 'stale' },
  batch: { kind: 'batch', window: 'pot-life' },
  'not-before': { kind: 'not-before', window: 'bond' },
  builder: { kind: 'builder', person: 'Ada' },
  calendar: { kind: 'calendar', person: 'Ada' },
  crew: { kind: 'crew' },
  room: { kind: 'room', space: 'Shop' },
  tool: { kind: 'tool', tool: 'Spray gun' },
  hours: { kind: 'hours', what: 'Shop' },
  stock: { kind: 'stock', stock: 'Gel coat' },
  part: { kind: 'part', part: 'Lid' },
  place: { kind: 'place', part: 'Lid', space: 'Shop' },
  dust: { kind: 'dust', space: 'Shop' },
  'open-film': { kind: 'open-film', space: 'Shop' },
  surface: { kind: 'surface' },
  barrier: { kind: 'barrier', barrier: 'Curtain' },
  hold: { kind: 'hold', tool: 'Mould' },
  boat: { kind: 'boat' },
  now: { kind: 'now' },
  delivery: { kind: 'delivery', delivery: 'Foam' },
  word: { kind: 'word' },
  climate: { kind: 'climate', refusal: 'damp', material: 'Resin', space: 'Shop' },
  slots: { kind: 'slots', list: 'Crane' },
  fixed: { kind: 'fixed' },
  choice: { kind: 'choice', choice: 'Bond or prepare' },
  horizon: { kind: 'horizon' },
  loose: { kind: 'loose' },
};

describe('sentences', () => {
  it('say of a window which of the two it holds back, and what shuts it', () => {
    expect(waits(causes['not-before'], wait)).toBe(
      'Coat two (Lid) is held back with Coat one (Lid), which has to be over inside the bond window',
    );
    expect(waits(causes.closing, wait)).toBe(
      'Coat two (Lid) has to be over by Mon 2 Nov 12:20, before the wiped surface is stale, after Coat one (Lid)',
    );
  });

  it('name who, what or where is in the way, and until when', () => {
    expect(waits(causes.builder, wait)).toBe(
      'Coat two (Lid) waits for Ada, who is on Coat one (Lid) until Mon 2 Nov 12:20',
    );
    expect(waits(causes.room, wait)).toBe(
      'Coat two (Lid) waits for room in Shop, taken by Coat one (Lid) until Mon 2 Nov 12:20',
    );
    expect(waits(causes.tool, { ...wait, from: null })).toBe(
      'Coat two (Lid) waits for a free Spray gun until Mon 2 Nov 12:20',
    );
    expect(waits(causes.film, wait)).toBe(
      'Coat two (Lid) waits for Coat one (Lid) to be sandable (Mon 2 Nov 12:20), because Resin in Shop at 18 to 20 °C takes 2 h',
    );
    expect(waits(causes.place, wait)).toBe(
      'Coat two (Lid) waits until Lid is in Shop, brought by Coat one (Lid) (Mon 2 Nov 12:20)',
    );
    expect(waits(causes.loose, wait)).toContain('a longer search may begin it earlier');
  });

  it('tell cold from damp from a space that was heated too late, and know the plans of before', () => {
    const text = (kind: string): string =>
      waits({ kind: 'climate', refusal: refusalOf(kind), material: 'Resin', space: 'Shop' }, wait);
    expect(text('damp')).toBe(
      'Coat two (Lid) waits until Resin may be laid in Shop (Mon 2 Nov 12:20): before that it would be too damp',
    );
    const kinds = ['cold', 'warm', 'damp', 'preheat', 'hold', 'climate'];
    expect(new Set(kinds.map(text)).size).toBe(kinds.length);
    expect(text('climate')).toMatch(/too cold or too warm$/);
  });

  it.each(Object.values(causes))('$kind names all that it was given', (cause) => {
    const { kind, ...names } = cause;
    const given = Object.entries(names).flatMap(([key, value]) =>
      typeof value === 'string' && key !== 'refusal' ? [value] : [],
    );
    const own = kind === 'closing' || kind === 'batch' || kind === 'not-before' ? [] : given;
    for (const from of [wait.from, null]) {
      const text = waits(cause, { ...wait, from });
      for (const name of own) expect(text).toContain(name);
      expect(text).toContain(wait.to);
      expect(text).not.toMatch(/undefined|null|\bNaN\b/);
      expect(asks(cause, { ...wait, from }, 'Fri')).not.toMatch(/undefined|null|\bNaN\b/);
    }
  });
});

describe('what would be otherwise', () => {
  it('is a sentence of its own for every cause but the two of dust', () => {
    const told = Object.values(causes).map((cause) => easing(cause, wait));
    const same = (kind: Cause['kind']): string => easing(causes[kind], wait);
    expect(same('dust')).toBe(same('open-film'));
    expect(new Set(told).size).toBe(told.length - 1);
    for (const text of told) expect(text).toMatch(/^(If|With|Without|Had) [^{}]+$/);
  });

  it('names what is eased, and the two that it is between', () => {
    expect(easing(causes.film, wait)).toBe(
      'If Coat one (Lid) were sandable for Coat two (Lid) at once',
    );
    expect(easing(causes.builder, wait)).toBe('With one more who can do what Ada does');
    expect(easing(causes.closing, wait)).toBe(
      'If Coat two (Lid), after Coat one (Lid), did not have to be over before the wiped surface is stale',
    );
  });

  it.each([
    [0, '0 min'],
    [59, '59 min'],
    [1440, '1 day'],
    [3070, '2 days 3 h 10 min'],
  ])('tells %i minutes as %s', (minutes, text) => {
    expect(elapsed(minutes)).toBe(text);
    if (minutes > 0) {
      expect(gains('Wren', minutes)).toBe(`${text} earlier for Wren`);
      expect(gains('Wren', -minutes)).toBe(`${text} later for Wren`);
    }
  });
});
