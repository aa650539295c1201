import { describe, expect, it } from 'vitest';
import { DomainError } from '#kernel/error.ts';
import type { Forbidden } from '#scheduling/model/problem.ts';
import { solve } from '#scheduling/solve.ts';
import { contradictionOf } from '../../decode/explain/infeasible.ts';
import { whyNotEarlier } from '../../decode/explain/why-not-earlier.ts';
import { compiled } from '../../testing/compiled.ts';
import { figureSchema, type MaterialFigure } from '../../yard/materials.ts';
import type { Yard } from '../../yard/yard.ts';
import type { Compiled } from '../compile.ts';
import { rowOf } from '../trace/map.ts';

const figure = (value: number): MaterialFigure =>
  figureSchema.parse({ value, source: 'made up for tests', spread: 0 });

const HOUR = 60;
const DAY = 24 * HOUR;

/** The plan begins on Monday at 08:00. */
const monday = (hour: number): number => (hour - 8) * HOUR;

/** 20 degrees outdoors and in; damp until Monday noon, then dry. */
function dampMorning(yard: Yard): void {
  const from = Date.parse('2026-11-01T00:00:00Z');
  const dry = (Date.parse('2026-11-02T12:00:00Z') - from) / 3_600_000;
  yard.outdoor = {
    from: new Date(from).toISOString(),
    celsius: Array.from({ length: 24 * 16 }, () => 20),
    humidity: Array.from({ length: 24 * 16 }, (_, hour) => (hour < dry ? 95 : 50)),
    source: 'made up for tests',
  };
  yard.spaces[0].climate = { kind: 'outdoors', lagHours: 0, warmerBy: 0 };
  yard.spaces[0].humidity = { kind: 'outdoors', addsHPa: 0 };
  Object.assign(yard.materials[0], { maximumHumidity: figure(80), dampAir: 'refuse' });
}

const heat = (
  yard: Yard,
  ...setPoints: readonly (readonly [weekday: number, from: string, celsius: number])[]
): void => {
  yard.spaces[0].climate = {
    kind: 'heated',
    lagHours: 0,
    setPoints: setPoints.map(([weekday, from, celsius]) => ({
      weekdays: [weekday],
      from,
      celsius,
    })),
  };
};

const refusals = ({ problem }: Compiled): readonly Forbidden[] =>
  problem.activities[1].modes[0].forbidden;
const spansOf = (made: Compiled, kind: string) =>
  refusals(made).find((one) => one.kind === kind)?.spans;

