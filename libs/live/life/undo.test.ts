import { describe, expect, it } from 'vitest';
import { DomainError } from '#kernel/error.ts';
import { untouched, type TaskLife, type WorkEventKind } from './life.ts';
import { lastStanding, undo, type Reported } from './undo.ts';

const waiting = untouched();
const begun: TaskLife = { ...waiting, state: 'working', startedAt: '2026-11-02T08:00:00.000Z' };
const over: TaskLife = { ...begun, state: 'done', finishedAt: '2026-11-02T09:00:00.000Z' };
const written = Date.UTC(2026, 10, 2, 9);

const report = (
  id: string,
  kind: WorkEventKind,
  [before, after]: readonly [TaskLife, TaskLife],
  undoes: string | null = null,
): Reported => ({
  id,
  kind,
  payload: { at: begun.startedAt ?? '', before, after, reportId: null, undoes, reason: null },
  by: 'bram',
  writtenAt: written,
});
const start = report('1', 'task-started', [waiting, begun]);
const finish = report('2', 'task-finished', [begun, over]);
const back = report('3', 'task-undone', [over, begun], '2');

const by = { by: 'bram', isForeman: false, now: written + 60_000, undoMinutes: 10, begun: null };
function refusal(...args: Parameters<typeof undo>): string {
  try {
    undo(...args);
    return '';
  } catch (error) {
    if (error instanceof DomainError) return `${error.code}: ${error.message}`;
    throw error;
  }
}

describe('the last report that stands', () => {
  it('is the newest that nobody has taken back', () => {
    expect(lastStanding([finish, start])).toBe(finish);
    expect(lastStanding([back, finish, start])).toBe(start);
    expect(
      lastStanding([report('4', 'task-undone', [begun, waiting], '1'), back, finish, start]),
    ).toBeNull();
    expect(lastStanding([])).toBeNull();
  });
});

describe('taking a report back', () => {
  it('gives the life before it', () => {
    expect(undo(over, finish, by)).toEqual({ after: begun, undone: finish });
  });

  const refused: readonly (readonly [string, Parameters<typeof undo>, string])[] = [
    ['when nothing was reported', [waiting, null, by], 'Nothing has been reported'],
    ['by somebody else', [over, finish, { ...by, by: 'anke' }], 'Somebody else reported it'],
    ['too late', [over, finish, { ...by, now: written + 600_001 }], 'more than 10 minutes ago'],
    [
      'once something follows',
      [over, finish, { ...by, begun: '"fair"' }],
      '"fair" has begun since',
    ],
    [
      'once it was changed',
      [{ ...over, setCrew: ['anke'], crew: ['anke'] }, finish, by],
      'changed since',
    ],
    ['of a lapse', [begun, { ...start, kind: 'claim-lapsed' }, by], 'lapsed by itself'],
  ];

  it.each(refused)('is refused %s', (_, args, words) => {
    expect(refusal(...args)).toMatch(/^work\.undo: /);
    expect(refusal(...args)).toContain(words);
  });

  it('the foreman does at any time, but not past what follows', () => {
    const foreman = { ...by, by: 'ines', isForeman: true, now: written + 86_400_000 };
    expect(undo(over, finish, foreman).after).toBe(begun);
    expect(refusal(over, finish, { ...foreman, begun: '"fair"' })).toContain('has begun since');
  });

  it('holds to the last minute', () => {
    expect(refusal(over, finish, { ...by, now: written + 600_000 })).toBe('');
  });
});
