import { describe, expect, it } from 'vitest';

import { classOf } from '../catalogue/classes.ts';
import { constantBand } from '../clock/series.ts';
import {
  MILESTONES,
  type CureLaw,
  type CureMaterial,
  type Milestone,
} from '../material/material.ts';
import { tableLaw } from '../testing/cure-material.ts';
import { pipeCoating } from '../testing/published.ts';
import type { NextCoat, Stage } from './bond.ts';
import { stageOf } from './stage.ts';

const HOUR = 60;
const DAY = 24 * HOUR;

const flat = (minutes: number, spread = 1): CureLaw =>
  tableLaw(
    [
      [10, minutes],
      [30, minutes],
    ],
    { spread },
  );

function withTimes(id: string, times: Partial<Record<Milestone, number>>): CureMaterial {
  const material = classOf(id);
  if (material === undefined) throw new Error(id);
  const milestones = { ...material.milestones };
  for (const milestone of MILESTONES) {
    const minutes = times[milestone];
    if (minutes !== undefined) milestones[milestone] = flat(minutes);
  }
  return { ...material, milestones };
}

const band = constantBand(20);
const stages = (material: CureMaterial, minutes: readonly number[], next?: 'epoxy'): Stage[] =>
  minutes.map((minute) => stageOf(material, band, 0, 10, minute, next));

describe('stage', () => {
  it('opens for the last of the film, closes for the first, hardens and cures', () => {
    const epoxy = withTimes('epoxy-slow', {
      'bond-opens': 120,
      'bond-closes': 600,
      sandable: 900,
      cured: 5000,
    });
    expect(stages(epoxy, [129, 130, 600, 601, 909, 910, 5009, 5010])).toEqual([
      'wet',
      'open',
      'open',
      'between',
      'between',
      'hard',
      'hard',
      'cured',
    ]);
  });

  it('follows a published chart at 27 °C: recoat 25 to 75 min, Shore D65 in 285', () => {
    // Powercrete J Gel, Re-coat and Curing Time Chart (read).
    const at27 = [34, 35, 75, 76, 294, 295].map((minute) =>
      stageOf(pipeCoating, constantBand(27), 0, 10, minute),
    );
    expect(at27).toEqual(['wet', 'open', 'open', 'between', 'between', 'hard']);
  });

  it('keeps laminating polyester open for five days, though it could be sanded (ICS 602.2)', () => {
    const polyester = withTimes('laminating-polyester', { 'bond-opens': 45, sandable: DAY });
    const marks = [54, 55, 2 * DAY, 5 * DAY, 5 * DAY + 1];
    // Its cure, 48 h at 18 °C by a class rule, is over long before the window closes.
    expect(stages(polyester, marks)).toEqual(['wet', 'open', 'open', 'open', 'cured']);
  });

  it('is only hard or not to a material that does not join with it', () => {
    const polyester = withTimes('laminating-polyester', {
      'bond-opens': 45,
      sandable: DAY,
      cured: 9 * DAY,
    });
    const marks = [60, DAY + 9, DAY + 10, 4 * DAY];
    expect(stages(polyester, marks)).toEqual(['open', 'open', 'open', 'open']);
    expect(stages(polyester, marks, 'epoxy')).toEqual(['between', 'between', 'hard', 'hard']);
  });

  it('has polyester and vinyl ester as of one kind, and epoxy of another', () => {
    const vinyl = withTimes('vinyl-ester', { 'bond-opens': 45, sandable: DAY });
    const next = (base: NextCoat['base']): Stage => stageOf(vinyl, band, 0, 10, 300, base);
    expect([next('vinyl-ester'), next('polyester')]).toEqual(['open', 'open']);
    expect([next('epoxy'), next('paint')]).toEqual(['between', 'between']);
  });

  it('keeps to the safe side of a band and a spread', () => {
    const base = withTimes('epoxy-slow', { sandable: 900 });
    const bonds = { 'bond-opens': flat(120, 1.5), 'bond-closes': flat(600, 1.5) };
    const epoxy: CureMaterial = { ...base, milestones: { ...base.milestones, ...bonds } };
    // Opens at 120 * 1.5 after the last of it; closes at 600 / 1.5 after the first.
    expect(stages(epoxy, [189, 190, 400, 401])).toEqual(['wet', 'open', 'open', 'between']);
  });

  it('says which line of the sheet is missing where the answer hangs on it', () => {
    const epoxy = withTimes('epoxy-slow', {});
    expect(() => stageOf(epoxy, band, 0, 10, 300)).toThrow(
      expect.objectContaining({ code: 'cure.missing' }),
    );
    // Of an old window only its end is asked for.
    const closed = withTimes('epoxy-slow', { 'bond-closes': 600, sandable: 900 });
    expect(stages(closed, [700, 950])).toEqual(['between', 'hard']);
    expect(() => stageOf(closed, band, 0, 10, 300)).toThrow(
      expect.objectContaining({ code: 'cure.missing' }),
    );
  });

  it('takes what has hardened for hard where its sheet has no end of a bond window (X10)', () => {
    // As the catalogue has a fast epoxy: 24 h to sand, 7 d to cure, nothing of a window.
    const epoxy = withTimes('epoxy-fast', { sandable: 900, cured: 5000 });
    expect(epoxy.milestones['bond-closes']).toBeUndefined();
    expect(() => stageOf(epoxy, band, 0, 10, 909)).toThrow(/bond-closes/);
    expect(stages(epoxy, [910, 5009, 5010])).toEqual(['hard', 'hard', 'cured']);
    expect(stages(withTimes('epoxy-fast', { cured: 5000 }), [5010])).toEqual(['cured']);
  });

  it('takes what has hardened for past the beginning of its window', () => {
    const polyester = withTimes('laminating-polyester', { cured: 2 * DAY });
    expect(polyester.milestones['bond-opens']).toBeUndefined();
    expect(() => stageOf(polyester, band, 0, 10, 2 * DAY + 9)).toThrow(/bond-opens/);
    expect(stages(polyester, [2 * DAY + 10, 5 * DAY, 5 * DAY + 1])).toEqual([
      'open',
      'open',
      'cured',
    ]);
  });

  it('never counts as cured what has no full cure on its sheet', () => {
    const finish = withTimes('finish-polyester', { 'bond-opens': 60, sandable: DAY });
    expect(finish.milestones.cured).toBeUndefined();
    expect(stages(finish, [60 * DAY])).toEqual(['hard']);
  });
});
