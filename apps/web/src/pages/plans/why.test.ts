import { describe, expect, it } from 'vitest';
import { roomOf, whyLine } from './why.ts';

describe('why there is no plan', () => {
  it('leads to the record that can be changed', () => {
    expect(whyLine('people[1].shifts (calendar bram): Bram works in the shifts given')).toEqual({
      text: 'Bram works in the shifts given',
      room: 'people',
      id: 'bram',
    });
    expect(
      whyLine('procedures[0].links[2] (link lid.bond): Coat two has to be over (by then): now'),
    ).toEqual({
      text: 'Coat two has to be over (by then): now',
      room: 'procedures',
      id: null,
    });
  });

  it('says the rest as it comes', () => {
    const head = 'No plan exists: these contradict each other.';
    expect(whyLine(head)).toEqual({ text: head, room: null, id: null });
    expect(whyLine('now: Sand cannot begin before Mon 2 Nov 08:00')).toEqual({
      text: 'Sand cannot begin before Mon 2 Nov 08:00',
      room: null,
      id: null,
    });
  });

  it('knows the rooms of the yard file', () => {
    expect(roomOf('boats[0].refits[0].parts[2].jobs[0]')).toBe('boats');
    expect(roomOf('slotLists[0]')).toBe('slot-lists');
    expect(roomOf('horizonDays')).toBe('yard');
    expect(roomOf('')).toBeNull();
    expect(roomOf('something.else')).toBeNull();
  });
});
