import { describe, expect, it } from 'vitest';

import { TRUSTS } from '../evidence/evidence.ts';
import { BASES, USES } from '../material/material.ts';
import {
  PREPARATIONS,
  type BondAnswer,
  type Done,
  type NextCoat,
  type PreparationKind,
  type Stage,
  type Substrate,
  type Surface,
} from './bond.ts';
import { bondOf } from './bond-of.ts';
import { BOND_RULES } from './rules.ts';

const epoxy: Surface = {
  substrate: 'epoxy',
  kind: 'sealed',
  stage: 'cured',
  waxed: false,
  blush: true,
  done: [],
  ageMinutes: 14_400,
};
const next: NextCoat = { base: 'epoxy', use: 'laminating', bonding: 'structural', binder: null };

const did = (kind: PreparationKind, minutesAgo: number, grit: number | null = null): Done => ({
  kind,
  minutesAgo,
  grit,
});
const left = (...done: Done[]): PreparationKind[] =>
  bondOf({ ...epoxy, done }, next).preparation.map(({ kind }) => kind);

/** Every surface and coat there is, by what rules look at; without a rule for one `bondOf` throws. */
const all = (() => {
  const substrates: Substrate[] = [...BASES, 'wood', 'metal', 'foam', 'paint'];
  const stages: Stage[] = ['wet', 'open', 'between', 'hard', 'cured'];
  const kinds = ['inhibited', 'sealed', 'peel-ply', 'bare'] as const;
  const coats: NextCoat[] = [...BASES, 'paint' as const].flatMap((base) =>
    (base === 'paint' ? (['paint'] as const) : USES).flatMap((use) =>
      (['structural', 'cosmetic'] as const).flatMap((bonding) =>
        (['styrene-soluble', null] as const).map((binder) => ({ base, use, bonding, binder })),
      ),
    ),
  );
  return substrates.flatMap((substrate) =>
    stages.flatMap((stage) =>
      kinds.flatMap((kind) =>
        [true, false].flatMap((waxed) =>
          [60, 2000, 10_000, null].flatMap((ageMinutes) =>
            coats.map((coat): [Surface, NextCoat, BondAnswer] => {
              const surface = { ...epoxy, substrate, stage, kind, waxed, ageMinutes };
              return [surface, coat, bondOf(surface, coat)];
            }),
          ),
        ),
      ),
    ),
  );
})();

describe('rules', () => {
  it('are each reached by some surface and coat, under their own id', () => {
    expect(new Set(BOND_RULES.map(({ id }) => id)).size).toBe(BOND_RULES.length);
    const reached = new Set(all.map(([, , { rule }]) => rule));
    expect(BOND_RULES.map(({ id }) => id).filter((id) => !reached.has(id))).toEqual([]);
  });

  it('say why and by whom', () => {
    for (const { trust, source, reason } of BOND_RULES) {
      expect(TRUSTS).toContain(trust);
      expect(source.length).toBeGreaterThan(10);
      expect(reason).toMatch(/[.]$/);
    }
  });

  it('ask for steps only of a bond, in the one order: clean, abrade, extract, wipe', () => {
    const order: PreparationKind[] = ['peel', 'dewax', 'wash', 'abrade', 'extract', 'wipe'];
    expect([...order].sort()).toEqual([...PREPARATIONS].sort());
    for (const { bond, preparation } of BOND_RULES) {
      const places = preparation.map(({ kind }) => order.indexOf(kind));
      expect(places).toEqual([...places].sort((a, b) => a - b));
      expect(preparation.length > 0).toBe(bond === 'mechanical');
    }
  });

  it('let nothing onto a wet or half-hard film, and no polyester structure onto epoxy', () => {
    const wrong = all.filter(([surface, coat, { bond }]) => {
      const { stage, substrate } = surface;
      const soft = stage === 'wet' || stage === 'between';
      const polyester = coat.base === 'polyester' || coat.base === 'vinyl-ester';
      const never = substrate === 'epoxy' && polyester && coat.bonding === 'structural';
      return (
        (soft && bond !== 'wait' && bond !== 'refused') ||
        (never && bond !== 'refused') ||
        (bond === 'chemical' && stage !== 'open')
      );
    });
    expect(wrong).toEqual([]);
  });

  it('take wax off before abrading wherever a waxed surface is abraded', () => {
    const abraded = all
      .filter(([{ substrate, waxed }]) => waxed && /ester/.test(substrate))
      .map(([, , { preparation }]) => preparation.map(({ kind }) => kind).join())
      .filter((kinds) => kinds.includes('abrade'));
    expect(new Set(abraded)).toEqual(new Set(['dewax,abrade,extract,wipe']));
  });

  it('take no coat of another kind onto an open film', () => {
    const open: Surface = { ...epoxy, substrate: 'polyester', stage: 'open', ageMinutes: 600 };
    expect(bondOf(open, next)).toMatchObject({ bond: 'wait', rule: 'open-to-its-own-kind-only' });
  });
});

