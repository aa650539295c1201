import { describe, expect, it } from 'vitest';
import { changedFields, merged } from './merge.ts';

const begun = { name: 'Shed', room: 4, hours: [{ from: '08:00' }], skin: null as number | null };

describe('a form after somebody else has saved', () => {
  it('keeps what was typed here and takes everything else', () => {
    const values = { ...begun, name: 'Boat shed', hours: [{ from: '07:00' }] };
    const now = { ...begun, name: 'Big shed', room: 6, skin: 1 };
    expect(merged(begun, values, now)).toEqual({
      name: 'Boat shed',
      room: 6,
      hours: [{ from: '07:00' }],
      skin: 1,
    });
  });

  it('counts a list as changed by what is in it', () => {
    expect(changedFields(begun, { ...begun, hours: [{ from: '08:00' }] })).toEqual([]);
    expect(changedFields(begun, { ...begun, hours: [] })).toEqual(['hours']);
    expect(changedFields(begun, { ...begun, skin: 0 })).toEqual(['skin']);
  });
});
