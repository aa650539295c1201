import { useState } from 'preact/hooks';
import { ChoiceField, TextField } from '../../../form/fields.tsx';
import type { Form } from '../../../form/form.ts';
import { idFor } from '../../../form/names.ts';
import { Button, Row } from '../../../looks/looks.tsx';
import { common } from '../../../texts/common.ts';
import { procedures } from '../../../texts/procedures.ts';
import css from './procedures.module.css';
import {
  type Air,
  blankStep,
  movedStep,
  type ProcedureValues,
  type Step,
  withoutStep,
} from './procedure-values.ts';
import { StepFields } from './step-fields.tsx';
import { useYardLists, type YardLists } from './yard-lists.ts';

const texts = procedures.edit;

/** The steps in their order: each can be opened, changed, moved, taken out. */
export function StepList({ form }: { readonly form: Form<ProcedureValues> }) {
  const lists = useYardLists();
  const [open, setOpen] = useState<readonly string[]>([]);
  const { values, set } = form;
  const toggle = (id: string): void =>
    setOpen((was) => (was.includes(id) ? was.filter((one) => one !== id) : [...was, id]));
  const remove = (id: string): void => {
    const left = withoutStep(values, id);
    set('steps', left.steps);
    set('links', left.links);
    set('choices', left.choices);
  };
  return (
    <section class={css['section']} aria-label={texts.steps}>
      <h2>{texts.steps}</h2>
      <p class={css['soft']}>{texts.stepsLead}</p>
      {values.steps.length === 0 && <p>{texts.noSteps}</p>}
      <ol class={css['steps']}>
        {values.steps.map((step, at) => (
          <li key={step.id} class={css['step']}>
            <StepHead
              step={step}
              at={at}
              form={form}
              isOpen={open.includes(step.id)}
              onToggle={() => toggle(step.id)}
              onRemove={() => remove(step.id)}
            />
            {open.includes(step.id) && (
              <div id={`step-${step.id}`} class={css['stepBody']}>
                <StepFields step={step} at={at} form={form} lists={lists} />
              </div>
            )}
          </li>
        ))}
      </ol>
      <AddStep
        lists={lists}
        taken={values.steps.map(({ id }) => id)}
        onAdd={(step) => {
          set('steps', [...values.steps, step]);
          setOpen((was) => [...was, step.id]);
        }}
      />
    </section>
  );
}

function StepHead({
  step,
  at,
  form,
  isOpen,
  onToggle,
  onRemove,
}: {
  readonly step: Step;
  readonly at: number;
  readonly form: Form<ProcedureValues>;
  readonly isOpen: boolean;
  readonly onToggle: () => void;
  readonly onRemove: () => void;
}) {
  const { steps } = form.values;
  const wrong = form.problem?.faults.filter(({ path }) =>
    path.startsWith(`steps[${String(at)}]`),
  ).length;
  const move = (by: -1 | 1): void => form.set('steps', movedStep(steps, at, by));
  return (
    <div class={css['stepHead']}>
      <button
        type="button"
        class={css['opener']}
        aria-expanded={isOpen}
        aria-controls={`step-${step.id}`}
        onClick={onToggle}
      >
        <span>{texts.step(at + 1, step.name)}</span>
        <span class={css['air']}>
          {step.skill === null && step.crewMax === 0 ? texts.hold : common.air[step.air]}
        </span>
        {wrong !== undefined && wrong > 0 && <span class={css['wrong']}>{texts.wrong(wrong)}</span>}
      </button>
      <Row>
        <Button label={texts.up(step.name)} disabled={at === 0} onPress={() => move(-1)}>
          {texts.upShort}
        </Button>
        <Button
          label={texts.down(step.name)}
          disabled={at === steps.length - 1}
          onPress={() => move(1)}
        >
          {texts.downShort}
        </Button>
        <Button label={texts.removeStep(step.name)} onPress={onRemove}>
          {common.remove}
        </Button>
      </Row>
    </div>
  );
}

const kinds = ['clean', 'dusty', 'wet', 'hold'] as const satisfies readonly (Air | 'hold')[];

function AddStep({
  lists,
  taken,
  onAdd,
}: {
  readonly lists: YardLists;
  readonly taken: readonly string[];
  readonly onAdd: (step: Step) => void;
}) {
  const [name, setName] = useState('');
  const [kind, setKind] = useState<(typeof kinds)[number]>('clean');
  const isNamed = name.trim() !== '';
  return (
    <div class={css['beside']}>
      <TextField label={texts.newStep} value={name} onValue={setName} maxLength={120} />
      <ChoiceField
        label={texts.kindOfStep}
        value={kind}
        onValue={(text) => setKind(kinds.find((one) => one === text) ?? 'clean')}
        options={kinds.map((one) => ({ value: one, label: texts.kinds[one] }))}
      />
      <Button
        disabled={!isNamed}
        onPress={() => {
          onAdd(blankStep(idFor(name, taken), name.trim(), kind, lists.skills[0]?.value ?? null));
          setName('');
        }}
      >
        {texts.addStep}
      </Button>
    </div>
  );
}
