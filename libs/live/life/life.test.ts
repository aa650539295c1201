import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { taskLifeSchema, untouched, workEventKinds, type TaskLife } from './life.ts';
import { replay, type Logged } from './replay.ts';
import { course, kinds, steps, type Course, type Step } from './testing/reporting.ts';
import { sameLife } from './undo.ts';

const kind = fc.constantFrom(...(Object.keys(kinds) as (keyof typeof kinds)[]));

/** What the tables hold too (`claim_status_times`, `task_state_times`, `work_span_one_open`, `task_left`). */
function wrong(life: TaskLife): string[] {
  const { state, claim, spans, startedAt, finishedAt, leftMinutes } = life;
  const open = spans.filter(({ end }) => end === null);
  const rules: [string, boolean][] = [
    ['somebody is at it while it is at work', (state === 'working') === (open.length === 1)],
    ['never two at once', open.length <= 1],
    ['a claim is at work with its task', (claim?.status === 'working') === (state === 'working')],
    ['a claim is put aside with its task', claim?.status !== 'paused' || state === 'paused'],
    ['nobody holds what is over', claim === null || (state !== 'done' && state !== 'redo')],
    ['begun work has a start', (startedAt === null) === (state === 'waiting')],
    ['what is over has an end', !['done', 'redo'].includes(state) || finishedAt !== null],
    ['what waits has no end', !['waiting', 'paused'].includes(state) || finishedAt === null],
    ['it does not end before it began', (finishedAt ?? '9') >= (startedAt ?? '')],
    ['what waits has nothing left over', state !== 'waiting' || leftMinutes === null],
    ['what is put aside has something said', state !== 'paused' || leftMinutes !== null],
    ['spans are in order', spans.every(({ start, end }) => end === null || start <= end)],
    [
      'spans follow each other',
      spans.every(
        ({ start }, k) =>
          k === 0 || (spans[k - 1].end ?? '9') <= start || spans[k - 1].start === start,
      ),
    ],
    [
      'a lease is of what nobody has begun',
      (claim?.lapsesAt ?? null) === null || claim?.status === 'open',
    ],
    ['its holder is in the crew', claim === null || claim.crew[0] === claim.holder],
    ['whom it is set for does it', life.setCrew.every((one) => life.crew.includes(one))],
  ];
  return rules.filter(([, holds]) => !holds).map(([rule]) => rule);
}

const logged = ({ log }: Course): Logged[] =>
  log.map(({ id, kind: what, payload }) => ({
    id,
    kind: what,
    subject: 'task',
    subjectId: 'hull.sand',
    payload: JSON.parse(JSON.stringify(payload)) as unknown,
  }));

describe('whatever is reported of a task', () => {
  it('its life stays one that can be, and of the declared shape', () => {
    fc.assert(
      fc.property(kind, steps, (what, taken) => {
        for (const { payload } of course(what, taken).log) {
          expect(wrong(payload.after)).toEqual([]);
          expect(taskLifeSchema.parse(payload.after)).toEqual(payload.after);
        }
      }),
      { numRuns: 400 },
    );
  });

  it('the log alone gives it, and begins where nobody had touched it', () => {
    fc.assert(
      fc.property(kind, steps, (what, taken) => {
        const made = course(what, taken);
        const { lives, breaks } = replay(logged(made));
        expect(breaks).toEqual([]);
        expect(sameLife(lives.get('hull.sand') ?? untouched(made.life.setCrew), made.life)).toBe(
          true,
        );
      }),
      { numRuns: 200 },
    );
  });

  it('an event that is missing, or that says something else, is found', () => {
    fc.assert(
      fc.property(kind, steps, fc.nat(), (what, taken, pick) => {
        const log = logged(course(what, taken));
        // Reports that change nothing can be missing unseen.
        const telling = log.slice(0, -1).filter((event) => changes(event));
        fc.pre(telling.length > 0);
        const gone = telling[pick % telling.length];
        const { breaks } = replay(log.filter((event) => event !== gone));
        expect(breaks.length).toBeGreaterThan(0);
      }),
      { numRuns: 200 },
    );
  });

  it('every kind of report is among those', () => {
    const seen = new Map<string, number>();
    const count = (what: keyof typeof kinds, taken: readonly Step[]): void => {
      for (const { kind: event } of course(what, taken).log) {
        seen.set(event, (seen.get(event) ?? 0) + 1);
      }
    };
    fc.assert(fc.property(kind, steps, count), { numRuns: 400 });
    expect(workEventKinds.filter((event) => (seen.get(event) ?? 0) < 3)).toEqual([]);
  });

  it('what is taken back leaves it exactly as it was', () => {
    let undone = 0;
    fc.assert(
      fc.property(kind, steps, (what, taken) => {
        const { log } = course(what, taken);
        for (const { payload, kind: event } of log) {
          if (event !== 'task-undone') continue;
          const back = log.find(({ id }) => id === payload.undoes);
          expect(back?.before).toEqual(payload.after);
          undone += 1;
        }
      }),
      { numRuns: 400 },
    );
    expect(undone).toBeGreaterThan(50);
  });
});

function changes({ payload }: Logged): boolean {
  const { before, after } = payload as { before: TaskLife; after: TaskLife };
  return !sameLife(before, after);
}
