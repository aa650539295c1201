import { describe, expect, it } from 'vitest';

import type { BondAnswer, NextCoat, Surface } from './bond.ts';
import { bondOf } from './bond-of.ts';

const HOUR = 60;
const DAY = 24 * HOUR;

const polyester: Surface = {
  substrate: 'polyester',
  kind: 'inhibited',
  stage: 'open',
  waxed: false,
  blush: false,
  done: [],
  ageMinutes: DAY,
};
const epoxy: Surface = {
  ...polyester,
  substrate: 'epoxy',
  kind: 'sealed',
  stage: 'cured',
  blush: true,
  ageMinutes: 10 * DAY,
};

const coat = (change: Partial<NextCoat>): NextCoat => ({
  base: 'polyester',
  use: 'laminating',
  bonding: 'structural',
  binder: null,
  ...change,
});
const withEpoxy = coat({ base: 'epoxy' });
const gelCoat = coat({ use: 'gel-coat', bonding: 'cosmetic' });

const steps = (answer: BondAnswer): string =>
  answer.preparation
    .map(({ kind, grit }) => (grit === null ? kind : `${kind} ${String(grit)}`))
    .join(', ');

interface Row {
  readonly row: string;
  readonly source: string;
  readonly on: Surface;
  readonly next: NextCoat;
  readonly bond: BondAnswer['bond'];
  readonly steps: string;
  readonly trust?: BondAnswer['trust'];
}

const KEYED = 'abrade 80, extract, wipe';