describe('what was done already', () => {
  it('is left out while it counts', () => {
    expect(left()).toEqual(['wash', 'abrade', 'extract', 'wipe']);
    expect(left(did('wash', 300))).toEqual(['abrade', 'extract', 'wipe']);
    expect(left(did('wash', 300), did('abrade', 200, 80))).toEqual(['extract', 'wipe']);
    const ready = [did('wash', 300), did('abrade', 200, 60), did('extract', 190), did('wipe', 60)];
    expect(left(...ready)).toEqual([]);
  });

  it('does not count where it was abraded before it was washed', () => {
    const done = [did('abrade', 300, 80), did('extract', 290), did('wash', 280), did('wipe', 60)];
    expect(left(...done)).toEqual(['abrade', 'extract', 'wipe']);
    expect(left(did('abrade', 300, 80))).toEqual(['wash', 'abrade', 'extract', 'wipe']);
  });

  it('does not count where the paper was too fine, or nobody knows what it was', () => {
    for (const grit of [220, null]) {
      const done = [did('wash', 300), did('abrade', 200, grit), did('extract', 190)];
      expect(left(...done)).toEqual(['abrade', 'extract', 'wipe']);
    }
  });

  it('is undone by abrading again: the dust has to go and the wipe is to be done again', () => {
    const done = [did('wash', 300), did('abrade', 200, 80), did('extract', 190), did('wipe', 60)];
    expect(left(...done, did('abrade', 30, 80))).toEqual(['extract', 'wipe']);
    expect(left(...done, did('abrade', 30, 400))).toEqual(['abrade', 'extract', 'wipe']);
  });

  it('goes stale after four hours, of a wipe: then it is wiped again', () => {
    const keyed = [did('wash', 900), did('abrade', 800, 80), did('extract', 790)];
    expect(left(...keyed, did('wipe', 240))).toEqual([]);
    expect(left(...keyed, did('wipe', 241))).toEqual(['wipe']);
    expect(left(...keyed, did('wipe', 241), did('wipe', 20))).toEqual([]);
  });

  it('is waited for until the solvent has flashed off', () => {
    const keyed = [did('wash', 900), did('abrade', 800, 80), did('extract', 790)];
    const { preparation } = bondOf({ ...epoxy, done: [...keyed, did('wipe', 5)] }, next);
    expect(preparation).toMatchObject([{ kind: 'wipe', waitMinutes: 10 }]);
    expect(left(...keyed, did('wipe', 15))).toEqual([]);
  });

  it('leaves dust to be taken off an open film that was sanded', () => {
    const open: Surface = { ...epoxy, stage: 'open', done: [did('abrade', 30, 80)] };
    expect(bondOf(open, next).preparation.map(({ kind }) => kind)).toEqual(['extract', 'wipe']);
  });

  it('is waited for after the last wipe, and where nothing had to be wiped', () => {
    const keyed = [did('wash', 900), did('abrade', 800, 80), did('extract', 790)];
    const twice = bondOf({ ...epoxy, done: [...keyed, did('wipe', 100), did('wipe', 5)] }, next);
    expect(twice.preparation).toMatchObject([{ kind: 'wipe', waitMinutes: 10 }]);
    const open: Surface = { ...epoxy, stage: 'open', done: [did('wipe', 5)] };
    expect(bondOf(open, next)).toMatchObject({
      bond: 'chemical',
      preparation: [{ kind: 'wipe', waitMinutes: 10 }],
    });
    expect(bondOf({ ...open, done: [did('wipe', 15)] }, next).preparation).toEqual([]);
  });

  it('is nothing to a film on which nothing may go yet, or never', () => {
    const done = [did('abrade', 30, 80), did('wipe', 5)];
    const wet = bondOf({ ...epoxy, stage: 'wet', kind: 'peel-ply', done }, next);
    expect([wet.bond, wet.preparation]).toEqual(['wait', []]);
    const never = bondOf({ ...epoxy, done }, { ...next, base: 'polyester' });
    expect([never.bond, never.preparation]).toEqual(['refused', []]);
  });

  it('has to be peel ply first, whatever the rule asks for besides', () => {
    const covered: Surface = { ...epoxy, kind: 'peel-ply' };
    const kinds = (surface: Surface, coat: NextCoat): string =>
      bondOf(surface, coat)
        .preparation.map(({ kind }) => kind)
        .join();
    expect(bondOf({ ...covered, stage: 'open' }, next).bond).toBe('chemical');
    expect(kinds({ ...covered, stage: 'open' }, next)).toBe('peel');
    const gelCoat: NextCoat = { ...next, base: 'polyester', use: 'finish', bonding: 'cosmetic' };
    expect(kinds(covered, gelCoat)).toBe('peel,wash,abrade,extract,wipe');
    const waxed: Surface = { ...covered, substrate: 'polyester', waxed: true, stage: 'open' };
    expect(kinds({ ...waxed, ageMinutes: 2000 }, { ...next, base: 'polyester' })).toBe('peel');
  });

  it('is nothing more of peel ply that was torn off', () => {
    const torn: Surface = { ...epoxy, kind: 'peel-ply', done: [did('peel', 30)] };
    expect(bondOf(torn, next)).toMatchObject({ bond: 'mechanical', preparation: [] });
    const sanded = { ...torn, done: [did('peel', 30), did('abrade', 20, 80)] };
    expect(bondOf(sanded, next).preparation.map(({ kind }) => kind)).toEqual(['extract', 'wipe']);
  });
});

