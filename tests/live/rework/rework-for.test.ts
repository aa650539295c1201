import { describe, expect, it } from 'vitest';
import { DomainError } from '#kernel/error.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import type { Task, Workload } from '#planning/workload/workload.ts';
import { yardSchema } from '#planning/yard/yard.ts';
import { demoYard } from '#seeds/demo-yard.ts';
import { applyEdits } from '#live/edits/apply.ts';
import { glassMm } from '#live/rework/extent.ts';
import type { ReworkInput } from '#live/rework/plight.ts';
import { reworkFor } from '#live/rework/rework-for.ts';

const yard = yardSchema.parse(demoYard);
const made = makeWorkload(yard);
const reworkId = '3f2a9c11-0000-4000-8000-000000000001';
const MARK = '3f2a9c11';
const DAY = 86_400_000;

/** The steps of a job done one a day, each for an hour. */
function lived(job: string, steps: readonly string[], state: Partial<Task> = {}): Workload {
  const done = new Map(steps.map((step, k) => [`${job}.${step}`, k]));
  const tasks = made.tasks.map((task): Task => {
    const k = done.get(task.id);
    if (k === undefined) return task;
    const at = Date.parse('2026-12-01T07:00:00Z') + k * DAY;
    const over = {
      state: 'done' as const,
      startedAt: new Date(at).toISOString(),
      finishedAt: new Date(at + DAY / 24).toISOString(),
    };
    return { ...task, ...over, ...(k === steps.length - 1 ? state : {}) };
  });
  return { ...made, tasks };
}

function rework(
  workload: Workload,
  taskId: string,
  more: Partial<Pick<ReworkInput, 'defect' | 'areaM2' | 'cause'>>,
) {
  const { edits, words } = reworkFor({
    yard,
    workload,
    taskId,
    cause: 'snag',
    areaM2: null,
    ...more,
    reworkId,
  });
  const short = (id: string): string => id.replace(`-${MARK}`, '').replace(/^[a-z]+-[a-z-]+\./, '');
  return {
    edits,
    words,
    minutes: Object.fromEntries(edits.addTasks.map((task) => [short(task.id), task.workMinutes])),
    links: edits.addLinks.map(({ from, to, opens, closes }) =>
      [short(from), short(to), ...[opens, closes].map(said)].join(' '),
    ),
    prepares: Object.fromEntries(
      edits.addTasks.map((task) => [
        short(task.id),
        task.prepares.map(({ kind, grit }) => (grit === null ? kind : String(grit))).join(' '),
      ]),
    ),
  };
}

const said = (moment: Task['sensitiveUntil']): string =>
  moment === null ? '-' : moment.kind === 'after' ? String(moment.minutes) : moment.milestone;

const patch = [
  'grind',
  'scarf',
  'wipe',
  'laminate',
  'key-for-fill',
  'wipe-for-fill',
  'fill',
  'sand',
];

