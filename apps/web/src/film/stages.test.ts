import { describe, expect, it } from 'vitest';
import { type Mark, stageAt, stagesOf } from './stages.ts';

const hour = 3_600_000;
const mark = (milestone: Mark['milestone'], hours: number | null): Mark => ({
  milestone,
  at: hours === null ? null : new Date(hours * hour).toISOString(),
});
const shown = (laid: number, ...marks: Mark[]) =>
  stagesOf(laid * hour, marks).map(({ stage, from }) => [stage, from / hour]);

describe('the stages of a film', () => {
  it('go from liquid to cured by the milestones that the material has', () => {
    const epoxy = [
      mark('tacky-opens', 3),
      mark('tacky-closes', 6),
      mark('sandable', 14),
      mark('cured', 90),
    ];
    expect(shown(1, ...epoxy)).toEqual([
      ['liquid', 1],
      ['tacky', 3],
      ['green', 6],
      ['hard', 14],
      ['cured', 90],
    ]);
    expect(stageAt(stagesOf(hour, epoxy), 5 * hour)).toBe('tacky');
    expect(stageAt(stagesOf(hour, epoxy), 200 * hour)).toBe('cured');
    expect(stageAt(stagesOf(hour, epoxy), 0)).toBeNull();
  });

  it('are never earlier than the one ahead, though a closing is an early guess', () => {
    expect(shown(0, mark('tacky-opens', 4), mark('tacky-closes', 2), mark('sandable', 9))).toEqual([
      ['liquid', 0],
      ['green', 4],
      ['hard', 9],
    ]);
  });

  it('end when the film is hard: a polyester that bonds on day five is sanded on day one', () => {
    const polyester = [mark('gel', 1), mark('tack-free', 30), mark('sandable', 20)];
    expect(shown(0, ...polyester)).toEqual([
      ['liquid', 0],
      ['tacky', 1],
      ['hard', 20],
    ]);
  });

  it('stay open where the plan does not look so far, or nothing is known', () => {
    expect(shown(0, mark('gel', 2), mark('sandable', null))).toEqual([
      ['liquid', 0],
      ['tacky', 2],
    ]);
    expect(stagesOf(0, [])).toEqual([{ stage: 'liquid', from: 0, until: Infinity }]);
  });
});
