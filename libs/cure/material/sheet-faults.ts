import { DomainError, fault, type Fault } from '#kernel/error.ts';

import { hardenerFactor } from './hardener.ts';
import type { CureMaterial, Hardener, Limits, MassLaw } from './material.ts';
import {
  CATALYST,
  COVERAGE,
  CUP_GRAMS,
  CUP_MM,
  DENSITY,
  DEW_MARGIN,
  EFFECT,
  figureFaults,
  FILLED_DENSITY,
  HOLD,
  HUMIDITY,
  levelFaults,
  numberFaults,
  PER_100,
  POWER,
  PREHEAT,
  SHELF_LIFE,
  temperatureFaults,
} from './plausible.ts';

/** Nothing to be used in a workshop asks for more; 50 or 60 is degrees Fahrenheit. */
const HOTTEST_MINIMUM = 35;

export function limitFaults(limits: Limits, path: string): Fault[] {
  const { minimumC, maximumC, warnBelowC } = limits;
  const out = [
    ...temperatureFaults(minimumC, `${path}.minimumC`, HOTTEST_MINIMUM),
    ...temperatureFaults(maximumC, `${path}.maximumC`),
    ...temperatureFaults(warnBelowC, `${path}.warnBelowC`),
    ...levelFaults(limits.maximumHumidity, `${path}.maximumHumidity`, HUMIDITY),
    ...levelFaults(limits.minimumDewMarginC, `${path}.minimumDewMarginC`, DEW_MARGIN),
    ...levelFaults(limits.preheatHours, `${path}.preheatHours`, PREHEAT),
    ...levelFaults(limits.holdHours, `${path}.holdHours`, HOLD),
  ];
  if (!(minimumC.value < maximumC.value)) {
    const message = `The minimum, ${minimumC.value} °C, is not below the maximum, ${maximumC.value} °C`;
    const more = { value: minimumC.value, cure: 'Correct one of the two temperatures.' };
    out.push(fault('input.field', `${path}.minimumC`, message, more));
  }
  if (
    warnBelowC !== null &&
    !(warnBelowC.value >= minimumC.value && warnBelowC.value <= maximumC.value)
  ) {
    const message = `A warning below ${warnBelowC.value} °C lies outside the limits`;
    const cure = `Give it from ${minimumC.value} to ${maximumC.value} °C.`;
    out.push(
      fault('input.field', `${path}.warnBelowC`, message, { value: warnBelowC.value, cure }),
    );
  }
  return out;
}

function percentFaults(hardener: Extract<Hardener, { kind: 'percent' }>, path: string): Fault[] {
  const { usual, used, warn, block, effect } = hardener;
  const out = [
    ...figureFaults(usual, `${path}.usual`, CATALYST),
    ...numberFaults(used, `${path}.used`, CATALYST),
    ...figureFaults(effect, `${path}.effect`, EFFECT),
  ];
  for (const [name, [low, high]] of [
    ['warn', warn],
    ['block', block],
  ] as const) {
    out.push(...numberFaults(high, `${path}.${name}`, { ...CATALYST, low: 0 }));
    if (low > high) {
      const message = `A range from ${low} to ${high} % is none`;
      const more = { value: [low, high], cure: 'Give the lower percentage first.' };
      out.push(fault('input.field', `${path}.${name}`, message, more));
    }
  }
  if (usual.value < block[0] || usual.value > block[1]) {
    const message = `The times are those of ${usual.value} %, which is outside the ${block[0]} to ${block[1]} % allowed`;
    const more = { value: usual.value, cure: 'Correct the percentage or the range.' };
    out.push(fault('cure.hardener', `${path}.usual.value`, message, more));
  }
  if (warn[0] < block[0] || warn[1] > block[1]) {
    const message = 'What is refused would be warned of only';
    const more = { value: warn, cure: 'Let the range without a warning lie in the range allowed.' };
    out.push(fault('input.field', `${path}.warn`, message, more));
  }
  return out;
}

export function hardenerFaults(material: CureMaterial, path: string): Fault[] {
  const { hardener } = material;
  if (hardener === null) return [];
  if (hardener.kind === 'ratio') return figureFaults(hardener.per100, `${path}.per100`, PER_100);
  const out = percentFaults(hardener, path);
  if (out.length > 0) return out;
  try {
    hardenerFactor(material);
    return [];
  } catch (error) {
    if (!(error instanceof DomainError)) throw error;
    const at = error.code === 'cure.missing' ? `${path}.effect` : `${path}.used`;
    const more = { value: error.code === 'cure.missing' ? null : hardener.used, cure: error.cure };
    return [fault(error.code, at, error.message, more)];
  }
}

export const massFaults = (mass: MassLaw, path: string): Fault[] => [
  ...figureFaults(mass.referenceGrams, `${path}.referenceGrams`, CUP_GRAMS),
  ...figureFaults(mass.referenceMm, `${path}.referenceMm`, CUP_MM),
  ...figureFaults(mass.massPower, `${path}.massPower`, POWER),
  ...figureFaults(mass.thicknessPower, `${path}.thicknessPower`, POWER),
];

export function amountFaults(material: CureMaterial, path: string): Fault[] {
  const mixed = material.use === 'fairing' ? FILLED_DENSITY : DENSITY;
  return [
    ...figureFaults(material.resinDensity, `${path}.resinDensity`, mixed),
    ...figureFaults(material.hardenerDensity, `${path}.hardenerDensity`, DENSITY),
    ...figureFaults(material.mixedDensity, `${path}.mixedDensity`, mixed),
    ...figureFaults(material.gramsPerM2, `${path}.gramsPerM2`, COVERAGE),
    ...figureFaults(material.shelfLifeDays, `${path}.shelfLifeDays`, SHELF_LIFE),
  ];
}
