import { describe, expect, it } from 'vitest';
import { workedHours } from './hours.ts';
import { type Lane, lanesOf, type View } from './lanes.ts';
import type { Model } from './model.ts';
import { moment, small, task } from './small-picture.ts';
import type { Span } from './spans.ts';

const lanes = (model: Model, view: View): Lane[] => lanesOf(model, view, cutOf(model));
const cutOf = ({ picture, whole }: Model) => ({
  whole,
  worked: workedHours(picture, whole),
  nobodysName: 'Nobody',
});
const told = ({ name, pieces, films, rows, filmRows }: Lane) => ({
  name,
  tasks: pieces.map(({ work, row }) => `${work.task.id}/${String(row)}`),
  films: films.map(({ work, row }) => `${work.task.id}/${String(row)}`),
  rows,
  filmRows,
});

describe('lanes by people', () => {
  it('have a plank in each of the crew’s lanes, its film once, under the work', () => {
    const layUp = task({
      id: 'lay-up',
      at: [['08:00', '10:00']],
      crew: ['bram', 'anke'],
      filmUntil: moment('1 09:00'),
      film: [{ milestone: 'sandable', at: moment('1 08:00') }],
    });
    const word = task({ id: 'word', at: [['11:00', '11:00']], crew: [], skill: null });
    expect(lanes(small([layUp, word]), 'people').map(told)).toEqual([
      { name: 'Bram', tasks: ['lay-up/0'], films: ['lay-up/0'], rows: 1, filmRows: 1 },
      { name: 'Anke', tasks: ['lay-up/0'], films: [], rows: 1, filmRows: 0 },
      { name: 'Nobody', tasks: ['word/0'], films: [], rows: 1, filmRows: 0 },
    ]);
  });

  it('show who is off while others work', () => {
    const [bram, anke] = lanes(small([]), 'people');
    expect(bram.off).toEqual([]);
    expect(anke.off).toEqual([
      { from: Date.parse(moment('1 07:00')), until: Date.parse(moment('1 16:00')) },
    ]);
  });

  it('cut a plank where it is continued, and at the edge of the days', () => {
    const fair = task({
      id: 'fair',
      at: [
        ['14:00', '16:00'],
        ['1 07:00', '1 09:00'],
      ],
    });
    const late = task({ id: 'late', at: [['1 15:00', '1 16:00']] });
    const over = {
      ...late,
      segments: [{ from: moment('1 15:00'), until: '2026-12-02T03:00:00Z' }],
    };
    const [bram] = lanes(small([fair, { ...over, finish: '2026-12-02T03:00:00Z' }]), 'people');
    expect(
      bram.pieces.map(({ work, cutBefore, cutAfter, isFirst }) => [
        work.task.id,
        cutBefore,
        cutAfter,
        isFirst,
      ]),
    ).toEqual([
      ['fair', false, true, true],
      ['fair', true, false, false],
      ['late', false, true, true],
    ]);
  });
});

describe('lanes by spaces', () => {
  const sand = task({ id: 'sand', at: [['08:00', '09:00']], air: 'dusty' });
  const coat = task({ id: 'coat', at: [['08:30', '09:30']], air: 'wet', crew: ['anke'] });

  it('put what happens at once in rows, and the dust that reaches a space behind its work', () => {
    const [bay, hull] = lanes(small([sand, coat]), 'spaces');
    expect(told(bay)).toMatchObject({ name: 'Bench bay', tasks: ['sand/0', 'coat/1'], rows: 2 });
    expect(bay.dust).toEqual([]);
    expect(told(hull)).toMatchObject({ name: 'Hull', tasks: [] });
    expect(hull.dust).toEqual([
      {
        source: 'Bench bay',
        from: Date.parse(moment('08:00')),
        until: Date.parse(moment('09:00')),
      },
    ]);
  });
});

describe('short work', () => {
  it('has a row of its own where its plank is drawn over what comes after', () => {
    const look = task({ id: 'look', at: [['08:00', '08:05']] });
    const sand = task({ id: 'sand', at: [['08:05', '10:00']] });
    const model = small([look, sand]);
    expect(told(lanes(model, 'people')[0])).toMatchObject({ tasks: ['look/0', 'sand/0'] });
    const drawnUntil = ({ from, until }: Span): number => Math.max(until, from + 30 * 60_000);
    const [bram] = lanesOf(model, 'people', { ...cutOf(model), drawnUntil });
    expect(told(bram)).toMatchObject({ tasks: ['look/0', 'sand/1'], rows: 2 });
  });
});

describe('lanes by boats', () => {
  it('go by what was promised first', () => {
    const boat = small([]).picture.boats[0];
    const boats = [
      { ...boat, refitId: 'b', boat: 'Heron', promised: moment('1 12:00') },
      { ...boat, promised: moment('12:00') },
    ];
    const one = task({ id: 'one', at: [['08:00', '09:00']] });
    expect(lanes(small([one], { boats }), 'boats').map(told)).toMatchObject([
      { name: 'Petrel', tasks: ['one/0'] },
      { name: 'Heron', tasks: [] },
    ]);
  });
});
