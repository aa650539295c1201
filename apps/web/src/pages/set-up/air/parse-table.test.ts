import { describe, expect, it } from 'vitest';
import { hourlyOf } from './hourly.ts';
import { parseTable } from './parse-table.ts';

const paris = { zone: 'Europe/Paris', isFahrenheit: false };
const iso = (at: number): string => new Date(at).toISOString();
const read = (text: string, how = paris) => {
  const { rows, faults } = parseTable(text, how);
  return {
    rows: rows.map(({ at, celsius, humidity }) => [iso(at), celsius, humidity]),
    faults,
  };
};

describe('a logger’s table', () => {
  it.each([
    ['commas, offsets', '2026-12-01T07:00:00+01:00,4.5,80', '2026-12-01T06:00:00.000Z', 4.5, 80],
    ['UTC', '2026-12-01 07:00Z,4.5', '2026-12-01T07:00:00.000Z', 4.5, null],
    ['the yard’s clock', '2026-12-01 07:00,4.5', '2026-12-01T06:00:00.000Z', 4.5, null],
    [
      'semicolons, decimal commas',
      '01.12.2026 07:00;4,5;80,5',
      '2026-12-01T06:00:00.000Z',
      4.5,
      80.5,
    ],
    ['tabs, date apart', '1/12/2026\t7:00\t-4.5 °C\t80 %', '2026-12-01T06:00:00.000Z', -4.5, 80],
    ['quotes', '"2026-12-01 07:00","4.5"', '2026-12-01T06:00:00.000Z', 4.5, null],
  ])('with %s', (_, line, at, celsius, humidity) => {
    expect(read(line)).toEqual({ rows: [[at, celsius, humidity]], faults: [] });
  });

  it('finds columns by their heading', () => {
    const text = 'Time;Humidity (%);Battery;Temp °F\n2026-12-01 07:00;70;99;50\n';
    expect(read(text, { ...paris, isFahrenheit: true }).rows).toEqual([
      ['2026-12-01T06:00:00.000Z', 10, 70],
    ]);
  });

  it('takes no column for humidity that its heading does not call so', () => {
    expect(read('time,temp,battery\n2026-12-01 07:00,4,99').rows).toEqual([
      ['2026-12-01T06:00:00.000Z', 4, null],
    ]);
  });

  it('says line, kind and text of what it cannot read, and reads the rest', () => {
    const text = [
      'time,celsius,humidity',
      '2026-12-01 07:00,4',
      '2026-02-31 07:00,4',
      '<img src=x>,4',
      '2026-12-01 08:00,cold',
      '2026-12-01 09:00,5,120',
      '',
      '2026-12-01 10:00',
    ].join('\r\n');
    const { rows, faults } = read(text);
    expect(rows).toHaveLength(1);
    expect(faults).toEqual([
      { line: 3, kind: 'time', text: '2026-02-31 07:00' },
      { line: 4, kind: 'time', text: '<img src=x>' },
      { line: 5, kind: 'temperature', text: 'cold' },
      { line: 6, kind: 'humidity', text: '120' },
      { line: 8, kind: 'temperature', text: '' },
    ]);
  });

  it('is in order whatever the order of its lines', () => {
    expect(read('2026-12-01 09:00,2\n2026-12-01 08:00,1').rows.map(([, c]) => c)).toEqual([1, 2]);
  });
});

describe('the table by the hour', () => {
  const row = (hour: number, celsius: number, humidity: number | null = null) => ({
    at: Date.UTC(2026, 11, 1, 0, hour * 60),
    celsius,
    humidity,
  });

  it('takes the mean of an hour and a line through a short gap', () => {
    const rows = [row(1, 4, 60), row(1.5, 6, 70), row(4, 8, 0)];
    expect(hourlyOf(rows)).toEqual({
      from: Date.UTC(2026, 11, 1, 1),
      celsius: [5, 6, 7, 8],
      humidity: [65, 43.33, 21.67, 1],
      filled: 2,
    });
  });

  it('leaves humidity out where an hour has none', () => {
    expect(hourlyOf([row(1, 4, 60), row(2, 5)])).toMatchObject({ celsius: [4, 5], humidity: [] });
  });

  it('says where a gap is too long to guess', () => {
    expect(hourlyOf([row(1, 4), row(5, 4)])).toMatchObject({ filled: 3 });
    expect(hourlyOf([row(1, 4), row(6, 4)])).toEqual({
      from: Date.UTC(2026, 11, 1, 2),
      to: Date.UTC(2026, 11, 1, 6),
    });
    expect(hourlyOf([])).toBeNull();
  });
});