const ROWS: readonly Row[] = [
  {
    row: 'unwaxed polyester of at most 5 days takes polyester with no more than clean',
    source: 'ICS Rules for FRP Ships 2014, ch. 3, 602.2 (read)',
    on: { ...polyester, ageMinutes: 5 * DAY },
    next: coat({}),
    bond: 'chemical',
    steps: '',
  },
  {
    row: 'unwaxed polyester of more than 5 days is ground before polyester',
    source: 'ICS Rules for FRP Ships 2014, ch. 3, 602.2 (read)',
    on: { ...polyester, stage: 'hard', ageMinutes: 5 * DAY + 1 },
    next: coat({}),
    bond: 'mechanical',
    steps: KEYED,
  },
  {
    row: 'unwaxed polyester of more than 5 days is ground before epoxy',
    source: 'ICS Rules for FRP Ships 2014, ch. 3, 602.2 (read)',
    on: { ...polyester, stage: 'cured', ageMinutes: 6 * DAY },
    next: withEpoxy,
    bond: 'mechanical',
    steps: KEYED,
  },
  {
    row: 'waxed polyester within 24 h takes polyester',
    source: 'ICS Rules for FRP Ships 2014, ch. 3, 602.2 (read)',
    on: { ...polyester, kind: 'sealed', waxed: true, ageMinutes: DAY },
    next: coat({}),
    bond: 'chemical',
    steps: '',
  },
  {
    row: 'waxed polyester of more than 24 h: wax first, then abrade, even if its sheet says open',
    source: 'ICS 602.2 (read); solvent first common practice, no source',
    on: { ...polyester, kind: 'sealed', waxed: true, ageMinutes: DAY + 1 },
    next: coat({}),
    bond: 'mechanical',
    steps: `dewax, ${KEYED}`,
  },
  {
    row: 'waxed polyester of more than 24 h, any next material',
    source: 'ICS 602.2 (read); iboats.com: wax must be sanded and washed (read)',
    on: { ...polyester, kind: 'sealed', waxed: true, stage: 'cured', ageMinutes: 3 * DAY },
    next: withEpoxy,
    bond: 'mechanical',
    steps: `dewax, ${KEYED}`,
  },
  {
    row: 'waxed polyester of more than 24 h before paint: wax first, then sanded for primer',
    source: 'ICS 602.2; grits 002-740 p. 16 (read)',
    on: { ...polyester, kind: 'sealed', waxed: true, stage: 'cured', ageMinutes: 3 * DAY },
    next: coat({ base: 'paint', use: 'paint', bonding: 'cosmetic' }),
    bond: 'mechanical',
    steps: 'dewax, abrade 120, extract, wipe',
  },
  {
    row: 'peel ply on polyester: torn off, nothing else is needed',
    source: 'ICS 602.3 (read)',
    on: { ...polyester, kind: 'peel-ply', stage: 'cured', ageMinutes: 20 * DAY },
    next: coat({}),
    bond: 'mechanical',
    steps: 'peel',
  },
  {
    row: 'peel ply on epoxy: the same',
    source: 'West System Australia, Surface Preparations (read)',
    on: { ...epoxy, kind: 'peel-ply' },
    next: withEpoxy,
    bond: 'mechanical',
    steps: 'peel',
  },
  {
    row: 'epoxy still tacky takes epoxy as it is',
    source: 'West System Australia, Surface Preparations (read)',
    on: { ...epoxy, stage: 'open', ageMinutes: 5 * HOUR },
    next: withEpoxy,
    bond: 'chemical',
    steps: '',
  },
  {
    row: 'cured epoxy: water and abrasive pad, then 80 grit, before epoxy',
    source: 'West System Australia, Surface Preparations (read)',
    on: epoxy,
    next: withEpoxy,
    bond: 'mechanical',
    steps: `wash, ${KEYED}`,
  },
  {
    row: 'cured epoxy: washed and sanded before paint',
    source: 'West System Australia, Surface Preparations; grits 002-740 p. 16 (read)',
    on: epoxy,
    next: coat({ base: 'paint', use: 'paint', bonding: 'cosmetic' }),
    bond: 'mechanical',
    steps: 'wash, abrade 120, extract, wipe',
  },
  {
    row: 'epoxy not cured through waits for paint',
    source: 'West System Australia, Surface Preparations: full cure (read)',
    on: { ...epoxy, stage: 'hard' },
    next: coat({ base: 'paint', use: 'paint', bonding: 'cosmetic' }),
    bond: 'wait',
    steps: '',
  },
  {
    row: 'cured epoxy refuses structural polyester',
    source: 'Jamestown Distributors, polyester over epoxy primer (read)',
    on: epoxy,
    next: coat({}),
    bond: 'refused',
    steps: '',
  },
  {
    row: 'cured epoxy takes a cosmetic gel coat, with a warning: washed, 80 grit, acetone',
    source: 'Epoxyworks against Evercoat; Jamestown Distributors (read)',
    on: epoxy,
    next: gelCoat,
    bond: 'mechanical',
    steps: `wash, ${KEYED}`,
  },
  {
    row: 'cured polyester and gel coat take epoxy: clean, 80 grit, dust off',
    source: 'ICS Rules for FRP Ships 2014, ch. 3, 602.8 (read)',
    on: { ...polyester, kind: 'bare', stage: 'cured', ageMinutes: null },
    next: withEpoxy,
    bond: 'mechanical',
    steps: `wash, ${KEYED}`,
  },
  {
    row: 'mat with a styrene-soluble binder is refused with epoxy',
    source: 'suppliers’ pages (read)',
    on: epoxy,
    next: { ...withEpoxy, binder: 'styrene-soluble' },
    bond: 'refused',
    steps: '',
  },
  {
    row: 'powder-bound or stitched mat is not',
    source: 'suppliers’ pages (read)',
    on: epoxy,
    next: { ...withEpoxy, binder: 'powder' },
    bond: 'mechanical',
    steps: `wash, ${KEYED}`,
  },
  {
    row: 'vinyl ester is treated as polyester: its next layer joins within a day',
    source: 'common practice, no source',
    on: { ...polyester, substrate: 'vinyl-ester', ageMinutes: DAY },
    next: coat({ base: 'vinyl-ester' }),
    bond: 'chemical',
    steps: '',
    trust: 'practice',
  },
  {
    row: 'vinyl ester over cured epoxy is refused for structure, as polyester is',
    source: 'common practice, no source; of polyester Jamestown Distributors (read)',
    on: epoxy,
    next: coat({ base: 'vinyl-ester' }),
    bond: 'refused',
    steps: '',
    trust: 'practice',
  },
];

describe('bond table', () => {
  it.each(ROWS)('$row ($source)', ({ on, next, bond, steps: wanted, trust = 'read' }) => {
    const answer = bondOf(on, next);
    expect(answer.bond).toBe(bond);
    expect(steps(answer)).toBe(wanted);
    expect(answer.trust).toBe(trust);
    expect(answer.reason.length).toBeGreaterThan(20);
    expect(answer.source.length).toBeGreaterThan(10);
  });

  it.each([
    // Not in the table: practice, but for the grits of primer (002-740 p. 16, read).
    ['foam', 'epoxy', 'abrade 80, extract', 'practice'],
    ['paint', 'paint', 'wash, abrade 120, extract, wipe', 'practice'],
    ['wood', 'epoxy', KEYED, 'read'],
    ['wood', 'polyester', KEYED, 'practice'],
    ['metal', 'epoxy', `dewax, ${KEYED}`, 'read'],
    ['metal', 'polyester', `dewax, ${KEYED}`, 'practice'],
    ['polyester', 'paint', 'wash, abrade 120, extract, wipe', 'read'],
  ] as const)('%s below %s is prepared by: %s (%s)', (substrate, base, wanted, trust) => {
    const on: Surface = { ...polyester, substrate, kind: 'bare', stage: 'cured', ageMinutes: null };
    const use = base === 'paint' ? 'paint' : 'laminating';
    const answer = bondOf(on, coat({ base, use, bonding: 'cosmetic' }));
    expect([answer.bond, steps(answer), answer.trust]).toEqual(['mechanical', wanted, trust]);
  });

  it('wipes with acetone that flashes off: wash, sand, vacuum, acetone, fully flash (read)', () => {
    // The 15 minutes: West System Australia, acetone 15 min before coating (read).
    const wipe = bondOf(epoxy, withEpoxy).preparation.at(-1);
    expect(wipe).toMatchObject({ kind: 'wipe', waitMinutes: 15, staleMinutes: 240 });
  });
});

