import { figure } from '../evidence/figure.ts';
import type { Hardener, Limits, MassLaw } from '../material/material.ts';
import { hours, limit } from './build.ts';
import { SOURCES } from './sources.ts';

const PRACTICE = 'common practice, no source';

/** Hotter than that the cup goes off before it is spread: replaced by the sheet's own limit. */
const hot = limit(30, 'practice', PRACTICE);

const dewMargin = limit(3, 'read', SOURCES.dewPoint);

/**
 * Of polyesters where the product says nothing: sources give 15, 16 and 18 degrees as the least
 * (contradiction X7), so colder than 18 is warned of and colder than 15 refused. Colder than the
 * minimum is no longer wait: gel-coat charts change far more than twofold over 10 degrees (X2),
 * and an undercured polyester does not recover, so a film that would see it is spoilt.
 */
export const POLYESTER_LIMITS: Limits = {
  minimumC: limit(15, 'read', SOURCES.workshopApproval),
  belowMinimum: 'spoils',
  maximumC: hot,
  warnBelowC: limit(18, 'read', `${SOURCES.frpRules}, 102`),
  maximumHumidity: limit(80, 'read', `${SOURCES.frpRules}, 102`),
  minimumDewMarginC: dewMargin,
  dampAir: 'warn',
  preheatHours: hours(24, `${SOURCES.frpRules}, 102`),
  holdHours: hours(
    48,
    `${SOURCES.productionRule}: 48 h at 18 °C or more; steadily warm in ${SOURCES.frpRules}`,
  ),
};

/** Gel coat for the mould: the workshop that its maker asks for. */
export const GEL_COAT_LIMITS: Limits = {
  ...POLYESTER_LIMITS,
  minimumC: limit(18, 'read', SOURCES.gelCoatWorkshop),
  warnBelowC: null,
  maximumC: limit(25, 'read', SOURCES.gelCoatWorkshop),
  dampAir: 'refuse',
};

/** Waxed coats: 60 to 80 °F. */
export const FINISH_LIMITS: Limits = {
  ...POLYESTER_LIMITS,
  minimumC: limit(15.6, 'read', SOURCES.gelCoatApplication),
  maximumC: limit(26.7, 'read', SOURCES.gelCoatApplication),
  dampAir: 'refuse',
};

export const VINYL_ESTER_LIMITS: Limits = {
  ...POLYESTER_LIMITS,
  maximumC: limit(30, 'memory', 'from memory, not checked'),
};

/** 64 °F at the least. Heat for a day before and two days after is a rule for laminates, not for filler. */
export const POLYESTER_FAIRING_LIMITS: Limits = {
  ...POLYESTER_LIMITS,
  minimumC: limit(17.8, 'read', SOURCES.bodyFiller),
  warnBelowC: null,
  preheatHours: null,
  holdHours: null,
};

/** Cold stops an epoxy and warmth starts it again: "no reaction" below the chart's 4 degrees. */
export const epoxyLimits = (minimumC: number): Limits => ({
  minimumC: limit(minimumC, 'read', SOURCES.epoxySheets),
  belowMinimum: 'stalls',
  maximumC: hot,
  warnBelowC: null,
  maximumHumidity: limit(85, 'read', SOURCES.dewPoint),
  minimumDewMarginC: dewMargin,
  dampAir: 'refuse',
  preheatHours: null,
  holdHours: hours(48, SOURCES.holdHeat),
});

/** Compounds are spread as coatings are, and keep to a coating's limits. */
export const EPOXY_FAIRING_LIMITS: Limits = {
  ...epoxyLimits(15),
  minimumC: limit(15, 'read', SOURCES.twoPack),
  maximumC: limit(25, 'read', SOURCES.twoPack),
  maximumHumidity: limit(70, 'read', SOURCES.twoPack),
};

/**
 * No law of pot life over mass was found: the powers are the yard's to calibrate. Thickness is
 * reckoned from one published pair, 9 to 12 min for a cup about 25 mm deep against 60 to 70 min
 * for a film of 0.13 mm: ln(64.8 / 10.4) / ln(25 / 0.13) = 0.35.
 */
export const MASS: MassLaw = {
  referenceGrams: figure(100, 'read', `${SOURCES.hardening}: pot life is that of 100 g`, 1),
  referenceMm: figure(
    25,
    'calculated',
    '100 g of 1.1 kg/l in a cup 70 mm wide stand 24 mm deep',
    1.2,
  ),
  massPower: figure(0.2, 'practice', 'common practice, no source: no published law was found'),
  thicknessPower: figure(0.35, 'calculated', `cup and film in ${SOURCES.epoxyCup}`, 1.5),
};

/**
 * Peroxide of polyesters: published ranges run from 0.5 to 4 % (contradiction X3), so where the
 * product says nothing less than 1 % is refused, more than 2 % warned of and more than 2.5 %
 * refused. What a change of it does to the times is null: one gel-coat chart gives powers of
 * 1.7 and 3.4 at two temperatures, which is no law.
 */
export const peroxide = (
  percent: number,
  spread: number,
  trust: 'read' | 'calculated',
  source: string,
): Hardener => ({
  kind: 'percent',
  usual: figure(percent, trust, source, spread),
  used: percent,
  warn: [1, 2],
  block: [1, 2.5],
  effect: null,
  source: `published ranges disagree (1 to 2, 1.2 to 3, 0.5 to 4 %); 1 to 2.5 % by mass in ${SOURCES.laminatingSheet}`,
});
