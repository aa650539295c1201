import type { Schema } from '../../../api/client.ts';
import { ChoiceField, NumberField, TextField } from '../../../form/fields.tsx';
import { units } from '../../../session/session.ts';
import { number, quantity } from '../../../show/units.ts';
import { materials as texts } from '../../../texts/materials.ts';
import css from './materials.module.css';

type Trust = Schema<'SheetLine'>['trust'];
export type OwnTrust = Schema<'SheetFigure'>['trust'];

interface Known {
  readonly trust: Trust;
  readonly source: string;
  /** Whether the yard has entered it. */
  readonly isOwn: boolean;
  /** Whether the material is of a class of the catalogue. */
  readonly hasClass: boolean;
}

/** Whose a number is, where it comes from and how far it is trusted. */
export const Evidence = ({ trust, source, isOwn, hasClass }: Known) => (
  <span class={css['evidence']}>
    <span class={isOwn ? css['own'] : css['byClass']}>
      {isOwn ? texts.own : hasClass ? texts.byClass : texts.usual}
    </span>
    <span>{texts.trusts[trust]}</span>
    <span class={css['source']}>{source}</span>
  </span>
);

const percent = (factor: number): string => number((factor - 1) * 100, 0);

/** Of a time. */
export const timeSpread = (factor: number): string =>
  factor === 1 ? texts.exact : texts.spreadFactor(percent(factor));

/** Of a number of the sheet. */
export function lineSpread({ spread, spreadIs, unit }: Schema<'SheetLine'>): string {
  if (spreadIs === 'factor') {
    return spread === 1 ? texts.exact : texts.spreadValue(percent(spread));
  }
  if (spread === 0) return texts.exact;
  const isThermal = unit === '°C' || unit === 'degrees';
  return texts.spreadOffset(
    isThermal ? quantity('degrees', spread, units.value) : `${number(spread)} ${unit}`,
  );
}

export interface EvidenceValues {
  readonly source: string;
  readonly trust: OwnTrust;
  readonly spread: number | null;
}

const trusts: readonly OwnTrust[] = ['sheet', 'measured', 'practice'];

/** Where a number of the yard's own comes from. */
export function EvidenceFields({
  values,
  set,
  faultAt,
  spreadIs,
}: {
  readonly values: EvidenceValues;
  readonly set: (change: Partial<EvidenceValues>) => void;
  readonly faultAt: (field: keyof EvidenceValues) => string | undefined;
  readonly spreadIs: 'factor' | 'offset';
}) {
  return (
    <>
      <TextField
        label={texts.source}
        hint={texts.sourceHint}
        required
        maxLength={300}
        fault={faultAt('source')}
        value={values.source}
        onValue={(source) => set({ source })}
      />
      <ChoiceField
        label={texts.trust}
        fault={faultAt('trust')}
        value={values.trust}
        onValue={(text) => set({ trust: trusts.find((trust) => trust === text) ?? 'sheet' })}
        options={trusts.map((trust) => ({ value: trust, label: texts.trusts[trust] }))}
      />
      <NumberField
        label={texts.spread}
        hint={texts.spreadHint[spreadIs]}
        isOptional
        fault={faultAt('spread')}
        value={values.spread}
        onValue={(spread) => set({ spread })}
      />
    </>
  );
}
