import type { Trust } from '../evidence/evidence.ts';
import type { Caution, Hazards } from './caution.ts';

/** A caution, and the work that it travels with. */
interface CautionRule extends Caution {
  readonly when: (hazards: Hazards) => boolean;
}

const rule = (
  id: string,
  trust: Trust,
  source: string,
  text: string,
  when: CautionRule['when'],
): CautionRule => ({ id, trust, source, text, when });

const mixes = ({ base }: Hazards): boolean => base !== null;
const isStyrene = (base: Hazards['base'] | undefined): boolean =>
  base === 'polyester' || base === 'vinyl-ester';
const styrene = ({ base, uncured }: Hazards): boolean => isStyrene(base) || isStyrene(uncured);

/** From so many grams on, about 8 fluid ounces, a contained mix was seen to melt its cup. */
const HOT_CUP_GRAMS = 240;

/** Texts are ours; the sources say the fact, not the words. In the order in which they are printed. */
export const CAUTION_RULES: readonly CautionRule[] = [
  rule(
    'peroxide-promoter',
    'read',
    'Columbia Coronado 25 manual 6.1.4; Graco 3A1226D; FAO TP 321 (separate stores)',
    'Peroxide catalyst and promoter (cobalt, accelerator) must never meet undiluted: together they explode. Stir the promoter into the resin first, and keep the two in different cupboards.',
    ({ peroxide }) => peroxide,
  ),
  rule(
    'peroxide-acetone',
    'read',
    'Graco GC-1392',
    'Never thin or rinse peroxide catalyst with acetone: the mixture can go off from a knock.',
    ({ peroxide }) => peroxide,
  ),
  rule(
    'peroxide-eyes',
    'read',
    'Butanox M-50 product data sheet; Eager MSDS 2008 (ACGIH ceiling 0.2 ppm)',
    'Peroxide catalyst in an eye can blind: goggles and gloves before the bottle is opened, eye wash within reach. Keep it at 25 °C or colder.',
    ({ peroxide }) => peroxide,
  ),
  rule(
    'exotherm',
    'read',
    'West System user manual; Promise epoxy guide (8 fl oz and more)',
    'Mix left standing in a cup heats itself until it smokes, burns skin or melts the cup. Spread it or pour it out flat at once; a hot cup goes outdoors, away from anything that burns.',
    mixes,
  ),
  rule(
    'large-cup',
    'read',
    'Promise epoxy guide: 8 fl oz and more can melt the cup; 240 g calculated from it',
    'This is enough resin to melt its cup if it is left in one piece: weigh it in the cups of the mix sheet, never all at once.',
    ({ mixGrams }) => mixGrams !== null && mixGrams >= HOT_CUP_GRAMS,
  ),
  rule(
    'waste',
    'read',
    'Graco 3A1226D; the lidded metal bin from memory of 29 CFR 1910.107',
    'Catalysed waste, overspray and rags can heat up by themselves hours or days later. Wet them, and take them out of the building in a lidded metal bin the same day.',
    ({ base, solvent, uncured }) => base !== null || solvent || uncured !== undefined,
  ),
  rule(
    'styrene',
    'read',
    '29 CFR 1910.1000 table Z-2 by way of NIOSH: 100 ppm over a shift, 200 ppm for at most 5 min in 3 h, peak 600; ACGIH 20 ppm (10 since 2020, from memory); Germany and Finland 20, France 50; NIOSH 82-110 (hulls and gel coat above 100 ppm in a fifth of samples)',
    'Styrene vapour: extract at the work, wear a mask with organic-vapour filters, and keep to your country’s limit, which may be as low as 10 to 20 ppm. Inside hulls and at gel coat it is highest.',
    styrene,
  ),
  rule(
    'epoxy-skin',
    'practice',
    'common practice, no source',
    'Epoxy and its hardener can make you allergic for life: gloves and sleeves, no solvent on skin, change what is soiled.',
    ({ base, uncured }) => base === 'epoxy' || uncured === 'epoxy',
  ),
  rule(
    'green-epoxy',
    'read',
    'West System 002-740; that wet sanding helps there too, the rest from memory',
    'Dust of epoxy that is not cured through makes people allergic: wait for the cure, or sand wet, with extraction, mask and gloves.',
    ({ greenEpoxy }) => greenEpoxy,
  ),
  rule(
    'dust',
    'practice',
    'common practice, no source',
    'Glass and filler dust: extract at the tool, wear a particle mask and eye protection, and keep others out until it has settled. Old paint and antifouling may hold lead or other poison: find out before you sand it, and keep to the local rules for it.',
    ({ dusty }) => dusty,
  ),
  rule(
    'solvent',
    'read',
    'fibreglassing report of 2009 (a vacuum cleaner on an acetone spill exploded); flash point -18 °C and 2.5 % lower explosive limit from memory of NIOSH',
    'Solvent vapour catches fire far from the tin, even in the cold: no flame, heater, grinder or ordinary vacuum cleaner near it; wipe small areas and let them air off.',
    ({ solvent }) => solvent,
  ),
  rule(
    'enclosed',
    'read',
    '29 CFR 1915.13 (below a tenth of the lower explosive limit, tested by a competent person, lamps that cannot spark); never alone: common practice, no source',
    'Vapour gathers in a hull or tank: air blown through before and during the work, the air tested by a competent person, lamps that cannot spark, and somebody outside who watches.',
    // Whatever is mixed, wiped, burnt or ground in there.
    ({ enclosed, base, solvent, dusty, isocyanate, unventedHeater }) =>
      enclosed && (base !== null || solvent || dusty || isocyanate || unventedHeater),
  ),
  rule(
    'isocyanate',
    'memory',
    'HSE guidance on isocyanate paints, from memory',
    'Two-pack paint with isocyanate can give asthma for life: spray it only with an air-fed mask, in a booth that others keep out of until it is clear, and leave it to a licensed shop where local rules do.',
    ({ isocyanate }) => isocyanate,
  ),
  rule(
    'unvented-heater',
    'read',
    'North Carolina Department of Agriculture (carbon monoxide, oxygen); Dur-A-Flex 2020 (water and blush)',
    'A heater without a flue takes the oxygen and can leave carbon monoxide; its water and soot also spoil the surface. Nobody works or sleeps by it: use a vented or electric one.',
    ({ unventedHeater }) => unventedHeater,
  ),
];

/** Stands below every list of cautions. */
export const CLOSING: Caution = {
  id: 'closing',
  trust: 'practice',
  source: 'common practice, no source',
  text: 'This list is not complete. The maker’s data sheets, local codes and licensed or competent persons come first; where they differ, they are right.',
};
