import type { Schema } from '../../../api/client.ts';
import { ChoiceField } from '../../../form/fields.tsx';
import { idFor } from '../../../form/names.ts';
import { materials } from '../../../texts/materials.ts';
import { procedures } from '../../../texts/procedures.ts';
import { Needed } from '../rows/numbers.tsx';
import { Rows } from '../rows/rows.tsx';
import { OptionalChoice } from '../lists/optional-choice.tsx';
import type { Step } from './procedure-values.ts';
import type { OfStep } from './of-step.ts';
import { Whole } from './whole.tsx';

const texts = procedures.step;

type Hold = Schema<'Hold'>;
type End = Schema<'HoldEnd'>;
type Milestone = Extract<End, { kind: 'milestone' }>['milestone'];
const milestones = Object.keys(materials.milestones) as Milestone[];
const kinds = ['after', 'milestone', 'step'] as const satisfies readonly End['kind'][];

function endOf(kind: End['kind'], others: readonly Step[]): End {
  switch (kind) {
    case 'after':
      return { kind, minutes: 60 };
    case 'milestone':
      return { kind, milestone: 'handle' };
    case 'step':
      return { kind, step: others[0]?.id ?? '', anchor: 'start' };
  }
}

/** Moulds, clamps and stands that are kept beyond the work. */
export function HoldFields({
  step,
  put,
  fault,
  lists,
  others,
}: OfStep & { readonly others: readonly Step[] }) {
  const taken = step.holds.map(({ id }) => id);
  return (
    <Rows<Hold>
      legend={texts.holds}
      hint={texts.holdsHint}
      what={texts.hold}
      addLabel={texts.addHold}
      rows={step.holds}
      onRows={(holds) => put({ holds: [...holds] })}
      blank={() => ({
        id: idFor('hold', taken),
        tool: lists.tools[0]?.value ?? '',
        count: 1,
        until: [endOf('after', others)],
      })}
      fault={fault('.holds')}
    >
      {(hold, change, k) => {
        const at = (path: string): string | undefined => fault(`.holds[${String(k)}]${path}`);
        return (
          <>
            <OptionalChoice
              label={texts.tool}
              none={texts.noMaterial}
              value={hold.tool === '' ? null : hold.tool}
              options={lists.tools}
              fault={at('.tool')}
              onValue={(tool) => change({ tool: tool ?? '' })}
            />
            <Whole
              label={texts.count}
              min={1}
              value={hold.count}
              onValue={(count) => change({ count })}
              fault={at('.count')}
            />
            <Rows<End>
              legend={texts.until}
              what={texts.end}
              addLabel={texts.addUntil}
              rows={hold.until}
              onRows={(until) => change({ until: [...until] })}
              blank={() => endOf('after', others)}
              least={1}
              fault={at('.until')}
            >
              {(end, _change, n) => (
                <EndFields
                  end={end}
                  others={others}
                  onEnd={(next) => change({ until: hold.until.with(n, next) })}
                  fault={(path) => at(`.until[${String(n)}]${path}`)}
                />
              )}
            </Rows>
          </>
        );
      }}
    </Rows>
  );
}

function EndFields({
  end,
  others,
  onEnd,
  fault,
}: {
  readonly end: End;
  readonly others: readonly Step[];
  readonly onEnd: (end: End) => void;
  readonly fault: (path: string) => string | undefined;
}) {
  return (
    <>
      <ChoiceField
        label={texts.until}
        value={end.kind}
        fault={fault('.kind') ?? fault('')}
        onValue={(text) => onEnd(endOf(kinds.find((kind) => kind === text) ?? 'after', others))}
        options={kinds.map((kind) => ({ value: kind, label: texts.endKinds[kind] }))}
      />
      {end.kind === 'after' && (
        <Needed
          label={procedures.wait.minutes}
          unit={texts.minutes}
          min={0}
          step={1}
          value={end.minutes}
          onValue={(minutes) => onEnd({ kind: 'after', minutes })}
          fault={fault('.minutes')}
        />
      )}
      {end.kind === 'milestone' && (
        <ChoiceField
          label={texts.endKinds.milestone}
          value={end.milestone}
          fault={fault('.milestone')}
          onValue={(text) =>
            onEnd({
              kind: 'milestone',
              milestone: milestones.find((one) => one === text) ?? 'handle',
            })
          }
          options={milestones.map((one) => ({ value: one, label: materials.milestones[one] }))}
        />
      )}
      {end.kind === 'step' && (
        <>
          <ChoiceField
            label={texts.endKinds.step}
            value={end.step}
            fault={fault('.step')}
            onValue={(step) => onEnd({ ...end, step })}
            options={others.map(({ id, name }) => ({ value: id, label: name }))}
          />
          <ChoiceField
            label={texts.anchor}
            value={end.anchor}
            fault={fault('.anchor')}
            onValue={(text) => onEnd({ ...end, anchor: text === 'finish' ? 'finish' : 'start' })}
            options={(['start', 'finish'] as const).map((one) => ({
              value: one,
              label: texts.anchors[one],
            }))}
          />
        </>
      )}
    </>
  );
}