describe('wax that was taken off with solvent', () => {
  const dewaxed: Surface = {
    ...epoxy,
    substrate: 'polyester',
    waxed: false,
    blush: false,
    ageMinutes: 2000,
    done: [did('dewax', 300)],
  };
  const polyester: NextCoat = { ...next, base: 'polyester' };
  const steps = (surface: Surface, coat = polyester): string =>
    bondOf(surface, coat)
      .preparation.map(({ kind, grit }) => `${kind} ${grit ?? ''}`.trim())
      .join();

  it('does not open again the window that was over after a day', () => {
    const answer = bondOf({ ...dewaxed, stage: 'open' }, polyester);
    expect([answer.bond, answer.rule]).toEqual(['mechanical', 'waxed-polyester-after-a-day']);
    expect(steps({ ...dewaxed, stage: 'open' })).toBe('abrade 80,extract,wipe');
  });

  it('leaves the same to be done as of wax that is known, no other grit and no water', () => {
    for (const ageMinutes of [2000, null]) {
      expect(steps({ ...dewaxed, ageMinutes })).toBe('abrade 80,extract,wipe');
      const done = [...dewaxed.done, did('abrade', 200, 80), did('extract', 190), did('wipe', 60)];
      expect(steps({ ...dewaxed, ageMinutes, done })).toBe('');
    }
  });

  it('is not taken for wax on an unwaxed film that is still tacky', () => {
    const tacky: Surface = { ...dewaxed, kind: 'inhibited', stage: 'open' };
    expect(bondOf(tacky, polyester)).toMatchObject({ bond: 'chemical', preparation: [] });
    // Once it is hard, solvent is what cleans it before it is abraded, as on any old polyester.
    expect(steps({ ...tacky, stage: 'hard' })).toBe('abrade 80,extract,wipe');
    // Any solvent is waited for.
    const fresh = bondOf({ ...tacky, done: [did('dewax', 5)] }, polyester);
    expect(fresh.preparation).toMatchObject([{ kind: 'dewax', waitMinutes: 10 }]);
  });
});

describe('what is not resin', () => {
  it('is not washed with water where that would swell or rust it', () => {
    const bare: Surface = { ...epoxy, kind: 'bare', blush: false, ageMinutes: null };
    for (const base of ['epoxy', 'polyester'] as const) {
      const kinds = (substrate: Substrate): string =>
        bondOf({ ...bare, substrate }, { ...next, base })
          .preparation.map(({ kind }) => kind)
          .join();
      expect(kinds('wood')).toBe('abrade,extract,wipe');
      expect(kinds('metal')).toBe('dewax,abrade,extract,wipe');
    }
  });
});
