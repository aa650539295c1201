import type { Figure } from '#cure/evidence/evidence.ts';
import { MILESTONES, type CureLaw, type CureMaterial } from '#cure/material/material.ts';
import type { SheetMaterial } from './sheet.ts';

type Line = SheetMaterial['lines'][number];

const number = (value: number): string => String(Number(value.toPrecision(6)));

function lawWords(law: CureLaw): string {
  const row = ({ celsius, minutes }: { celsius: number; minutes: number }): string =>
    `${number(minutes)} min at ${number(celsius)} °C`;
  switch (law.kind) {
    case 'table':
      return law.rows.map(row).join(', ');
    case 'activation':
      return `${row(law.at)}, activation energy ${number(law.kjPerMol)} kJ/mol`;
    case 'doubling':
      return `${row(law.at)}, × ${number(law.per10C)} for each 10 °C colder`;
    case 'conversion': {
      const rate = ({ a, e }: { a: number; e: number }): string =>
        `${number(a)}/min · exp(-${number(e)} J/mol / RT)`;
      return `conversion ${number(law.initial)} to ${number(law.reached)}, k1 ${rate(law.k1)}, k2 ${rate(law.k2)}, m ${number(law.m)}, n ${number(law.n)}`;
    }
  }
}

const figureLine = (line: string, figure: Figure | null, unit: string): Line[] =>
  figure === null
    ? []
    : [
        {
          line,
          value: `${number(figure.value)}${unit === '' ? '' : ` ${unit}`}`,
          trust: figure.trust,
          source: figure.source,
          spread: figure.spread,
          overridden: figure.overridden,
          factor: 1,
        },
      ];

function hardenerLines({ hardener }: CureMaterial): Line[] {
  if (hardener === null) return [];
  if (hardener.kind === 'ratio')
    return figureLine('hardener', hardener.per100, 'g to 100 g of resin');
  const { usual, used, warn, block, effect } = hardener;
  const range = (name: string, [low, high]: readonly [number, number]): Line[] =>
    figureLine(`hardener, ${name}`, usual, '').map((line) => ({
      ...line,
      value: `${number(low)} to ${number(high)} %`,
      source: hardener.source,
      spread: 1,
    }));
  return [
    ...figureLine('hardener, usual', usual, '% of the resin by mass'),
    {
      line: 'hardener, as mixed here',
      value: `${number(used)} % of the resin by mass`,
      trust: used === usual.value ? usual.trust : 'sheet',
      source: used === usual.value ? usual.source : 'the yard',
      spread: 1,
      overridden: used !== usual.value,
      factor: 1,
    },
    ...range('warned outside', warn),
    ...range('refused outside', block),
    ...figureLine('hardener, effect on times (power)', effect, ''),
  ];
}

function limitLines({ limits }: CureMaterial): Line[] {
  return [
    ...figureLine(`minimum (${limits.belowMinimum} below)`, limits.minimumC, '°C'),
    ...figureLine('maximum', limits.maximumC, '°C'),
    ...figureLine('warned below', limits.warnBelowC, '°C'),
    ...figureLine(`humidity at most (${limits.dampAir})`, limits.maximumHumidity, '%'),
    ...figureLine(
      `above the dew point at least (${limits.dampAir})`,
      limits.minimumDewMarginC,
      '°C',
    ),
    ...figureLine('warm before', limits.preheatHours, 'h'),
    ...figureLine('kept warm after', limits.holdHours, 'h'),
  ];
}

/** Every number of a material in words, with its evidence, and the yard's factor on its times. */
export function materialLines(material: CureMaterial): Line[] {
  const { milestones, mass } = material;
  const times = MILESTONES.flatMap((milestone): Line[] => {
    const law = milestones[milestone];
    if (law === undefined) return [];
    const { trust, source, spread, overridden, factor } = law;
    return [{ line: milestone, value: lawWords(law), trust, source, spread, overridden, factor }];
  });
  return [
    ...times,
    ...limitLines(material),
    ...hardenerLines(material),
    ...figureLine('pot life is of', mass.referenceGrams, 'g'),
    ...figureLine('standing as thick as', mass.referenceMm, 'mm'),
    ...figureLine('pot life over mass (power)', mass.massPower, ''),
    ...figureLine('pot life over thickness (power)', mass.thicknessPower, ''),
    ...figureLine('density of the resin', material.resinDensity, 'kg/l'),
    ...figureLine('density of the hardener', material.hardenerDensity, 'kg/l'),
    ...figureLine('density of the mix', material.mixedDensity, 'kg/l'),
    ...figureLine('coverage', material.gramsPerM2, 'g/m² and coat'),
    ...figureLine('shelf life', material.shelfLifeDays, 'days'),
  ];
}
