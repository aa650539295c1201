import { describe, expect, it } from 'vitest';
import type { Fault } from '#kernel/error.ts';
import { jobOf, smallYard } from '../../../testing/small-yard.ts';
import { layerSchema, type Layer } from '../../boats.ts';
import type { Material } from '../../materials.ts';
import type { Link, Preparation, Step } from '../../procedures.ts';
import type { Yard } from '../../yard.ts';
import { yardFaults } from '../check.ts';
import { yardWarnings } from '../warnings.ts';
import type { Warning } from './bonds.ts';

type Change = (draft: Yard) => void;

const bonds = (change: Change): readonly Fault[] =>
  yardFaults(smallYard(change)).filter(({ code }) => code === 'cure.bond');
const warned = (change: Change): readonly Warning[] => yardWarnings(smallYard(change));

type Kinds = readonly (Preparation['kind'] | 'abrade-60')[];

const prepares = (...kinds: Kinds): Preparation[] =>
  kinds.map((kind) =>
    kind === 'abrade-60'
      ? { kind: 'abrade', grit: 60, mm: null, passes: 1 }
      : { kind, grit: null, mm: null, passes: 1 },
  );

/** What the abrading step between the two coats declares. */
const keying =
  (...kinds: Kinds): Change =>
  (yard) => {
    yard.procedures[0].steps[2].prepares = prepares(...kinds);
  };

/** The second coat is of another material than the first. */
const over =
  (material: Partial<Material>, step: Partial<Step> = {}): Change =>
  (yard) => {
    yard.materials.push({ ...yard.materials[0], id: 'other', name: 'Other', ...material });
    Object.assign(yard.procedures[0].steps[3], { material: 'other', ...step });
  };
const polyester = { resinSystem: 'polyester', surface: 'inhibited' } as const;
const both =
  (...changes: readonly Change[]): Change =>
  (yard) => {
    for (const change of changes) change(yard);
  };
const onlyHard: Change = (yard) => {
  // One branch only: after abrading.
  yard.procedures[0].choices = [];
  yard.procedures[0].links = yard.procedures[0].links.filter(({ id }) => id !== 'bond');
};
const layers =
  (...given: readonly Partial<Layer>[]): Change =>
  (yard) => {
    yard.boats[0].refits[0].parts[0].layers = given.map((one) =>
      layerSchema.parse({ base: 'epoxy', surface: 'sealed', ...one }),
    );
  };
const firstSand =
  (...kinds: Kinds): Change =>
  (yard) => {
    yard.procedures[0].steps[0].prepares = prepares(...kinds);
  };

const SECOND = 'procedures[0].steps[3]';
const JOB = 'boats[0].refits[0].parts[0].jobs[0].procedure';

