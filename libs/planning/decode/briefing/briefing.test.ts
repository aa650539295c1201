import { describe, expect, it } from 'vitest';
import { smallYard } from '../../testing/small-yard.ts';
import { makeWorkload } from '../../workload/make.ts';
import type { Task } from '../../workload/workload.ts';
import type { MaterialFigure } from '../../yard/materials.ts';
import type { Yard } from '../../yard/yard.ts';
import type { ReadyTask } from '../ready/ready.ts';
import { standing } from '../ready/standing.ts';

const exact = (value: number): MaterialFigure => ({
  value,
  source: 'made up for tests',
  trust: 'sheet',
  spread: 1,
});

const done = (from: string, to: string, day = '2026-11-02'): Partial<Task> => ({
  state: 'done',
  startedAt: `${day}T${from}:00Z`,
  finishedAt: `${day}T${to}:00Z`,
  crew: ['ada'],
});

type Begun = Readonly<Record<string, Partial<Task>>>;

/** What the ready list says of a task at an instant. */
function ready(task: string, now: string, change: (draft: Yard) => void, begun: Begun): ReadyTask {
  const yard = smallYard(change);
  const made = makeWorkload(yard);
  const workload = { ...made, tasks: made.tasks.map((one) => ({ ...one, ...begun[one.id] })) };
  const list = standing({ yard, workload, sheet: null, now }).all();
  const found = list.ready.find(({ taskId }) => taskId === task);
  if (found === undefined) throw new Error(JSON.stringify(list.waiting));
  return found;
}

const sanded: Begun = { 'lid.sand': done('08:00', '08:50') };

/** Coat one, at half past nine. */
const coatOne = (change: (draft: Yard) => void): ReadyTask =>
  ready('lid.one', '2026-11-02T09:30:00Z', change, sanded);

const nothing = (): void => undefined;

describe('warnings before a coat', () => {
  it('has none where nothing is asked for', () => {
    expect(coatOne(nothing).warnings).toEqual([]);
  });

  it('air more humid than the material likes, once, with the time', () => {
    const { warnings } = coatOne((yard) => {
      yard.spaces[0].humidity = { kind: 'held', percent: 82 };
      yard.materials[0].maximumHumidity = exact(70);
      yard.materials[0].dampAir = 'warn';
    });
    expect(warnings).toEqual(['Resin, Mon 2 Nov 09:30: The air has 82 % humidity, more than 70 %']);
  });

  it('humidity that nobody knows, where the material asks for a limit', () => {
    const { warnings } = coatOne((yard) => (yard.materials[0].minimumDewMarginC = exact(3)));
    expect(warnings).toHaveLength(1);
    expect(warnings[0]).toContain('The humidity is not known');
  });

  it('a surface colder than is advised', () => {
    const { warnings } = coatOne((yard) => (yard.materials[0].warnBelowC = 22));
    expect(warnings[0]).toContain('The surface is at 20.0 °C; 22.0 °C or more is advised');
  });

  it('weather that was not known', () => {
    const outdoors = (hours: number) => (yard: Yard) => {
      const celsius = Array.from({ length: hours }, () => 20);
      yard.outdoor = { from: '2026-11-02T00:00:00Z', celsius, humidity: [], source: 'invented' };
      yard.spaces[0].climate = { kind: 'outdoors', lagHours: 0, warmerBy: 0 };
    };
    expect(coatOne(outdoors(9)).warnings.join()).toContain('outdoor table does not cover');
    expect(coatOne(outdoors(48)).warnings).toEqual([]);
  });

  it('a laminate of polyester in less than class rules ask of a moulding shop', () => {
    // At least 18 °C for 24 h, a swing of 3 degrees either way, 80 % at the most (ICS 2014, ch. 3, 102: read).
    const polyester = (celsius: number, percent: number) => (yard: Yard) => {
      yard.materials[0].resinSystem = 'polyester';
      yard.spaces[0].humidity = { kind: 'held', percent };
      yard.spaces[0].climate = {
        kind: 'heated',
        setPoints: [{ weekdays: [1], from: '00:00', celsius }],
        lagHours: 0,
      };
    };
    expect(coatOne(polyester(20, 60)).warnings).toEqual([]);
    const { warnings } = coatOne(polyester(16, 85));
    expect(warnings).toHaveLength(1);
    expect(warnings[0]).toMatch(
      /^Class rules .* 16\.0 °C .* less than 18 °C; 85 % humidity, more than 80 %/,
    );
  });

  it('a percentage of hardener beyond the usual', () => {
    const { warnings, mix } = coatOne((yard) => {
      yard.materials[0].hardener = {
        kind: 'percent',
        usual: exact(2),
        used: 2.4,
        warn: { low: 1, high: 2 },
        block: { low: 1, high: 2.5 },
        effect: exact(1),
      };
    });
    expect(warnings[0]).toContain('2.4 % hardener, outside the usual 1 to 2 %');
    // time ~ (2.4 / 2)^-1
    expect(mix?.potLifeMinutes).toBe(25);
  });
});

