import { describe, expect, it } from 'vitest';
import { sentences, type WaitFacts } from './sentences.ts';

const facts: WaitFacts = { to: 'Coat two (Lid)', from: 'Coat one (Lid)', until: 'Mon 2 Nov 12:20' };

describe('sentences', () => {
  it('say of a window which of the two it holds back, and what shuts it', () => {
    expect(sentences.notBefore(facts, sentences.inside.bond ?? '')).toBe(
      'Coat two (Lid) is held back with Coat one (Lid), which has to be over inside the bond window',
    );
    expect(sentences.closing(facts, sentences.inside.stale ?? '')).toBe(
      'Coat two (Lid) has to be over by Mon 2 Nov 12:20, before the wiped surface is stale, after Coat one (Lid)',
    );
  });

  it('name who, what or where is in the way, and until when', () => {
    expect(sentences.builder(facts, 'Ada')).toBe(
      'Coat two (Lid) waits for Ada, who is on Coat one (Lid) until Mon 2 Nov 12:20',
    );
    expect(sentences.room(facts, 'Shop')).toBe(
      'Coat two (Lid) waits for room in Shop, taken by Coat one (Lid) until Mon 2 Nov 12:20',
    );
    expect(sentences.tool({ ...facts, from: null }, 'Spray gun')).toBe(
      'Coat two (Lid) waits for a free Spray gun until Mon 2 Nov 12:20',
    );
    expect(sentences.loose(facts)).toContain('a longer search may begin it earlier');
  });
});