describe('contradictions', () => {
  it('X5: washes with water before sanding, whoever says that sanding removes blush', () => {
    for (const next of [withEpoxy, gelCoat, coat({ base: 'paint', use: 'paint' })]) {
      const kinds = bondOf({ ...epoxy, blush: false }, next).preparation.map(({ kind }) => kind);
      expect(kinds.slice(0, 2)).toEqual(['wash', 'abrade']);
    }
  });

  it('X6: gel coat over epoxy is warned of, waits for 5 days, and is refused for structure', () => {
    const { warnings, source } = bondOf(epoxy, gelCoat);
    expect(warnings).toHaveLength(1);
    expect(warnings[0]).toMatch(/^Contested/);
    expect(source).toMatch(/Epoxyworks.*Evercoat/);
    expect(bondOf({ ...epoxy, ageMinutes: 5 * DAY }, gelCoat).bond).toBe('wait');
    expect(bondOf({ ...epoxy, ageMinutes: 5 * DAY + 1 }, gelCoat).bond).toBe('mechanical');
    expect(bondOf({ ...epoxy, ageMinutes: null }, gelCoat).bond).toBe('mechanical');
    expect(bondOf({ ...epoxy, stage: 'hard' }, gelCoat).bond).toBe('wait');
    expect(bondOf(epoxy, { ...gelCoat, bonding: 'structural' }).bond).toBe('refused');
  });

  it('X6: polyester filler over epoxy is refused: it flakes off (fairing notes, read)', () => {
    for (const bonding of ['structural', 'cosmetic'] as const) {
      const answer = bondOf(epoxy, coat({ use: 'fairing', bonding }));
      expect([answer.bond, answer.rule]).toEqual(['refused', 'polyester-filler-over-epoxy']);
    }
    expect(bondOf(epoxy, coat({ base: 'epoxy', use: 'fairing' })).bond).toBe('mechanical');
  });

  it('X10: abrades by default, and joins chemically only inside the window of the product', () => {
    // 602.1 would always sand; the window is the material's own, so only `open` is inside it.
    for (const stage of ['hard', 'cured'] as const) {
      for (const ageMinutes of [DAY, 5 * DAY, null]) {
        const answer = bondOf({ ...polyester, stage, ageMinutes }, coat({}));
        expect(answer.bond).toBe('mechanical');
        expect(answer.preparation.map(({ kind }) => kind)).toContain('abrade');
      }
    }
    const sixth = bondOf({ ...polyester, ageMinutes: 6 * DAY }, coat({}));
    expect([sixth.bond, sixth.warnings.length]).toEqual(['chemical', 1]);
  });

  it('warns of an open film only once it is older than the rule for its kind', () => {
    // Unwaxed polyester five days (ICS 602.2, read); vinyl ester a day (common practice, no source).
    const warned = (substrate: 'polyester' | 'vinyl-ester', ageMinutes: number): number => {
      const answer = bondOf({ ...polyester, substrate, ageMinutes }, coat({}));
      expect(answer.bond).toBe('chemical');
      return answer.warnings.length;
    };
    expect([5 * DAY, 5 * DAY + 1].map((age) => warned('polyester', age))).toEqual([0, 1]);
    expect([DAY, DAY + 1, 6 * DAY].map((age) => warned('vinyl-ester', age))).toEqual([0, 1, 1]);
  });

  it('has a stricter maker’s sanding of waxed coats as a warning (iboats.com, read)', () => {
    const answer = bondOf({ ...polyester, waxed: true, kind: 'sealed', ageMinutes: 60 }, coat({}));
    expect([answer.bond, answer.warnings.length]).toEqual(['chemical', 1]);
  });
});