describe('a void in a patch that was filled and faired', () => {
  const workload = lived('kornog-topside', patch);
  const found = rework(workload, 'kornog-topside.laminate', { defect: 'void', areaM2: 0.25 });

  it('is cut back to what the part is made of, with a scarf all round', () => {
    // A ply of 600 g/m² at 1:1 adds 0.6 / 3.072 (2.56 / 0.5 - 1.36) = 0.7344 mm; four 2.9375 mm.
    const laminate = workload.tasks.filter(({ id }) => id === 'kornog-topside.laminate');
    expect(glassMm(yard, laminate)).toBeCloseTo(2.9375, 4);
    // 12 times that is 35.25 mm on each side of a square of 0.5 m: 0.5705² = 0.32547 m² of 2.6 m².
    expect(found.edits.addTasks[0].portion).toBeCloseTo(0.32547 / 2.6, 5);
    // 25 + 16 min/m × 4 × 0.5 m + 80 min/m² × 0.32547 m² = 83.04 min.
    expect(found.minutes['laminate.cut-back']).toBe(84);
    expect(found.words).toContain('(0.25 m², with a scarf of 12:1 0.33 m²)');
    expect(found.words).toContain("down to the part's polyester");
  });

  it('lays again what was laid, in its windows, and whatever was chosen between can be chosen again', () => {
    // 35 + 80 min/m² × 0.32547 m² = 61.04; filling 15 + 30 × 0.32547 = 24.76; sanding 25 + 80 × 0.32547.
    expect(found.minutes).toMatchObject({
      'laminate.again': 62,
      'fill.again': 25,
      'sand.again': 52,
    });
    expect(found.links).toContain('laminate.again fill.again bond-opens bond-closes');
    expect(found.links).toContain('laminate.wipe laminate.again 15 240');
    const [choice] = found.edits.addChoices;
    expect(choice.branches.map(({ id, tasks }) => [id, tasks.length])).toEqual([
      ['bond', 0],
      ['prepare', 2],
      ['peel', 2],
    ]);
    expect(found.edits.redo.map((id) => id.replace('kornog-topside.', ''))).toEqual(patch.slice(3));
  });

  it('grinds no film before it is hard, and washes first what would be ground in', () => {
    expect(found.links).toContain('laminate laminate.cut-back sandable -');
    expect(found.links).toContain('fill laminate.cut-back sandable -');
    expect(found.prepares['laminate.cut-back']).toBe('wash 40');
    expect(found.prepares['laminate.wipe']).toBe('extract wipe');
  });

  it('makes what waits behind wait for the last of it instead', () => {
    expect(found.edits.removeLinks).toEqual(['kornog-topside.sand..kornog-topside-fair.key']);
    const after = applyEdits(yard, workload, found.edits).workload;
    const into = after.links.filter(({ to }) => to === 'kornog-topside-fair.key');
    expect(into.map(({ from }) => from)).toEqual([`kornog-topside.sand.again-${MARK}`]);
    expect(after.tasks.find(({ id }) => id === 'kornog-topside.laminate')?.state).toBe('redo');
    expect(after.tasks.find(({ id }) => id === 'kornog-topside.grind')?.state).toBe('done');
  });
});

it('of the whole is sized as the work was', () => {
  const workload = lived('kornog-topside', patch);
  const { minutes, edits } = rework(workload, 'kornog-topside.laminate', {
    defect: 'delamination',
  });
  const task = workload.tasks.find(({ id }) => id === 'kornog-topside.laminate');
  expect(minutes['laminate.again']).toBe(task?.workMinutes);
  expect(edits.addTasks.every(({ portion }) => portion === 1)).toBe(true);
  // Nothing to scarf into: 25 + 80 min/m² × 2.6 m².
  expect(minutes['laminate.cut-back']).toBe(233);
});

