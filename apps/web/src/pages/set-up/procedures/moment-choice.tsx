import { ChoiceField } from '../../../form/fields.tsx';
import { materials } from '../../../texts/materials.ts';
import { procedures } from '../../../texts/procedures.ts';
import { Needed } from '../rows/numbers.tsx';
import type { Moment } from './procedure-values.ts';

const texts = procedures.wait;
type Milestone = Extract<Moment, { kind: 'milestone' }>['milestone'];
const milestones = Object.keys(materials.milestones) as Milestone[];

const after = (minutes: number): Moment => ({ kind: 'after', minutes });

function momentOf(text: string, before: Moment | null): Moment | null {
  if (text === 'now') return after(0);
  if (text === 'after')
    return after(before?.kind === 'after' && before.minutes > 0 ? before.minutes : 15);
  const milestone = milestones.find((one) => one === text);
  return milestone === undefined ? null : { kind: 'milestone', milestone };
}

function textOf(value: Moment | null, end: 'opens' | 'closes'): string {
  if (value === null) return '';
  if (value.kind === 'milestone') return value.milestone;
  return value.minutes === 0 && end === 'opens' ? 'now' : 'after';
}

/** When a wait is over, or when it is too late: a span, or what the film of the earlier step has come to. */
export function MomentChoice({
  end,
  label,
  value,
  onValue,
  fault,
}: {
  readonly end: 'opens' | 'closes';
  readonly label: string;
  readonly value: Moment | null;
  readonly onValue: (value: Moment | null) => void;
  readonly fault: (path: string) => string | undefined;
}) {
  const film = end === 'opens' ? texts.film : texts.filmBefore;
  return (
    <>
      <ChoiceField
        label={label}
        fault={fault('') ?? fault('.milestone')}
        value={textOf(value, end)}
        onValue={(text) => onValue(momentOf(text, value))}
        options={[
          { value: '', label: texts.none[end] },
          ...(end === 'opens' ? [{ value: 'now', label: texts.atOnce }] : []),
          { value: 'after', label: texts.after },
          ...milestones.map((one) => ({
            value: one,
            label: film(materials.milestones[one].toLowerCase()),
          })),
        ]}
      />
      {value?.kind === 'after' && textOf(value, end) === 'after' && (
        <Needed
          label={texts.minutes}
          unit={procedures.step.minutes}
          min={0}
          step={1}
          value={value.minutes}
          onValue={(minutes) => onValue(after(minutes))}
          fault={fault('.minutes')}
        />
      )}
    </>
  );
}
