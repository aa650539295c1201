import { describe, expect, it } from 'vitest';
import { workedHours } from './hours.ts';
import { lanesOf } from './lanes.ts';
import { moved, pieceAt, standOf } from './moves.ts';
import { small, task } from './small-picture.ts';

const model = small([
  task({ id: 'a', at: [['07:00', '08:00']] }),
  task({
    id: 'b',
    at: [
      ['09:00', '10:00'],
      ['11:00', '12:00'],
    ],
  }),
  task({ id: 'c', at: [['14:00', '15:00']] }),
  task({ id: 'word', at: [['13:00', '13:30']], crew: [] }),
]);
const lanes = lanesOf(model, 'people', {
  whole: model.whole,
  worked: workedHours(model.picture, model.whole),
  nobodysName: '-',
});
const from = (laneId: string, taskId: string, key: string) => {
  const stand = standOf(lanes, laneId, taskId);
  const next = stand && moved(lanes, stand, key);
  return next && pieceAt(lanes, next)?.work.task.id;
};

describe('going by keyboard', () => {
  it('leads along a lane, a stop for each task', () => {
    expect(from('bram', 'a', 'ArrowRight')).toBe('b');
    expect(from('bram', 'b', 'ArrowRight')).toBe('c');
    expect(from('bram', 'c', 'ArrowRight')).toBe('c');
    expect(from('bram', 'c', 'Home')).toBe('a');
    expect(from('bram', 'a', 'End')).toBe('c');
    expect(from('bram', 'a', 'ArrowLeft')).toBe('a');
  });

  it('leads to the nearest in time of the next lane that has any', () => {
    expect(from('bram', 'b', 'ArrowDown')).toBe('word');
    expect(from('', 'word', 'ArrowUp')).toBe('c');
    expect(from('', 'word', 'ArrowDown')).toBe('word');
  });

  it('leaves other keys alone, and knows nothing of what is not drawn', () => {
    expect(from('bram', 'a', 'x')).toBeNull();
    expect(standOf(lanes, 'anke', 'a')).toBeNull();
    expect(standOf(lanes, 'nobody here', 'a')).toBeNull();
  });
});
