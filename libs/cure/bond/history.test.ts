import { describe, expect, it } from 'vitest';

import { DomainError } from '#kernel/error.ts';

import { bondOf } from './bond-of.ts';
import { exposed, type LaidLayer, type LayerHistory, type SurfaceEvent } from './history.ts';

const hull: LaidLayer = {
  substrate: 'polyester',
  kind: 'bare',
  waxed: false,
  blushes: false,
  laidAt: null,
  mm: 8,
  stage: 'cured',
};
const gelCoat: LaidLayer = { ...hull, kind: 'sealed', waxed: true, mm: 0.5 };
const filler: LaidLayer = {
  ...hull,
  substrate: 'epoxy',
  kind: 'sealed',
  blushes: true,
  laidAt: 1000,
  mm: 2,
  stage: 'hard',
};
const at = (minute: number, change: Partial<SurfaceEvent>): SurfaceEvent => ({
  at: minute,
  kind: 'abrade',
  grit: null,
  mm: 0,
  ...change,
});

describe('what is exposed', () => {
  it('is the last layer, as it was laid', () => {
    expect(exposed({ now: 4000, layers: [hull, gelCoat, filler], events: [] })).toEqual({
      substrate: 'epoxy',
      kind: 'sealed',
      stage: 'hard',
      waxed: false,
      blush: true,
      done: [],
      ageMinutes: 3000,
    });
    expect(exposed({ now: 4000, layers: [hull, gelCoat], events: [] })).toMatchObject({
      substrate: 'polyester',
      waxed: true,
      ageMinutes: null,
    });
  });

  it('is what lies below once it is sanded through, cut and without its skin', () => {
    const events = [at(3000, { grit: 80, mm: 1.2 }), at(3500, { grit: 80, mm: 0.9 })];
    const surface = exposed({ now: 4000, layers: [hull, gelCoat, filler], events });
    expect(surface).toEqual({
      substrate: 'polyester',
      kind: 'bare',
      stage: 'cured',
      waxed: false,
      blush: false,
      done: [{ kind: 'abrade', grit: 80, minutesAgo: 500 }],
      ageMinutes: null,
    });
  });

  it('is two layers down where the sanding went that deep, and never less than the last', () => {
    const deep = (mm: number): unknown => {
      const events = [at(3000, { grit: 40, mm })];
      const layers = [{ ...hull, substrate: 'wood' as const, mm: 10 }, gelCoat, filler];
      return exposed({ now: 4000, layers, events }).substrate;
    };
    expect([1.99, 2, 2.49, 2.5, 100].map(deep)).toEqual([
      'epoxy',
      'polyester',
      'polyester',
      'wood',
      'wood',
    ]);
  });

  it('adds up what was sanded off without rounding a layer into being', () => {
    const events = [0, 1, 2, 3, 4].map((k) => at(3000 + k, { grit: 80, mm: 0.4 }));
    expect(exposed({ now: 4000, layers: [hull, filler], events }).substrate).toBe('polyester');
  });

  it('is cut where anything came off, and keeps its kind where it was only keyed', () => {
    const kind = (mm: number): string =>
      exposed({ now: 4000, layers: [hull, filler], events: [at(3000, { grit: 80, mm })] }).kind;
    expect([kind(0), kind(0.01)]).toEqual(['sealed', 'bare']);
  });

  it('is not sanded through where nobody knows how thick it is', () => {
    const events = [at(3000, { grit: 80, mm: 5 })];
    const layers = [hull, { ...filler, mm: null }];
    expect(exposed({ now: 4000, layers, events })).toMatchObject({
      substrate: 'epoxy',
      kind: 'bare',
    });
  });

  it('loses wax to solvent and an amine film to water only', () => {
    const after = (layer: LaidLayer, kind: SurfaceEvent['kind']): boolean[] => {
      const events = [at(3000, { kind, mm: kind === 'abrade' ? 0.1 : 0 })];
      const { waxed, blush } = exposed({ now: 4000, layers: [hull, layer], events });
      return [waxed, blush];
    };
    const both = { ...filler, waxed: true };
    expect(after(both, 'dewax')).toEqual([false, true]);
    expect(after(both, 'wash')).toEqual([true, false]);
    expect(after(both, 'abrade')).toEqual([true, true]);
    expect(after(both, 'wipe')).toEqual([true, true]);
  });

  it('starts anew with the next layer: what was done before it was done to what is below', () => {
    const events = [
      at(900, { grit: 80, mm: 0.6 }),
      at(1000, { kind: 'wipe' }),
      at(3000, { kind: 'wash' }),
    ];
    const surface = exposed({ now: 4000, layers: [hull, gelCoat, filler], events });
    expect(surface.done).toEqual([{ kind: 'wash', grit: null, minutesAgo: 1000 }]);
    // The gel coat was sanded off before the filler went on: under the filler lies the hull.
    const through = [...events, at(3500, { grit: 40, mm: 2 })];
    const below = exposed({
      now: 4000,
      layers: [hull, { ...gelCoat, substrate: 'paint' }, filler],
      events: through,
    });
    expect(below.substrate).toBe('polyester');
  });

  it('is clean below where it was cleaned before it was cut, and only then', () => {
    const layers = [hull, gelCoat];
    const cut = at(3000, { grit: 40, mm: 0.6 });
    const kinds = (...events: SurfaceEvent[]): string =>
      exposed({ now: 4000, layers, events })
        .done.map(({ kind, minutesAgo }) => `${kind} ${minutesAgo}`)
        .join();
    const cleaned = [at(2800, { kind: 'dewax' }), at(2900, { kind: 'wash' })];
    expect(kinds(...cleaned, cut)).toBe('dewax 1200,wash 1100,abrade 1000');
    // Dust and solvent of the layer that went are no preparation of the one that came.
    const rest = [at(2800, { kind: 'extract' }), at(2900, { kind: 'wipe' })];
    expect(kinds(...rest, cut)).toBe('abrade 1000');
    const done = [...cleaned, cut, at(3100, { kind: 'extract' }), at(3200, { kind: 'wipe' })];
    const next = { base: 'epoxy', use: 'laminating', bonding: 'structural', binder: null } as const;
    expect(bondOf(exposed({ now: 3300, layers, events: done }), next)).toMatchObject({
      bond: 'mechanical',
      preparation: [],
    });
    const driven = bondOf(exposed({ now: 3300, layers, events: done.slice(2) }), next);
    expect(driven.preparation.map(({ kind }) => kind)).toContain('abrade');
  });

  it('keeps peel ply until it is torn off, and remembers that it was', () => {
    const layers = [hull, { ...filler, kind: 'peel-ply' as const }];
    const events = [at(3900, { kind: 'peel' })];
    expect(exposed({ now: 4000, layers, events: [] })).toMatchObject({
      kind: 'peel-ply',
      done: [],
    });
    const torn = { kind: 'peel-ply', blush: false, done: [{ kind: 'peel', minutesAgo: 100 }] };
    expect(exposed({ now: 4000, layers, events })).toMatchObject(torn);
    // A film of which only the tearing off is known had peel ply on it.
    expect(exposed({ now: 4000, layers: [hull, filler], events })).toMatchObject(torn);
  });

  it('refuses a part of nothing, layers out of order and what has not happened yet', () => {
    const codeOf = (history: LayerHistory): string | null => {
      try {
        exposed(history);
        return null;
      } catch (error) {
        return error instanceof DomainError ? error.code : 'not on purpose';
      }
    };
    const early = [at(4001, { kind: 'wash' })];
    expect([
      codeOf({ now: 4000, layers: [hull, filler], events: [] }),
      codeOf({ now: 0, layers: [], events: [] }),
      codeOf({ now: 4000, layers: [filler, hull], events: [] }),
      codeOf({ now: 999, layers: [hull, filler], events: [] }),
      codeOf({ now: 4000, layers: [hull], events: early }),
    ]).toEqual([null, 'input.field', 'input.field', 'input.field', 'input.field']);
  });
});
