import { describe, expect, it } from 'vitest';
import { readEvents } from './events.ts';

const lines = (...events: object[]): string =>
  `${events.map((event) => JSON.stringify(event)).join('\n')}\n`;

describe('what a solve said', () => {
  const course = lines(
    { kind: 'ready', at: 0.5 },
    { kind: 'flat', at: 1.25 },
    { kind: 'solution', at: 1.5, output: '40' },
    { kind: 'solution', at: 2.75, output: '38' },
    { kind: 'status', at: 3, status: 'OPTIMAL_SOLUTION' },
    { kind: 'exit', at: 3.5 },
  );

  it('is read with its times', () => {
    expect(readEvents(course)).toEqual({
      status: 'OPTIMAL_SOLUTION',
      readyAt: 0.5,
      flatAt: 1.25,
      solutions: [
        { at: 1.5, output: '40' },
        { at: 2.75, output: '38' },
      ],
      statusAt: 3,
      endAt: 3.5,
      failure: null,
    });
  });

  it('counts up to where it was cut off', () => {
    const cut = course.slice(0, course.indexOf('"38"'));
    expect(readEvents(cut)).toMatchObject({
      status: 'UNKNOWN',
      solutions: [{ at: 1.5, output: '40' }],
      statusAt: null,
      endAt: null,
    });
    expect(readEvents('')).toMatchObject({ readyAt: null, solutions: [] });
  });

  it('is the first failure, and the last status', () => {
    const failed = lines(
      { kind: 'failure', at: 1, message: 'first' },
      { kind: 'failure', at: 1, message: 'second' },
      { kind: 'status', at: 1, status: 'UNKNOWN' },
      { kind: 'status', at: 2, status: 'UNSATISFIABLE' },
    );
    expect(readEvents(failed)).toMatchObject({ failure: 'first', status: 'UNSATISFIABLE' });
  });
});