describe('a material refuses a start', () => {
  it('in air too damp for it, and the plan says so', () => {
    const made = compiled(dampMorning);
    const damp = spansOf(made, 'damp') ?? [];
    expect(damp).toHaveLength(1);
    expect(damp[0].start).toBe(0);
    // 95 % falls to 50 % from eleven to twelve: 80 % at about twenty past eleven; the coat takes an hour.
    expect(damp[0].end).toBeGreaterThan(monday(11));
    expect(damp[0].end).toBeLessThanOrEqual(monday(12));

    const { problem, map } = made;
    const { plan } = solve(problem, { seed: 1, iterations: 16 });
    if (plan === null) throw new Error('no plan');
    const one = plan.placements.find(({ activity }) => activity === 1);
    expect(one?.start).toBe(damp[0].end);
    const why = whyNotEarlier({ problem, plan, map, task: 'lid.one' });
    const step = why?.steps.find(({ reason }) => reason === 'forbidden');
    expect(step?.row).toMatchObject({ kind: 'material', id: 'resin', path: 'materials[0]' });
    expect(step?.text).toMatch(/damp|humid|dew/);
  });

  it('only warned of where its sheet says no more', () => {
    const made = compiled((yard) => {
      dampMorning(yard);
      yard.materials[0].dampAir = 'warn';
    });
    expect(refusals(made)).toEqual([]);
  });

  it('for good, and that is in the contradiction', () => {
    const made = compiled((yard) => {
      dampMorning(yard);
      yard.horizonDays = 1;
      const [ada] = yard.people;
      ada.shifts = [{ weekday: 1, from: '08:00', to: '12:00', breaks: [] }];
    });
    const { infeasibility } = solve(made.problem, { seed: 1, iterations: 16 });
    if (infeasibility === null) throw new Error('a plan was found');
    const { irreducible, members } = contradictionOf(made, infeasibility);
    expect(irreducible).toBe(true);
    const forbidden = members.find(({ constraint }) => constraint.kind === 'forbidden');
    expect(forbidden?.row).toMatchObject({ kind: 'material', id: 'resin' });
    expect(forbidden?.text).toMatch(/damp|humid|dew/);
  });

  it('on a skin near the dew point, all the time', () => {
    const sweating = (yard: Yard): void => {
      heat(yard, [1, '00:00', 20]);
      yard.spaces[0].humidity = { kind: 'held', percent: 70 };
      yard.outdoor = {
        from: '2026-11-01T00:00:00Z',
        celsius: Array.from({ length: 24 * 16 }, () => 10),
        humidity: [],
        source: 'made up for tests',
      };
      // 70 % at 20 degrees: dew point 14.4; the skin is at 16.
      yard.spaces[0].skin = { outdoorShare: 0.4, lagHours: 0 };
      Object.assign(yard.materials[0], { minimumDewMarginC: figure(3), dampAir: 'refuse' });
    };
    expect(() => compiled(sweating)).toThrow(
      '"Coat one" on Lid (lid.one) can never start: Resin may only be laid on a surface 3 °C or more above the dew point, and it is in Shop, at 16 °C',
    );
    // As warm as the air, the margin is 5.6 degrees.
    const dry = compiled((yard) => {
      sweating(yard);
      yard.spaces[0].skin = null;
    });
    expect(refusals(dry)).toEqual([]);
    // Nothing known of the humidity: nothing is refused, and the sheet of the plan warns.
    const unknown = compiled((yard) => {
      sweating(yard);
      yard.spaces[0].humidity = null;
    });
    expect(refusals(unknown)).toEqual([]);
  });

  it('before the space has been warm for as long as its sheet asks', () => {
    const made = compiled((yard) => {
      heat(yard, [6, '00:00', 2], [1, '12:00', 20]);
      yard.materials[0].preheatHours = figure(24);
    });
    const spans = spansOf(made, 'preheat') ?? [];
    // Warm from Monday noon on (the set-point is reached within ten minutes).
    expect(spans[0].start).toBe(0);
    expect(Math.abs(spans[0].end - (monday(12) + DAY))).toBeLessThanOrEqual(10);
  });

  it('that leaves it too few warm hours after the work', () => {
    const made = compiled((yard) => {
      heat(yard, [6, '00:00', 2], [1, '00:00', 20]);
      yard.materials[0].holdHours = figure(48);
    });
    const spans = spansOf(made, 'hold') ?? [];
    // Cold from Saturday 00:00 on: the coat, an hour, is over on Thursday 00:00 at the latest.
    const last = monday(24) + 2 * DAY - HOUR;
    const first = spans.find(({ end }) => end > last);
    expect(Math.abs((first?.start ?? 0) - last)).toBeLessThanOrEqual(11);
  });

  it('for no hours asked for, however cold it is', () => {
    const made = compiled((yard) => {
      heat(yard, [6, '00:00', 2], [1, '12:00', 20]);
      Object.assign(yard.materials[0], { preheatHours: figure(0), holdHours: figure(0) });
    });
    expect(refusals(made)).toEqual([]);
  });

  it('for the cold of a place that its part is taken to before the film is safe', () => {
    const carried =
      (milestone: 'dust-safe' | 'sandable', day = 8) =>
      (yard: Yard) => {
        const weekdays = [1, 2, 3, 4, 5, 6, 7];
        const setPoints = [
          { weekdays, from: '06:00', celsius: day },
          { weekdays, from: '22:00', celsius: 8 },
        ];
        const climate = { kind: 'heated' as const, setPoints, lagHours: 0 };
        yard.spaces.push({ ...yard.spaces[0], id: 'loft', name: 'Loft', climate });
        Object.assign(yard.materials[0], { belowMinimum: 'spoils', minimumC: 12 });
        const [procedure] = yard.procedures;
        const [sand] = procedure.steps;
        procedure.choices = [];
        procedure.steps = procedure.steps.filter(({ id }) => id !== 'key' && id !== 'two');
        procedure.links = [procedure.links[0]];
        procedure.steps.push({
          ...sand,
          id: 'carry',
          name: 'Carry',
          move: { kind: 'destination' },
        });
        yard.boats[0].refits[0].parts[0].jobs[0].destination = 'loft';
        const opens = { kind: 'milestone' as const, milestone };
        const [after] = procedure.links;
        procedure.links.push({ ...after, id: 'off', from: 'one', to: 'carry', opens });
      };
    // Carried at dust-safe, before it is tack-free, it would spoil, whenever it is laid.
    expect(() => compiled(carried('dust-safe'))).toThrow(
      /lid\.one\) can never start: Resin must be/,
    );
    // By day at 14 degrees it is tack-free after 300 exp(ln 2 (1/287.15 - 1/293.15) / (1/283.15 -
    // 1/293.15)) = 450 min, so over by 14:30 and begun by 13:30 before a night at 8 degrees.
    const [night] = spansOf(compiled(carried('dust-safe', 14)), 'cold') ?? [];
    expect(Math.abs(night.start - monday(13.5))).toBeLessThanOrEqual(12);
    // Carried when it is sandable, it is safe.
    expect(refusals(compiled(carried('sandable')))).toEqual([]);
  });

  it('for the night that comes after the end of the plan', () => {
    // The plan ends on Monday the 16th at 08:00, in the warm hours; tack-free takes 300 min.
    const made = compiled((yard) => {
      heat(yard, [1, '00:00', 20], [1, '10:00', 8], [2, '00:00', 20]);
      Object.assign(yard.materials[0], { belowMinimum: 'spoils', minimumC: 12 });
    });
    const end = made.problem.horizon;
    const spans = spansOf(made, 'cold') ?? [];
    const last = spans.at(-1);
    // Over at 05:00, so begun by 04:00 (some ten minutes about a set-point count as cold).
    expect(last?.end).toBe(end + 1);
    expect(Math.abs((last?.start ?? 0) - (end - 4 * HOUR))).toBeLessThanOrEqual(11);
  });

  it('by the clock on the wall, through the change to winter time', () => {
    // In Paris the night to Sunday 25 October 2026 has an hour more: 06:00 is 04:00 UTC, then 05:00.
    const made = compiled((yard) => {
      yard.timeZone = 'Europe/Paris';
      yard.planFrom = '2026-10-23T00:00:00Z';
      const days = [1, 2, 3, 4, 5, 6, 7];
      const setPoints = [
        { weekdays: days, from: '06:00', celsius: 20 },
        { weekdays: days, from: '20:00', celsius: 5 },
      ];
      yard.spaces[0].climate = { kind: 'heated', setPoints, lagHours: 0 };
      yard.materials[0].preheatHours = figure(2);
      yard.materials[0].minimumC = 12;
    });
    const ends = (spansOf(made, 'preheat') ?? []).map(({ end }) => end).slice(0, 4);
    const warm = [4, 24 + 4, 48 + 5, 72 + 5].map((hour) => (hour + 2) * HOUR);
    expect(ends).toHaveLength(4);
    ends.forEach((end, k) => {
      expect(Math.abs(end - warm[k])).toBeLessThanOrEqual(10);
    });
  });

  it('in too much heat, told from the cold', () => {
    const made = compiled((yard) => {
      heat(yard, [1, '00:00', 20], [2, '12:00', 40], [2, '14:00', 20]);
    });
    expect(refusals(made).map(({ kind }) => kind)).toEqual(['warm']);
    const row = rowOf(made.map, made.problem, {
      kind: 'forbidden',
      activity: 1,
      mode: 0,
      forbidden: 0,
    });
    expect(row).toMatchObject({ kind: 'material', id: 'resin' });
    const [span] = spansOf(made, 'warm') ?? [];
    expect(span.start).toBeLessThanOrEqual(DAY + monday(11) + 1);
    expect(span.end).toBeGreaterThanOrEqual(DAY + monday(14) - 10);
  });
});

it('asks for the line of the sheet that the work is planned by', () => {
  const missing = (yard: Yard): void => {
    yard.materials[0].milestones = yard.materials[0].milestones.filter(
      ({ milestone }) => milestone !== 'sandable',
    );
  };
  try {
    compiled(missing);
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    expect(error.faults).toMatchObject([
      { code: 'cure.missing', path: 'materials[0].milestones', value: 'sandable' },
    ]);
    expect(error.faults[0].message).toContain('"Coat one" on Lid (lid.one)');
    expect(error.faults[0].message).toContain('Resin');
    return;
  }
  throw new Error('the yard compiled');
});