describe('the cup', () => {
  it('is reckoned as warm as the resin may be', () => {
    const { mix } = coatOne((yard) => (yard.spaces[0].bandC = 10));
    expect(mix).toMatchObject({ celsius: 20, potLifeMinutes: 15, useWithinMinutes: 7 });
  });

  it('follows the store that the resin is kept in, not the room it is used in', () => {
    const stored = (celsius: number) => (yard: Yard) => {
      const climate = {
        kind: 'heated' as const,
        setPoints: [{ weekdays: [1], from: '00:00', celsius }],
        lagHours: 0,
      };
      yard.spaces.push({ ...yard.spaces[0], id: 'store', name: 'Store', climate });
      yard.materials[0].keptIn = 'store';
    };
    expect(coatOne(stored(10)).mix).toMatchObject({ celsius: 10, potLifeMinutes: 60 });
    const hot = coatOne(stored(40)).mix;
    expect(hot).toMatchObject({ celsius: 40, potLifeMinutes: null, cups: [] });
    expect(hot?.missing.join()).toContain('at 40 °C; it may be mixed from 5 to 35 °C');
  });

  it('names the lines of the sheet that are missing', () => {
    const { mix } = coatOne((yard) => {
      const [resin] = yard.materials;
      resin.milestones = resin.milestones.filter(({ milestone }) => milestone !== 'pot-life');
      resin.hardener = { kind: 'ratio', per100: exact(20) };
      yard.procedures[0].steps[1].quantity = {
        kind: 'coat',
        gramsPerM2: 300,
        coats: 1,
        wastePercent: 0,
      };
    });
    // 2 m² × 300 g: 600 g can be weighed, though nobody knows for how long it lasts.
    expect(mix).toMatchObject({
      resinGrams: 500,
      hardenerGrams: 100,
      hardenerMl: null,
      potLifeMinutes: null,
      cups: [],
    });
    expect(mix?.missing).toHaveLength(1);
    expect(mix?.missing[0]).toMatch(/pot.life/);
  });
});

