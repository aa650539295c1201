import type { ComponentChildren } from 'preact';
import { CheckField, ChoiceField, TextField } from '../../../form/fields.tsx';
import type { Form } from '../../../form/form.ts';
import { procedures } from '../../../texts/procedures.ts';
import { Needed } from '../rows/numbers.tsx';
import page from '../set-up.module.css';
import { MixFields } from './mix-fields.tsx';
import { MoreFields } from './more-fields.tsx';
import { OptionalChoice } from '../lists/optional-choice.tsx';
import type { OfStep } from './of-step.ts';
import { PlaceFields } from './place-fields.tsx';
import css from './procedures.module.css';
import type { ProcedureValues, Step } from './procedure-values.ts';
import { Whole } from './whole.tsx';
import { WaitFields } from './wait-fields.tsx';
import type { YardLists } from './yard-lists.ts';

const texts = procedures.step;
const sections = procedures.edit.sections;

/** Everything that a step says. */
export function StepFields({
  step,
  at,
  form,
  lists,
}: {
  readonly step: Step;
  readonly at: number;
  readonly form: Form<ProcedureValues>;
  readonly lists: YardLists;
}) {
  const { steps } = form.values;
  const of: OfStep = {
    step,
    put: (change) => form.set('steps', steps.with(at, { ...step, ...change })),
    fault: (path) => form.faultAt(`steps[${String(at)}]${path}`),
    lists,
  };
  const others = steps.filter(({ id }) => id !== step.id);
  return (
    <>
      <Section title={sections.work}>
        <WorkFields {...of} />
      </Section>
      <Section title={sections.waits}>
        <WaitFields step={step} form={form} others={others} />
      </Section>
      <Section title={sections.mix}>
        <MixFields {...of} />
      </Section>
      <Section title={sections.place}>
        <PlaceFields {...of} others={others} />
      </Section>
      <Section title={sections.more}>
        <MoreFields {...of} others={others} />
      </Section>
    </>
  );
}

const Section = ({
  title,
  children,
}: {
  readonly title: string;
  readonly children: ComponentChildren;
}) => (
  <section class={css['section']} aria-label={title}>
    <h3>{title}</h3>
    {children}
  </section>
);

const sizes = ['fixed', 'perM2', 'perEdgeM', 'perJointM'] as const;
const airs = ['clean', 'dusty', 'wet'] as const;

function WorkFields({ step, put, fault, lists }: OfStep) {
  const { effort } = step;
  const isHold = step.skill === null && step.crewMax === 0;
  return (
    <>
      <TextField
        label={texts.name}
        required
        maxLength={120}
        value={step.name}
        onValue={(name) => put({ name })}
        fault={fault('.name')}
      />
      <div class={page['cols']}>
        <OptionalChoice
          label={texts.skill}
          none={texts.noSkill}
          value={step.skill}
          options={lists.skills}
          fault={fault('.skill')}
          onValue={(skill) =>
            put(
              skill === null
                ? { skill, crewMin: 0, crewMax: 0 }
                : { skill, crewMin: Math.max(1, step.crewMin), crewMax: Math.max(1, step.crewMax) },
            )
          }
        />
        {!isHold && (
          <>
            <Whole
              label={texts.minLevel}
              value={step.minLevel}
              min={1}
              max={3}
              onValue={(minLevel) => put({ minLevel })}
              fault={fault('.minLevel')}
            />
            <Whole
              label={texts.crewMin}
              value={step.crewMin}
              min={1}
              max={20}
              onValue={(crewMin) => put({ crewMin })}
              fault={fault('.crewMin')}
            />
            <Whole
              label={texts.crewMax}
              value={step.crewMax}
              min={1}
              max={20}
              onValue={(crewMax) => put({ crewMax })}
              fault={fault('.crewMax')}
            />
          </>
        )}
      </div>
      {!isHold && (
        <>
          <div class={page['cols']}>
            {sizes.map((size) => (
              <Needed
                key={size}
                label={texts[size]}
                unit={texts.minutes}
                min={0}
                value={effort[size]}
                onValue={(minutes) => put({ effort: { ...effort, [size]: minutes } })}
                fault={fault(`.effort.${size}`)}
              />
            ))}
          </div>
          <div class={page['cols']}>
            <Whole
              label={texts.floor}
              unit={texts.minutes}
              value={step.floorMinutes}
              min={0}
              onValue={(floorMinutes) => put({ floorMinutes })}
              fault={fault('.floorMinutes')}
            />
            <Whole
              label={texts.cleanDown}
              unit={texts.minutes}
              value={step.cleanDownMinutes}
              min={0}
              max={1440}
              onValue={(cleanDownMinutes) => put({ cleanDownMinutes })}
              fault={fault('.cleanDownMinutes')}
            />
            <ChoiceField
              label={texts.air}
              value={step.air}
              fault={fault('.air')}
              onValue={(text) => put({ air: airs.find((air) => air === text) ?? 'clean' })}
              options={airs.map((air) => ({ value: air, label: texts.airs[air] }))}
            />
            <ChoiceField
              label={texts.breaks}
              value={step.breaks}
              fault={fault('.breaks')}
              onValue={(text) => put({ breaks: text === 'relieved' ? 'relieved' : 'observed' })}
              options={(['observed', 'relieved'] as const).map((one) => ({
                value: one,
                label: texts.breaksOf[one],
              }))}
            />
          </div>
          <CheckField
            label={texts.splittable}
            value={step.splittable}
            onValue={(splittable) => put({ splittable })}
          />
        </>
      )}
      <TextField
        label={procedures.edit.source}
        hint={texts.sourceHint}
        required
        maxLength={300}
        value={effort.source}
        onValue={(source) => put({ effort: { ...effort, source } })}
        fault={fault('.effort.source')}
      />
    </>
  );
}
