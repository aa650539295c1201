import { describe, expect, it } from 'vitest';
import { shoppingOf } from './shopping.ts';
import type { MixSheet, SheetAmount, SheetTask, When } from './sheet.ts';

const at = (local: string): When => ({ at: `${local}:00.000Z`, local });

const mix = (
  resinGrams: number | null,
  fabrics: MixSheet['fabrics'] = [],
  materialId = 'resin',
): MixSheet => ({
  materialId,
  material: materialId === 'resin' ? 'Resin' : 'Filler',
  celsius: 20,
  fabrics,
  resinGrams,
  hardenerGrams: resinGrams === null ? null : resinGrams / 50,
  hardenerMl: null,
  hardenerDensity: null,
  ratio: null,
  potLifeMinutes: null,
  useWithinMinutes: null,
  steps: [],
  cups: [],
  missing: [],
});

type Task = Parameters<typeof shoppingOf>[0][number];

const task = (
  start: string,
  finish: string,
  one: MixSheet | null,
  consumables: readonly SheetAmount[] = [],
  state: SheetTask['state'] = 'waiting',
): Task => ({ state, start: at(start), finish: at(finish), mix: one, consumables });

const wipes: SheetAmount = { id: 'wipe', name: 'Wipe', amount: 2.1, unit: 'piece', source: 'x' };

const listOf = (tasks: readonly Task[], shelf: number | null = null) =>
  shoppingOf(tasks, () => shelf).map(({ week, kind, name, amount, unit }) => [
    week,
    kind,
    name,
    amount,
    unit,
  ]);

describe('shoppingOf', () => {
  it('adds up by week, kind and name, and keeps weeks apart', () => {
    const mat = { id: 'mat', name: 'Mat', squareMetres: 1.2, grams: 360 };
    expect(
      listOf([
        // Sunday the 8th still is of the week of Monday the 2nd.
        task('2026-11-02T09:00', '2026-11-02T10:00', mix(100, [mat]), [wipes]),
        task('2026-11-08T09:00', '2026-11-08T10:00', mix(50.5, [mat]), [wipes]),
        task('2026-11-09T09:00', '2026-11-09T10:00', mix(20), []),
        task('2026-11-09T11:00', '2026-11-09T12:00', mix(30, [], 'filler'), []),
      ]),
    ).toEqual([
      ['2026-11-02', 'resin', 'Resin', 150.5, 'g'],
      ['2026-11-02', 'hardener', 'Hardener of Resin', 3.01, 'g'],
      ['2026-11-02', 'fabric', 'Mat', 2.4, 'm²'],
      ['2026-11-02', 'consumable', 'Wipe', 4.2, 'piece'],
      ['2026-11-09', 'resin', 'Filler', 30, 'g'],
      ['2026-11-09', 'resin', 'Resin', 20, 'g'],
      ['2026-11-09', 'hardener', 'Hardener of Filler', 0.6, 'g'],
      ['2026-11-09', 'hardener', 'Hardener of Resin', 0.4, 'g'],
    ]);
  });

  it('says from when until when it is used, and how long it keeps', () => {
    const list = shoppingOf(
      [
        task('2026-11-02T09:00', '2026-11-04T17:00', mix(100)),
        task('2026-11-03T09:00', '2026-11-03T10:00', mix(100)),
      ],
      (id) => (id === 'resin' ? 180 : null),
    );
    expect(list[0]).toMatchObject({
      firstUse: { local: '2026-11-02T09:00' },
      lastUse: { local: '2026-11-04T17:00' },
      shelfLifeDays: 180,
    });
    expect(list[1].shelfLifeDays).toBe(180);
  });

  it('leaves out what has begun, what cannot be weighed, and dry work', () => {
    expect(
      listOf([
        task('2026-11-02T09:00', '2026-11-02T10:00', mix(100), [wipes], 'done'),
        task('2026-11-02T09:00', '2026-11-02T10:00', mix(100), [], 'working'),
        task('2026-11-02T09:00', '2026-11-02T10:00', mix(null)),
        task('2026-11-02T09:00', '2026-11-02T10:00', null),
      ]),
    ).toEqual([]);
  });
});