describe('a coat on a coat of its procedure', () => {
  it('in its bond window or washed, abraded, vacuumed and wiped is right', () => {
    const change = keying('wash', 'abrade-60', 'extract', 'wipe');
    expect(bonds(change)).toEqual([]);
    expect(warned(change)).toEqual([]);
  });

  it.each([
    [
      'washes after it has abraded',
      ['abrade-60', 'wash', 'extract', 'wipe'],
      'abrade, extract, wipe',
    ],
    ['does not wipe', ['wash', 'abrade-60', 'extract'], 'wipe'],
    ['does not say the grit', ['wash', 'abrade', 'extract', 'wipe'], 'abrade, extract, wipe'],
  ] as const)('is wrong where the branch %s', (_, kinds, left) => {
    const faults = bonds(keying(...kinds));
    expect(faults).toHaveLength(1);
    expect(faults[0]).toMatchObject({ path: SECOND, value: 'two' });
    expect(faults[0].message).toMatch(
      /^Two coats: Coat two on Coat one by way of Abrade lacks preparation, or has it in another order .*\(West System/,
    );
    expect(faults[0].message).toContain(`(left to do: ${left})`);
    expect(faults[0].cure).toMatch(
      /^In this order, before the coat: Wash .*Abrade.*80 grit.*vacuum.*Wipe/,
    );
  });

  it('is warned of where the branch declares nothing', () => {
    expect(bonds(() => undefined)).toEqual([]);
    const [warning, ...others] = warned(() => undefined);
    expect(others).toEqual([]);
    expect(warning.path).toBe(SECOND);
    expect(warning.source).toMatch(/^West System/);
    expect(warning.message).toMatch(
      /^Two coats: Coat two on Coat one by way of Abrade: no step says what it prepares\. .* In this order, before the coat: Wash/,
    );
  });

  it('of polyester on epoxy is refused, in and after its window, with reason and source', () => {
    const faults = bonds(over(polyester));
    expect(faults.map(({ path }) => path)).toEqual([SECOND, SECOND]);
    for (const { message } of faults)
      expect(message).toMatch(
        /does not bond: The bond of polyester to epoxy is not adequate .*\(Jamestown/,
      );
  });

  it('of gel coat for looks comes too early in the window of epoxy', () => {
    const finish = over({ ...polyester, use: 'finish' }, { bonding: 'cosmetic' });
    const [first] = bonds(both(finish, keying('wash', 'abrade-60', 'extract', 'wipe')));
    expect(first.message).toMatch(/comes too early: Epoxy must have cured through/);
  });

  it('of gel coat for looks on abraded epoxy is warned of: cured through, and contested', () => {
    const finish = over({ ...polyester, use: 'finish' }, { bonding: 'cosmetic' });
    const prepared = both(finish, onlyHard, keying('wash', 'abrade-60', 'extract', 'wipe'));
    expect(bonds(prepared)).toEqual([]);
    expect(warned(prepared).map(({ message }) => message)).toEqual([
      expect.stringMatching(/comes too early: Epoxy must have cured through/),
    ]);
    const cured = both(prepared, (yard) => {
      const line = yard.materials[0].milestones[5];
      const rows = line.rows.map(({ celsius, minutes }) => ({ celsius, minutes: 7 * minutes }));
      yard.materials[0].milestones.push({ ...line, milestone: 'cured', rows });
      const hard = yard.procedures[0].links.find(({ id }) => id === 'hard');
      if (hard) hard.opens = { kind: 'milestone', milestone: 'cured' };
    });
    expect(bonds(cured)).toEqual([]);
    expect(warned(cured).map(({ message }) => message)).toEqual([
      expect.stringMatching(/Contested/),
    ]);
  });

  it('is warned of where no link says until when the film below is open', () => {
    const until = (closes: Link['closes']): readonly Warning[] =>
      warned((yard) => {
        keying('wash', 'abrade-60', 'extract', 'wipe')(yard);
        yard.procedures[0].links[1].closes = closes;
      });
    expect(until(null)).toMatchObject([
      {
        path: SECOND,
        message: expect.stringMatching(
          /^Two coats: Coat two on Coat one: no link says until when, and once the window is over: .* Close the link/,
        ) as string,
      },
    ]);
    expect(until({ kind: 'after', minutes: 300 })).toEqual([]);
  });

  it('is warned of where the film below is abraded before it is hard', () => {
    const early = (opens: Link['opens']): string[] =>
      warned((yard) => {
        keying('wash', 'abrade-60', 'extract', 'wipe')(yard);
        yard.procedures[0].links[2].opens = opens;
      }).map(({ message }) => message);
    expect(early({ kind: 'milestone', milestone: 'dust-safe' })).toEqual([
      expect.stringMatching(/by way of Abrade comes too early: .*too soft to abrade/),
    ]);
    expect(early({ kind: 'milestone', milestone: 'sandable' })).toEqual([]);
    expect(early({ kind: 'after', minutes: 1440 })).toEqual([]);
  });

  it('on torn off peel ply is right', () => {
    const change = keying('peel');
    expect(bonds(change)).toEqual([]);
    expect(warned(change)).toEqual([]);
  });
});

it('a coat on the other face of a part that was turned over is not judged by this face', () => {
  const turned = (yard: Yard): void => {
    yard.procedures[0].steps[2].move = { kind: 'turn' };
  };
  expect(warned(both(onlyHard, turned))).toEqual([]);
  expect(warned(onlyHard)).toHaveLength(1);
});

describe('a first coat of a job', () => {
  const clean = keying('wash', 'abrade-60', 'extract', 'wipe');

  it('finds what its part is made of', () => {
    expect(bonds(both(clean, layers({ base: 'wood', surface: 'bare' })))).toEqual([]);
    const faults = bonds(both(clean, layers({}), firstSand('abrade-60', 'extract', 'wipe')));
    expect(faults).toHaveLength(1);
    expect(faults[0]).toMatchObject({ path: JOB, value: 'two-coats' });
    expect(faults[0].message).toMatch(/^Coat one of lid on what Lid is made of \(epoxy\) lacks/);
    const right = both(clean, layers({}), firstSand('wash', 'abrade-60', 'extract', 'wipe'));
    expect(bonds(right)).toEqual([]);
    expect(warned(right)).toEqual([]);
  });

  it('of structure does not hold on paint', () => {
    const faults = bonds(both(clean, layers({}, { base: 'paint' })));
    expect(faults.map(({ path, message }) => [path, message])).toEqual([
      [
        JOB,
        expect.stringMatching(/^Coat one of lid on what Lid is made of \(paint\) does not bond/),
      ],
    ]);
  });

  it('finds what lies below a layer that is sanded through', () => {
    const thin = layers({ base: 'wood', surface: 'bare' }, { base: 'paint', mm: 0.2 });
    const sand =
      (mm: number): Change =>
      (yard) => {
        const [abrade, ...rest] = prepares('abrade-60', 'extract', 'wipe');
        yard.procedures[0].steps[0].prepares = [{ ...abrade, mm }, ...rest];
      };
    expect(bonds(both(clean, thin, sand(0.3)))).toEqual([]);
    const [fault] = bonds(both(clean, thin, sand(0.1)));
    expect(fault.message).toMatch(/does not bond: It would hold no better than the old coating/);
  });

  it('finds what the job before it leaves, and not what lay there in the beginning', () => {
    const again: Change = (yard) => {
      yard.boats[0].refits[0].parts[0].jobs.push(jobOf('again', ['lid']));
    };
    const sanded = firstSand('wash', 'abrade-60', 'extract', 'wipe');
    const change = both(clean, sanded, layers({}), again);
    expect(bonds(change)).toEqual([]);
    expect(warned(change)).toEqual([]);
    const [fault, ...others] = bonds(both(clean, again, firstSand('wash')));
    expect(others).toEqual([]);
    expect(fault.path).toBe('boats[0].refits[0].parts[0].jobs[1].procedure');
    expect(fault.message).toMatch(/^Coat one of again on Coat two of lid lacks/);
  });

  it('is prepared by a job before it that lays nothing', () => {
    const sandFirst: Change = (yard) => {
      const [procedure] = yard.procedures;
      const [sand] = procedure.steps;
      yard.procedures.push({
        ...procedure,
        id: 'sanding',
        steps: [{ ...sand, prepares: prepares('wash', 'abrade-60', 'extract', 'wipe') }],
        links: [],
        choices: [],
      });
      const { jobs } = yard.boats[0].refits[0].parts[0];
      jobs.push(jobOf('sand', [], 'sanding'));
      jobs[0].after = ['sand'];
      procedure.links = procedure.links.filter(({ id }) => id !== 'sand-one');
      procedure.steps = procedure.steps.filter(({ id }) => id !== 'sand');
    };
    const change = both(clean, layers({}), sandFirst);
    expect(bonds(change)).toEqual([]);
    expect(warned(change)).toEqual([]);
  });

  it('of jobs that wait for each other in a circle is not looked for without end', () => {
    const faults = yardFaults(
      smallYard((yard) => {
        // Of both nothing is laid, so that each looks for what the other leaves.
        const [procedure] = yard.procedures;
        yard.procedures = [
          { ...procedure, steps: procedure.steps.slice(0, 1), links: [], choices: [] },
        ];
        const { jobs } = yard.boats[0].refits[0].parts[0];
        jobs.push(jobOf('again', ['lid']), jobOf('coat', ['again'], 'coat'));
        jobs[0].after = ['again'];
        yard.procedures.push({
          ...procedure,
          id: 'coat',
          steps: procedure.steps.slice(1, 2),
          links: [],
          choices: [],
        });
      }),
    );
    expect(faults.map(({ code }) => code)).toEqual(['yard.cycle']);
  });
});