describe('what a coat bonds to', () => {
  const coated: Begun = { ...sanded, 'lid.one': done('09:20', '10:20') };
  const two = (now: string, change: (draft: Yard) => void, begun: Begun): ReadyTask =>
    ready('lid.two', now, change, begun);

  it('the film below, in its bond window: chemically, as it is', () => {
    const { bond } = two('2026-11-02T12:20:00Z', nothing, coated);
    expect(bond).toMatchObject({
      onTask: 'lid.one',
      bond: 'chemical',
      surface: 'Resin, in its bond window',
      preparation: [],
    });
    expect(bond?.source).toMatch(/\(read\)$/);
  });

  /** The branch in which it is abraded; the last link goes. */
  const keyed =
    (prepares: Yard['procedures'][0]['steps'][0]['prepares']) =>
    (yard: Yard): void => {
      const [choice] = yard.procedures[0].choices;
      choice.branches.reverse();
      yard.procedures[0].steps[2].prepares = prepares;
      yard.materials[0].blushes = true;
    };
  const wash = { kind: 'wash', grit: null, mm: null, passes: 1 } as const;
  const abrade = { kind: 'abrade', grit: 80, mm: null, passes: 1 } as const;
  const extract = { kind: 'extract', grit: null, mm: null, passes: 1 } as const;
  const wipe = { kind: 'wipe', grit: null, mm: null, passes: 1 } as const;
  const abraded: Begun = { ...coated, 'lid.key': done('09:00', '09:30', '2026-11-03') };

  it.each([
    ['nothing', [], ['Wash', 'Abrade', 'Take', 'Wipe']],
    [
      'abrading before the wash, which drives the amine in',
      [abrade, extract],
      ['Wash', 'Abrade', 'Take', 'Wipe'],
    ],
    ['all but the wipe', [wash, abrade, extract], ['Wipe']],
    ['all of it', [wash, abrade, extract, wipe], []],
  ])('the same film when it is hard, after %s', (_, prepares, left) => {
    const { bond } = two('2026-11-03T10:00:00Z', keyed(prepares), abraded);
    expect(bond).toMatchObject({ onTask: 'lid.one', bond: 'mechanical' });
    expect(bond?.preparation.map((step) => step.split(' ')[0])).toEqual(left);
  });

  it('what is below, where that was sanded through', () => {
    // 220 g/m² at 1.1 kg/l stand 0.2 mm thick.
    const thin =
      (mm: number) =>
      (yard: Yard): void => {
        keyed([wash, { ...abrade, mm }, extract, wipe])(yard);
        yard.materials[0].mixedDensity = exact(1.1);
        const coat = { kind: 'coat', gramsPerM2: 220, coats: 1, wastePercent: 0 } as const;
        yard.procedures[0].steps[1].quantity = coat;
        yard.boats[0].refits[0].parts[0].layers = [
          { base: 'wood', material: null, surface: 'bare', waxed: false, laidAt: null, mm: null },
        ];
      };
    const on = (mm: number) => two('2026-11-03T10:00:00Z', thin(mm), abraded).bond?.surface;
    expect(on(0.15)).toBe('Resin, hard enough to abrade');
    expect(on(0.25)).toBe('wood, there before');
  });

  it('nothing, where the rules refuse it: with the reason and its source', () => {
    // Jamestown Distributors: a structural polyester does not hold on cured epoxy (read).
    const { bond, warnings } = coatOne((yard) => {
      yard.materials[0].resinSystem = 'polyester';
      yard.boats[0].refits[0].parts[0].layers = [
        { base: 'epoxy', material: null, surface: 'sealed', waxed: false, laidAt: null, mm: null },
      ];
    });
    expect(bond).toBeNull();
    expect(warnings).toHaveLength(1);
    expect(warnings[0]).toMatch(/^epoxy, cured through, there before: does not bond\. .*\[.*\]$/);
  });

  it('the film below while it is still wet, where the procedure wants it so', () => {
    const wetOnWet = (yard: Yard): void => {
      const link = yard.procedures[0].links.find(({ id }) => id === 'bond');
      if (link !== undefined) link.opens = { kind: 'after', minutes: 0 };
    };
    const { bond, warnings } = two('2026-11-02T10:30:00Z', wetOnWet, coated);
    expect(bond).toMatchObject({
      bond: 'chemical',
      surface: 'Resin, still wet, as the procedure wants it',
    });
    expect(warnings).toEqual([]);
  });

  it('the film that the procedure has it bond to, whatever was laid after that', () => {
    // As two faces of tabbing on one fillet: the second follows the first, and bonds to the fillet.
    const between = (yard: Yard): void => {
      const { steps, links } = yard.procedures[0];
      steps.push({ ...steps[1], id: 'between', name: 'The other face' });
      links.push({
        ...links[0],
        id: 'between-two',
        from: 'between',
        to: 'two',
        opens: { kind: 'after', minutes: 0 },
      });
    };
    const laid: Begun = { ...coated, 'lid.between': done('12:00', '12:20') };
    const { bond } = two('2026-11-02T12:40:00Z', between, laid);
    expect(bond).toMatchObject({ onTask: 'lid.one', surface: 'Resin, in its bond window' });
  });

  it('the tacky film, where the procedure wants it so', () => {
    const onTack = (yard: Yard): void => {
      yard.materials[0].milestones.push({
        ...yard.materials[0].milestones[0],
        milestone: 'tacky-opens',
        rows: [
          { celsius: 10, minutes: 30 },
          { celsius: 30, minutes: 10 },
        ],
      });
      const link = yard.procedures[0].links.find(({ id }) => id === 'bond');
      if (link !== undefined) link.opens = { kind: 'milestone', milestone: 'tacky-opens' };
    };
    expect(two('2026-11-02T11:00:00Z', onTack, coated).bond).toMatchObject({
      bond: 'chemical',
      surface: 'Resin, tacky, as the procedure wants it',
    });
  });

  it('the other face, once the part has been turned over', () => {
    // Abraded before the turn: nothing of it is on the face that is up then.
    const turned = (yard: Yard): void => {
      keyed([wash, abrade, extract, wipe])(yard);
      yard.boats[0].refits[0].parts[0].layers = [
        { base: 'foam', material: null, surface: 'bare', waxed: false, laidAt: null, mm: null },
      ];
      const { steps, links } = yard.procedures[0];
      steps.push({
        ...steps[0],
        id: 'turn',
        name: 'Turn',
        air: 'clean',
        splittable: false,
        prepares: [],
        move: { kind: 'turn' },
      });
      links.push({ ...links[0], id: 'turned', from: 'turn', to: 'two' });
    };
    const over: Begun = { ...abraded, 'lid.turn': done('09:40', '09:50', '2026-11-03') };
    expect(two('2026-11-03T10:00:00Z', turned, over).bond).toMatchObject({
      onTask: null,
      surface: 'foam, there before',
    });
  });

  it('nothing known, where the part’s layers are not', () => {
    expect(coatOne(nothing).bond).toBeNull();
  });
});