describe('how deep it goes', () => {
  const filled = lived('tangon-rudder', ['key', 'fill-one', 'board-one']);

  it('amine blush: the film stays, washed before it is keyed, and its window to the next is void', () => {
    const laid = lived('kornog-topside', patch.slice(0, 4));
    const { edits, prepares, links } = rework(laid, 'kornog-topside.laminate', {
      defect: 'amine-blush',
    });
    expect(edits.redo).toEqual([]);
    expect(prepares['laminate.key']).toBe('wash 80');
    expect(edits.removeLinks).toContain('kornog-topside.laminate-to-fill');
    expect(links).toContain('laminate.wipe fill 15 240');
  });

  it('out of fair: the filler stays, is keyed, and filled once more on itself', () => {
    const { edits, minutes } = rework(filled, 'tangon-rudder.fill-one', {
      defect: 'out-of-fair',
      areaM2: 0.5,
    });
    expect(edits.redo).toEqual(['tangon-rudder.board-one']);
    // 25 + 32 × 0.5; 15 + 22 × 0.5.
    expect(minutes).toMatchObject({ 'fill-one.key': 41, 'fill-one.again': 26 });
  });

  it('resin that has not set: scraped off at once, ground only then', () => {
    const { minutes, links, prepares } = rework(
      lived('tangon-rudder', ['key', 'fill-one']),
      'tangon-rudder.fill-one',
      { cause: 'not-kicked' },
    );
    expect(links).toContain('fill-one fill-one.scrape-off 0 -');
    expect(links).toContain('fill-one.scrape-off fill-one.cut-back 0 -');
    expect(prepares['fill-one.scrape-off']).toBe('wipe');
    // 20 + 40 min/m² × 2.4 m².
    expect(minutes['fill-one.scrape-off']).toBe(116);
  });

  it('wet work that was left: as hard as it gets, then cut back; its own mark is not ours to make', () => {
    const left = lived('tangon-rudder', ['key', 'fill-one'], { state: 'redo' });
    const { edits, links, words } = rework(left, 'tangon-rudder.fill-one', { cause: 'abandoned' });
    expect(edits.redo).toEqual([]);
    expect(links).toContain('fill-one fill-one.cut-back sandable -');
    expect(links).toContain('fill-one.again board-one sandable -');
    expect(words).toContain('was left undone while it was wet');
  });

  it('a panel cut to the wrong size is cut again, and all that was made of it made again', () => {
    const cut = lived('kornog-panel', ['cut-core', 'close-edges', 'level-edges']);
    const { edits } = rework(cut, 'kornog-panel.cut-core', { defect: 'wrong-size' });
    expect(edits.redo.map((id) => id.replace('kornog-panel.', ''))).toEqual([
      'cut-core',
      'close-edges',
      'level-edges',
    ]);
  });

  it('the face that lies below is turned up first, and down again at the end', () => {
    const turned = lived('tangon-panel', [
      'cut-core',
      'close-edges',
      'level-edges',
      'skin-one',
      'turn',
    ]);
    const { edits, links } = rework(turned, 'tangon-panel.skin-one', {
      defect: 'void',
      areaM2: 0.1,
    });
    expect(edits.addTasks[0].id).toBe(`tangon-panel.turn.over-${MARK}`);
    expect(links).toContain('turn.over skin-one.cut-back 0 -');
    expect(links).toContain('skin-one.again turn.back 0 -');
    expect(links.some((link) => /^turn\.back (key-for-)?skin-two/.test(link))).toBe(true);
  });

  it('one face of tabbing says nothing of the other, but the surveyor looks again', () => {
    const job = 'kornog-bulkhead';
    const tabbed = lived(job, [
      'carry',
      'fit',
      'grind',
      'wipe',
      'bed',
      'tab-fore',
      'tab-aft',
      'survey',
    ]);
    const { edits } = rework(tabbed, `${job}.tab-fore`, { defect: 'void', areaM2: 0.2 });
    expect(edits.redo).toEqual([`${job}.tab-fore`, `${job}.survey`]);
    expect(edits.addTasks.every(({ space }) => space === 'kornog-inside')).toBe(true);
  });
});

describe('what cannot be reworked', () => {
  const fault = (run: () => unknown): DomainError => {
    try {
      run();
    } catch (error) {
      if (error instanceof DomainError) return error;
      throw error;
    }
    throw new Error('it could');
  };

  it('has not been done, or does not exist', () => {
    expect(fault(() => rework(made, 'tangon-rudder.fill-one', {})).code).toBe('snag.state');
    expect(fault(() => rework(made, 'nothing', {})).code).toBe('record.missing');
  });

  it('has somebody at work over it', () => {
    const busy = lived('tangon-rudder', ['key', 'fill-one', 'board-one'], {
      state: 'working',
      finishedAt: null,
    });
    const error = fault(() => rework(busy, 'tangon-rudder.fill-one', { defect: 'delamination' }));
    expect(error.code).toBe('snag.state');
    expect(error.message).toContain('tangon-rudder.board-one');
  });
});
