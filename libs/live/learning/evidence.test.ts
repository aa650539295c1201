import { describe, expect, it } from 'vitest';
import { smallYard } from '#planning/testing/small-yard.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import type { Task } from '#planning/workload/workload.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { gather, type ReportedSpan } from './evidence.ts';

const at = (time: string): Date => new Date(`2026-11-03T${time}:00Z`);
const span = (taskId: string, from: string, to: string, ...crew: string[]): ReportedSpan => ({
  ...{ taskId, start: at(from), end: at(to) },
  crew: crew.length === 0 ? ['ada'] : crew,
});

interface Case {
  readonly spans?: ReportedSpan[];
  readonly task?: Partial<Task>;
  /** After the tasks were made. */
  readonly since?: (draft: Yard) => void;
  /** Before. */
  readonly yard?: (draft: Yard) => void;
}

/** What the finished sanding of the small yard, 50 minutes by its step, says. */
function said({
  spans = [span('lid.sand', '09:00', '10:00')],
  task = {},
  since,
  yard: before,
}: Case) {
  const helped = (draft: Yard): void => {
    draft.people.push({ ...draft.people[0], id: 'ben', name: 'Ben' });
    before?.(draft);
  };
  const made = smallYard(helped);
  const [sand] = makeWorkload(made).tasks;
  const yard = smallYard((draft) => {
    helped(draft);
    since?.(draft);
  });
  const versions = [...made.procedures, ...yard.procedures];
  const done: Task = { ...sand, state: 'done', ...task };
  const { evidence, leftOut } = gather({ yard, tasks: [done], spans, versions });
  return { one: evidence.at(0), why: [...leftOut] };
}

describe('a finished task', () => {
  it('says what it took against its step', () => {
    expect(said({}).one).toEqual({
      ...{
        taskId: 'lid.sand',
        procedure: 'two-coats',
        step: 'sand',
        skill: 'sanding',
        space: 'shop',
      },
      ...{ planned: 50, actual: 60, shares: [{ person: 'ada', share: 1 }] },
    });
  });

  it('adds up its spans and whoever was there', () => {
    const spans = [
      span('lid.sand', '09:00', '09:20', 'ada', 'ben'),
      span('lid.sand', '11:00', '11:20', 'ben'),
    ];
    expect(said({ spans }).one).toMatchObject({
      ...{ planned: 50, actual: 60 },
      shares: [
        { person: 'ada', share: 1 / 3 },
        { person: 'ben', share: 2 / 3 },
      ],
    });
  });

  it('is held against the speeds of its people and the space it was done in', () => {
    const slow = said({ yard: (draft) => (draft.people[0].abilities[1].speed = 80) });
    expect(slow.one?.planned).toBe(62.5);
    const cramped = said({ since: (draft) => (draft.spaces[0].workPercent = 120) });
    expect(cramped.one?.planned).toBe(60);
  });

  it('is held against the step as it is now, or what was applied would be learned again', () => {
    const longer = said({
      since: (draft) => {
        const [procedure] = draft.procedures;
        procedure.version = 2;
        procedure.steps[0].effort.perM2 = 25;
      },
    });
    expect(longer.one).toMatchObject({ planned: 60, actual: 60 });
  });

  it.each<[string, Case]>([
    ['rework', { task: { rework: '00000000-0000-4000-8000-000000000001' } }],
    ['unreported', { spans: [] }],
    ['unreported', { spans: [span('lid.other', '09:00', '10:00')] }],
    ['unreported', { spans: [span('lid.sand', '09:00', '09:00')] }],
    ['unknown', { task: { stepId: 'gone' } }],
    ['unknown', { spans: [span('lid.sand', '09:00', '10:00', 'nobody')] }],
    ['resized', { since: (draft) => (draft.boats[0].refits[0].parts[0].areaM2 = 3) }],
    ['bounded', { task: { floorMinutes: 60 } }],
  ])('says nothing where it is %s', (why, change) => {
    expect(said(change)).toEqual({ one: undefined, why: [[why, 1]] });
  });
});
