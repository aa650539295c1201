import { describe, expect, it } from 'vitest';
import { smallYard } from '#planning/testing/small-yard.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import { type TaskLife, untouched, type WorkPayload } from '../life/life.ts';
import { handMadeSheet, type HandMadeTask } from '../testing/hand-made-sheet.ts';
import { disturbanceOf } from './disturbance.ts';
import { reasonOf } from './kinds.ts';
import type { HeldAgainst } from './off-plan.ts';
import { overdueWords } from './overdue.ts';
import { withoutPassedStarts } from './passed.ts';

const yard = smallYard();
const workload = makeWorkload(yard);
const [first] = workload.tasks;
const builder = 'ada';
const at = (time: string): string => `2026-11-02T${time}:00Z`;

const sheetOf = (task: Partial<HandMadeTask> = {}) =>
  handMadeSheet([
    { id: first.id, start: at('08:00'), finish: at('10:00'), crew: [builder], ...task },
  ]);
const published = (task: Partial<HandMadeTask> = {}): HeldAgainst => ({
  is: 'published',
  sheet: sheetOf(task),
});
const offered = (task: Partial<HandMadeTask>): HeldAgainst => ({
  is: 'offered',
  sheet: sheetOf(task),
});
const life = (rest: Partial<TaskLife>): TaskLife => ({ ...untouched(), ...rest });

function disturbance(
  kind: string,
  report: { at?: string; before?: Partial<TaskLife>; after?: Partial<TaskLife>; reason?: string },
  plans = [published()],
): string | null {
  const payload: WorkPayload = {
    at: report.at ?? at('08:00'),
    before: life(report.before ?? {}),
    after: life(report.after ?? {}),
    reportId: null,
    undoes: null,
    reason: report.reason ?? null,
  };
  const event = { kind, subject: 'task', subjectId: first.id, payload };
  return disturbanceOf(event, { yard, workload, plans })?.words ?? null;
}

const started = (startedAt: string, crew = [builder]) => ({
  after: { state: 'working' as const, startedAt, crew },
});

describe('a report of work', () => {
  it('disturbs where it is more than a quarter of an hour off the plan', () => {
    expect(disturbance('task-started', started(at('08:15')))).toBeNull();
    expect(disturbance('task-started', started(at('07:45')))).toBeNull();
    expect(disturbance('task-started', started(at('08:40')))).toContain(
      'began 40 min later than planned.',
    );
    expect(disturbance('task-started', started(at('06:00')))).toContain(
      'began 2 h earlier than planned.',
    );
  });

  it('disturbs where somebody else does it', () => {
    expect(disturbance('task-started', started(at('08:00'), ['somebody']))).toMatch(
      /began by somebody instead of /,
    );
  });

  it('is held against what is offered, too', () => {
    const other = offered({ start: at('13:00'), finish: at('15:00') });
    const report = started(at('08:00'));
    expect(disturbance('task-started', report)).toBeNull();
    // Nobody was told to begin it later.
    expect(disturbance('task-started', report, [published(), other])).toMatch(
      /\) does not go with the plan that is offered: it began 5 h earlier than there\.$/,
    );
    expect(disturbance('task-started', started(at('09:00')), [published(), other])).toMatch(
      /\) began 1 h later than planned\.$/,
    );
    const finished = { after: { state: 'done' as const, finishedAt: at('10:00') } };
    expect(disturbance('task-finished', finished, [published(), other])).toMatch(
      /the plan that is offered: it was finished 5 h earlier than there\.$/,
    );
    const given = { before: { state: 'working' as const }, reason: 'too cold' };
    expect(disturbance('task-abandoned', given, [other])).toMatch(/\) was given up: too cold\.$/);
    expect(disturbance('task-started', report, [offered({ id: 'other' })])).toContain(
      'it was begun though the plan leaves it out.',
    );
  });

  it('disturbs where it ends at another time, unless the plan was made after it', () => {
    const finished = { after: { state: 'done' as const, finishedAt: at('11:00') } };
    expect(disturbance('task-finished', finished)).toContain('was finished 1 h later than planned');
    expect(disturbance('task-finished', finished, [published({ state: 'done' })])).toBeNull();
  });

  it('that work is put aside disturbs, unless the plan lets it rest then', () => {
    const paused = {
      at: at('09:00'),
      after: { state: 'paused' as const, leftMinutes: 70, startedAt: at('08:00') },
    };
    expect(disturbance('task-paused', paused)).toContain(
      'with 1 h 10 min of work still to be done',
    );
    const resting = published({
      segments: [
        [at('08:00'), at('09:05')],
        [at('10:00'), at('11:00')],
      ],
    });
    expect(disturbance('task-paused', paused, [resting])).toBeNull();
    expect(disturbance('task-resumed', { at: at('10:10') }, [resting])).toBeNull();
    expect(disturbance('task-resumed', { at: at('12:10') }, [resting])).toContain('taken up again');
  });

  it('of what is left disturbs where it is not what the plan has left by then', () => {
    const left = (leftMinutes: number) => ({
      at: at('09:00'),
      after: { state: 'working' as const, leftMinutes, crew: [builder] },
    });
    expect(disturbance('task-progressed', left(70))).toBeNull();
    expect(disturbance('task-progressed', left(120))).toContain('will take 1 h longer');
    expect(disturbance('task-progressed', left(20))).toContain('will take 40 min less');
  });

  it('that undoes other work says why', () => {
    const working = { before: { state: 'working' as const } };
    expect(disturbance('task-abandoned', { ...working, reason: 'too cold' })).toContain(
      'was given up: too cold.',
    );
    expect(disturbance('batch-failed', { ...working, reason: 'no hardener' })).toContain(
      'no hardener',
    );
    expect(disturbance('task-undone', { ...working, after: {} })).toContain('by mistake');
    expect(disturbance('task-released', working)).toContain('given back');
  });

  it('of who has it in hand disturbs nothing', () => {
    for (const kind of ['task-claimed', 'claim-lapsed', 'crew-joined', 'crew-left'])
      expect(disturbance(kind, {})).toBeNull();
    expect(disturbance('task-undone', {})).toBeNull();
    expect(disturbance('task-released', {})).toBeNull();
  });
});

