import { describe, expect, it } from 'vitest';
import { daysOn, pagesOf, type Row } from './pages.ts';

const row = (taskId: string, date: string): Row => ({
  date,
  from: '08:00',
  to: '09:00',
  taskId,
  task: taskId,
  part: 'Lid',
  boat: 'Gull',
  spaceId: 'bay',
  space: 'Bay',
  people: ['Ada'],
  air: 'wet',
  continued: false,
  continues: false,
});
const caution = (text: string) => ({ text, source: 'sheet' });
const tasks = new Map([
  ['coat', { mix: { material: 'Resin' }, material: 'resin', cautions: [caution('Gloves.')] }],
  [
    'more',
    {
      mix: { material: 'Resin' },
      material: 'resin',
      cautions: [caution('Gloves.'), caution('Air.')],
    },
  ],
  ['sand', { mix: null, material: null, cautions: [caution('Mask.')] }],
]);

describe('a week on paper', () => {
  it('has a page for each builder with work, days in order, each caution once', () => {
    const groups = [
      { id: 'bo', name: 'Bo', rows: [] },
      {
        id: 'ada',
        name: 'Ada',
        rows: [row('coat', '2026-11-24'), row('sand', '2026-11-23'), row('more', '2026-11-24')],
      },
    ];
    const [page, ...others] = pagesOf(groups, tasks);
    expect(others).toEqual([]);
    expect(page.days.map(({ date, rows }) => [date, rows.length])).toEqual([
      ['2026-11-23', 1],
      ['2026-11-24', 2],
    ]);
    expect(page.cautions).toEqual([
      { material: '', texts: ['Mask.'] },
      { material: 'Resin', texts: ['Gloves.', 'Air.'] },
    ]);
  });

  it('says what holds of several materials once, and not of each', () => {
    const gel = {
      mix: { material: 'Gel coat' },
      material: 'gel',
      cautions: [caution('Gloves.'), caution('No flame.')],
    };
    const rows = [row('coat', '2026-11-24'), row('gel', '2026-11-24'), row('sand', '2026-11-25')];
    const all = new Map([...tasks, ['gel', gel] as const]);
    const [{ cautions }] = pagesOf([{ id: 'ada', name: 'Ada', rows }], all);
    expect(cautions).toEqual([
      { material: '', texts: ['Gloves.', 'Mask.'] },
      { material: 'Gel coat', texts: ['No flame.'] },
    ]);
  });

  it('counts days by the calendar', () => {
    expect(daysOn('2026-10-24', 7)).toBe('2026-10-31');
    expect(daysOn('2026-03-01', -1)).toBe('2026-02-28');
  });
});