describe('cautions', () => {
  const starts = ({ cautions }: ReadyTask): string[] =>
    cautions.map(({ text }) => text.slice(0, 12));
  const key = (now: string, change: (draft: Yard) => void = nothing): ReadyTask =>
    ready(
      'lid.key',
      now,
      (yard) => {
        yard.procedures[0].choices[0].branches.reverse();
        change(yard);
      },
      { ...sanded, 'lid.one': done('09:20', '10:20') },
    );
  const green = 'Dust of epox';

  it('warn of dust of epoxy until it is known to be cured through', () => {
    expect(starts(key('2026-11-03T03:00:00Z'))).toContain(green);
    const cured = (yard: Yard): void => {
      const [line] = yard.materials[0].milestones;
      const rows = line.rows.map((row) => ({ ...row, minutes: 2000 }));
      yard.materials[0].milestones.push({ ...line, milestone: 'cured', rows });
    };
    // 2000 min after Monday 10:20 is Tuesday 19:40.
    expect(starts(key('2026-11-03T19:39:00Z', cured))).toContain(green);
    expect(starts(key('2026-11-03T19:40:00Z', cured))).not.toContain(green);
  });

  it('go with a heater without a flue while it burns, and with an enclosed space', () => {
    const heater = {
      id: 'stove',
      name: 'Gas heater',
      kind: 'heater',
      from: '2026-11-02T09:00:00Z',
      to: '2026-11-02T12:00:00Z',
      celsius: 20,
      lagHours: null,
      warmerBy: null,
      percent: null,
      unvented: true,
      watts: 0,
      costPerDay: 0,
    } as const;
    const burning = (yard: Yard): void => {
      yard.spaces[0].changes = [heater];
      yard.spaces[0].enclosed = true;
    };
    const over = (yard: Yard): void => {
      yard.spaces[0].changes = [
        { ...heater, from: '2026-11-02T07:00:00Z', to: '2026-11-02T08:00:00Z' },
      ];
    };
    expect(starts(coatOne(burning))).toEqual(
      expect.arrayContaining(['A heater wit', 'Vapour gathe']),
    );
    expect(starts(coatOne(over))).not.toContain('A heater wit');
  });

  it('go with paint that holds isocyanate', () => {
    const isocyanate = 'Two-pack pai';
    expect(starts(coatOne((yard) => (yard.materials[0].isocyanate = true)))).toContain(isocyanate);
    expect(starts(coatOne(nothing))).not.toContain(isocyanate);
  });

  it('cannot be taken away by the yard, which only adds its own', () => {
    const own = coatOne((yard) => (yard.materials[0].cautions = ['Ask Ada first.']));
    expect(own.cautions.map(({ text }) => text)).toEqual([
      ...coatOne(nothing).cautions.map(({ text }) => text),
      'Ask Ada first.',
    ]);
    expect(own.cautions.at(-1)?.source).toBe('the yard’s own');
  });
});