describe('what else happens', () => {
  const words = (kind: string, subject: string, subjectId: string, payload: unknown = {}) =>
    disturbanceOf({ kind, subject, subjectId, payload }, { yard, workload, plans: [published()] });

  it('is told by the names of the yard', () => {
    const [space] = yard.spaces;
    expect(words('person-changed', 'person', builder)).toMatchObject({ reason: 'records' });
    expect(words('space-removed', 'space', 'gone')?.words).toBe('The space gone was taken out.');
    expect(words('readings-added', 'space', space.id, { count: 3 })).toEqual({
      reason: 'weather',
      words: `${space.name}: 3 new readings.`,
    });
    const made = words('rework-made', 'task', first.id, { words: 'The batch is sanded off.' });
    expect(made?.words).toBe('The batch is sanded off.');
    expect(words('task-fixed', 'task', first.id)?.words).toContain('was set free');
  });

  it('is nothing where no plan goes by it', () => {
    for (const kind of ['plan-published', 'plan-run-ended', 'candidate-made', 'fabric-changed'])
      expect(reasonOf(kind)).toBeNull();
    expect(words('alarm-rung', 'alarm', 'id', { kind: 'opens', taskId: first.id })).toBeNull();
    expect(
      words('alarm-rung', 'alarm', 'id', { kind: 'overrun', taskId: first.id })?.words,
    ).toContain('goes on past its expected end');
  });

  it('of work that nobody begins is told, unless a plan has it later already', () => {
    const rung = { kind: 'unbegun', taskId: first.id, at: at('08:30') };
    const event = { kind: 'alarm-rung', subject: 'alarm', subjectId: 'id', payload: rung };
    const told = (...plans: HeldAgainst[]): string | undefined =>
      disturbanceOf(event, { yard, workload, plans })?.words;
    expect(told(published())).toMatch(
      /\) was to begin Mon 2 Nov 08:00, and nobody has begun it\.$/,
    );
    expect(told(published(), offered({ start: at('08:20') }))).toContain('08:00');
    expect(told(published(), offered({ start: at('08:31') }))).toBeUndefined();
    expect(told(published({ start: at('09:00') }))).toBeUndefined();
    expect(told(published({ id: 'other' }))).toBeUndefined();
  });
});

describe('a fixed start', () => {
  const fixed = (fixedStart: string, state: 'waiting' | 'done' = 'waiting') => ({
    ...workload,
    tasks: workload.tasks.map((task) => (task === first ? { ...task, state, fixedStart } : task)),
  });

  it('that has passed unbegun does not bind, and is told', () => {
    const { workload: left, words } = withoutPassedStarts(yard, fixed(at('08:00')), at('08:01'));
    expect(left.tasks[0].fixedStart).toBeNull();
    expect(words).toHaveLength(1);
    const odd = withoutPassedStarts(yard, fixed('2026-11-02T08:00:17.5Z'), at('08:01'));
    expect(odd.words[0]).toContain('Mon 2 Nov 08:00');
    expect(words[0]).toContain('which has passed: it is planned as soon as it can be.');
  });

  it('that is to come stays, and so does all else', () => {
    const given = fixed(at('08:00'));
    expect(withoutPassedStarts(yard, given, at('08:00')).workload).toBe(given);
    const done = fixed(at('08:00'), 'done');
    expect(withoutPassedStarts(yard, done, at('12:00')).workload).toBe(done);
  });
});

describe('work that should long have begun', () => {
  const early = yard.planFrom;
  const later = (minutes: number): string =>
    new Date(Date.parse(early) + minutes * 60_000).toISOString();
  const sheet = sheetOf({ start: later(60), finish: later(180) });

  it('is told after an hour, while it waits', () => {
    expect(overdueWords(yard, workload, sheet, later(119))).toEqual([]);
    expect(overdueWords(yard, workload, sheet, later(125))[0]).toContain('1 h 5 min ago');
    const tasks = workload.tasks.map((task) => ({ ...task, state: 'done' as const }));
    expect(overdueWords(yard, { ...workload, tasks }, sheet, later(125))).toEqual([]);
  });

  it('is nothing in a yard whose time has not come', () => {
    expect(overdueWords(yard, workload, sheet, later(-10))).toEqual([]);
  });
});
