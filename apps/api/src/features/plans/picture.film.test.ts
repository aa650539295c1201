import { describe, expect, it } from 'vitest';
import type { SheetTask } from '#planning/decode/sheet.ts';
import { filmUntil, windowsOf } from './picture.film.ts';

const when = (hour: number) => {
  const at = new Date(Date.UTC(2026, 10, 30, hour)).toISOString();
  return { at, local: at.slice(0, 16) };
};
const mark = (milestone: SheetTask['film'][number]['milestone'], hour: number | null) => ({
  milestone,
  words: milestone,
  when: hour === null ? null : when(hour),
  earliest: null,
  latest: null,
  touchTest: null,
});
const window = (toTask: string, opens: number | null, closes: number | null) => ({
  linkId: toTask,
  toTask,
  toName: toTask,
  kind: 'bond',
  opens: opens === null ? null : when(opens),
  closes: closes === null ? null : when(closes),
});
type Given = Pick<SheetTask, 'film' | 'windows'>;

/** A film laid until ten. */
const laid = ({ film, windows }: Given): SheetTask => ({
  id: 'coat',
  name: 'coat',
  refitId: 'r',
  boatId: 'b',
  boat: 'b',
  partId: 'p',
  part: 'p',
  jobId: 'j',
  stepId: 's',
  spaceId: 'bay',
  space: 'bay',
  air: 'wet',
  skill: 'laminating',
  material: 'epoxy',
  state: 'waiting',
  start: when(8),
  finish: when(10),
  segments: [],
  crew: [],
  overtimeMinutes: 0,
  cleanedDown: null,
  movesTo: null,
  slot: null,
  floatMinutes: null,
  film,
  windows,
  mix: null,
  bond: null,
  consumables: [],
  warnings: [],
  cautions: [],
});

const starts = new Map([
  ['next', when(30).at],
  ['last', when(40).at],
]);
const horizon = when(1000);
const until = (given: Given): number | null => {
  const task = laid(given);
  const moment = filmUntil(task, windowsOf(task, starts), horizon);
  return moment === null ? null : (Date.parse(moment) - Date.parse(when(0).at)) / 3_600_000;
};

describe('how long a film matters', () => {
  const film = [mark('tack-free', 16), mark('sandable', 34), mark('cured', 200)];

  it('is until the last that waits for it begins', () => {
    expect(until({ film, windows: [window('next', 20, null), window('last', 34, null)] })).toBe(40);
  });

  it('is until its window shuts, where that presses', () => {
    expect(until({ film, windows: [window('next', 20, 50)] })).toBe(50);
    // Four days after the follow-up has begun nobody hurries.
    expect(until({ film, windows: [window('next', 20, 130)] })).toBe(30);
  });

  it('is until it is hard where nothing waits for it, and never after it is cured', () => {
    expect(until({ film, windows: [] })).toBe(34);
    const quick = [mark('sandable', 12), mark('cured', 14)];
    expect(until({ film: quick, windows: [window('last', 12, null)] })).toBe(14);
  });

  it('is as far as the plan looks where it does not become hard', () => {
    expect(until({ film: [mark('sandable', null)], windows: [] })).toBe(1000);
    expect(until({ film: [], windows: [] })).toBeNull();
  });
});

describe('the windows of a task', () => {
  it('are those that make somebody wait or hurry; one after the other is none', () => {
    const task = laid({
      film: [],
      windows: [
        window('next', 10, null),
        window('last', null, 44),
        window('next', 11, null),
        window('gone', 20, null),
      ],
    });
    expect(windowsOf(task, starts)).toEqual([
      expect.objectContaining({ toTask: 'last', opens: null, closes: when(44).at }),
      expect.objectContaining({ toTask: 'next', opens: when(11).at, starts: when(30).at }),
    ]);
  });
});
