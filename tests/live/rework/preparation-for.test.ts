import { describe, expect, it } from 'vitest';
import { makeWorkload } from '#planning/workload/make.ts';
import type { Workload } from '#planning/workload/workload.ts';
import { yardSchema } from '#planning/yard/yard.ts';
import { demoYard } from '#seeds/demo-yard.ts';
import { applyEdits } from '#live/edits/apply.ts';
import { lateWords } from '#live/rework/late-words.ts';
import { preparationFor } from '#live/rework/preparation-for.ts';
import { shutWindows } from '#live/rework/shut.ts';

const yard = yardSchema.parse(demoYard);
const reworkId = '3f2a9c11-0000-4000-8000-000000000001';
const made = makeWorkload(yard);

function lived(...ids: string[]): Workload {
  const tasks = made.tasks.map((task) =>
    ids.includes(task.id)
      ? {
          ...task,
          state: 'done' as const,
          startedAt: '2026-12-01T07:00:00.000Z',
          finishedAt: '2026-12-01T08:00:00.000Z',
        }
      : task,
  );
  return { ...made, tasks };
}

const prepared = (workload: Workload, ...linkIds: string[]) =>
  preparationFor({ yard, workload, linkIds, reworkId });

describe('a window that was missed', () => {
  const coats = lived('ourse-companion.coat-one', 'ourse-companion.coat-two');
  const link = 'ourse-companion.coat-two-to-finish-coat';

  it('of a tacky gel coat: tack off, keyed when it is hard, wiped just before the coat', () => {
    const { edits, words } = prepared(coats, link);
    const [key, wipe] = edits.addTasks;
    expect(key.prepares.map(({ kind, grit }) => grit ?? kind)).toEqual(['dewax', 80]);
    expect(wipe.prepares.map(({ kind }) => kind)).toEqual(['extract', 'wipe']);
    // 2.6 m²: 25 + 32 × 2.6 = 108.2; 10 + 4 × 2.6 = 20.4.
    expect([key.workMinutes, wipe.workMinutes]).toEqual([109, 21]);
    const { workload } = applyEdits(yard, coats, edits);
    const into = workload.links.filter(({ to }) => to === 'ourse-companion.finish-coat');
    expect(into.map(({ from, closes }) => [from, closes])).toEqual([
      [wipe.id, { kind: 'after', minutes: 240 }],
      ['ourse-companion.coat-two', null],
    ]);
    expect(words).toContain(
      'wiped with solvent until no wax or tack is left, abraded with 80 grit',
    );
    expect(words).toContain('602.2');
  });

  it('of a wipe that went stale: wiped again, in the same window', () => {
    const { edits } = prepared(lived('ourse-companion.wipe'), 'ourse-companion.wipe-to-coat-one');
    expect(edits.addTasks.map(({ air, prepares }) => [air, prepares.length])).toEqual([
      ['clean', 2],
    ]);
    const last = edits.addLinks.find(({ to }) => to === 'ourse-companion.coat-one');
    expect([last?.opens, last?.closes]).toEqual([
      { kind: 'after', minutes: 15 },
      { kind: 'after', minutes: 240 },
    ]);
  });

  it('of tape that should have come off: cut free', () => {
    const { edits } = prepared(lived('tangon-hatch.grip-coat'), 'tangon-hatch.grip-coat-to-unmask');
    // 10 + 6 min/m × 3.8 m.
    expect(edits.addTasks.map(({ workMinutes }) => workMinutes)).toEqual([33]);
    expect(edits.addLinks.every(({ closes }) => closes === null)).toBe(true);
  });

  it('is told of beforehand in the same words', () => {
    expect(lateWords({ yard, workload: coats, linkId: link })).toBe(
      'it has to be wiped with solvent until no wax or tack is left, abraded with 80 grit, vacuumed and wiped first',
    );
  });

  it('is not one of links to several tasks', () => {
    expect(() => prepared(made, link, 'tangon-hatch.grip-coat-to-unmask')).toThrow('to one task');
  });
});

describe('which windows are missed', () => {
  const one = 'ourse-companion.coat-two-to-finish-coat';
  const window = (linkId: string, to: string) => ({
    linkId,
    from: 'anything',
    to,
    opensAt: null,
    closesAt: '2026-12-02T10:00:00.000Z',
    startBy: '2026-12-02T09:30:00.000Z',
    milestones: { opens: null, closes: null },
  });
  const late = (
    workload: Workload,
    windows: ReturnType<typeof window>[],
    at: string,
    held = false,
  ) => shutWindows(workload, windows, () => held, new Date(at));

  it('those that can no longer be kept, held ones to their very end', () => {
    const windows = [window(one, 'ourse-companion.finish-coat')];
    expect(late(made, windows, '2026-12-02T09:29:00Z').late).toEqual([]);
    expect(late(made, windows, '2026-12-02T09:30:00Z').late.map(({ linkIds }) => linkIds)).toEqual([
      [one],
    ]);
    expect(late(made, windows, '2026-12-02T09:59:00Z', true).late).toEqual([]);
    expect(late(made, windows, '2026-12-02T10:00:00Z', true).late).toHaveLength(1);
  });

  it('not of work that goes on', () => {
    const tasks = made.tasks.map((task) =>
      task.id === 'ourse-companion.finish-coat' ? { ...task, state: 'working' as const } : task,
    );
    const windows = [window(one, 'ourse-companion.finish-coat')];
    expect(late({ ...made, tasks }, windows, '2026-12-03T09:30:00Z').late).toEqual([]);
  });

  it('where there is another way, that is said and nothing is added', () => {
    const bond = 'ourse-companion.coat-one-to-coat-two';
    const found = late(made, [window(bond, 'ourse-companion.coat-two')], '2026-12-03T09:30:00Z');
    expect(found.late).toEqual([]);
    expect(found.otherWays.map(({ task, ways }) => [task.id, ways])).toEqual([
      ['ourse-companion.coat-two', ['harden, dewax, abrade, wipe']],
    ]);
  });
});
