import fc from 'fast-check';
import { DomainError } from '#kernel/error.ts';
import { act } from '../act.ts';
import type { Acting } from '../acting.ts';
import { hasLapsed, lapse } from '../claiming.ts';
import type { WorkCommand } from '../commands.ts';
import { untouched, type TaskLife, type WorkEventKind, type WorkPayload } from '../life.ts';
import { lastStanding, undo, type Reported } from '../undo.ts';

const people = ['anke', 'bram', 'ines'] as const;
/** Ines is the foreman. */
const isForeman = (by: string): boolean => by === 'ines';

export const kinds = {
  sanding: { material: null, skill: 'sanding', splittable: true },
  fitting: { material: null, skill: 'sanding', splittable: false },
  coating: { material: 'resin', skill: 'coating', splittable: false },
  word: { material: null, skill: null, splittable: false },
} as const;

/** Somebody reports something, some minutes after the report before. */
export interface Step {
  readonly by: string;
  readonly wait: number;
  readonly command: WorkCommand;
}

const begin = Date.UTC(2026, 10, 2, 7);
const minuteMs = 60_000;
const leaseSeconds = 1800;
const undoMinutes = 30;

const taskId = 'hull.sand';
const member = fc.option(fc.constantFrom(...people), { nil: undefined });
const left = fc.option(fc.integer({ min: 0, max: 300 }), { nil: undefined });
const claim = fc.record({
  kind: fc.constant('claim' as const),
  taskId: fc.constant(taskId),
  crew: fc.option(fc.uniqueArray(fc.constantFrom<string>(...people), { minLength: 1 }), {
    nil: undefined,
  }),
});
const crewChange = fc.record({
  kind: fc.constantFrom('join' as const, 'leave' as const),
  taskId: fc.constant(taskId),
  member,
});
const withRest = fc.record({
  kind: fc.constantFrom('release' as const, 'pause' as const),
  taskId: fc.constant(taskId),
  leftMinutes: left,
});
const plain = fc.record({
  kind: fc.constantFrom('resume' as const, 'finish' as const, 'undo' as const),
  taskId: fc.constant(taskId),
});
const begins = fc.record({ kind: fc.constant('start' as const), taskId: fc.constant(taskId) });
const progress = fc.record({
  kind: fc.constant('progress' as const),
  taskId: fc.constant(taskId),
  leftMinutes: fc.integer({ min: 0, max: 300 }),
});
const givenUp = fc.record({
  kind: fc.constantFrom('abandon' as const, 'fail-batch' as const),
  taskId: fc.constant(taskId),
  reason: fc.constant('the heater failed'),
});
/** What can go on from anywhere comes often enough that most courses get somewhere. */
const command: fc.Arbitrary<WorkCommand> = fc.oneof(
  { arbitrary: claim, weight: 4 },
  { arbitrary: begins, weight: 4 },
  { arbitrary: plain, weight: 5 },
  { arbitrary: withRest, weight: 3 },
  { arbitrary: crewChange, weight: 2 },
  { arbitrary: progress, weight: 1 },
  { arbitrary: givenUp, weight: 3 },
);

const step = fc.record({
  by: fc.constantFrom(...people, 'ines', 'ines'),
  wait: fc.integer({ min: 0, max: 40 }),
  command,
});
const anything = fc.array(step, { minLength: 5, maxLength: 30, size: 'max' });

/** A day that goes well, so that what follows it begins from everywhere. */
const day = fc
  .tuple(
    fc.constantFrom(
      ['claim', 'start', 'pause', 'resume'] as const,
      ['claim', 'start', 'pause', 'release', 'claim', 'resume'] as const,
      ['claim', 'start', 'finish'] as const,
      ['claim', 'start'] as const,
    ),
    fc.integer({ min: 0, max: 20 }),
  )
  .map(([verbs, wait]) =>
    verbs.map((kind): Step => ({ by: 'ines', wait, command: { kind, taskId } })),
  );

export const steps: fc.Arbitrary<Step[]> = fc
  .tuple(fc.option(day, { nil: [] }), anything)
  .map(([first, rest]) => [...first, ...rest]);

const uuid = (n: number): string => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`;

/** The log that steps leave behind, and the life they lead to; what is refused leaves nothing. */
export interface Course {
  readonly log: readonly (Reported & { readonly before: TaskLife })[];
  readonly life: TaskLife;
  readonly refused: readonly DomainError[];
}

/** Courses of different numbers share no id. */
export function course(kind: keyof typeof kinds, taken: readonly Step[], number = 0): Course {
  let life = untouched(kind === 'word' ? [] : ['anke'].slice(0, taken.length % 2));
  let now = begin;
  const log: (Reported & { readonly before: TaskLife })[] = [];
  const refused: DomainError[] = [];
  const report = (
    by: string | null,
    what: { after: TaskLife; kind: WorkEventKind; reason?: string | null; undoes?: string },
  ): void => {
    const payload: WorkPayload = {
      at: new Date(now).toISOString(),
      before: life,
      after: what.after,
      reportId: null,
      undoes: what.undoes ?? null,
      reason: what.reason ?? null,
    };
    log.push({
      id: String(log.length + 1),
      kind: what.kind,
      payload,
      by,
      writtenAt: now,
      before: life,
    });
    life = what.after;
  };
  for (const [k, { by, wait, command: told }] of taken.entries()) {
    now += wait * minuteMs;
    const at = new Date(now).toISOString();
    if (hasLapsed(life, at)) report(null, lapse(life));
    try {
      if (told.kind === 'undo') {
        const last = lastStanding([...log].reverse());
        const with_ = { by, isForeman: isForeman(by), now, undoMinutes, begun: null };
        const { after, undone } = undo(life, last, with_);
        report(by, { after, kind: 'task-undone', undoes: undone.id });
        continue;
      }
      const acting: Acting = {
        task: { id: taskId, name: 'sand', workMinutes: 240, crewMax: 2, ...kinds[kind] },
        at,
        exactly: at,
        by,
        isForeman: isForeman(by),
        ids: { claim: uuid(number * 1000 + 2 * k), span: uuid(number * 1000 + 2 * k + 1) },
        leaseSeconds,
        lapsed: null,
        override: null,
        pace: (crew) => Math.max(1, crew.length),
        endOf: (_, from, minutes) => new Date(Date.parse(from) + minutes * minuteMs).toISOString(),
        nameOf: (id) => id,
        timeZone: 'Europe/London',
      };
      report(by, act(life, told, acting));
    } catch (error) {
      if (!(error instanceof DomainError)) throw error;
      refused.push(error);
    }
  }
  return { log, life, refused };
}
