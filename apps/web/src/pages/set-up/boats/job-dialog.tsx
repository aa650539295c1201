import { Problem } from '../../../api/problem.ts';
import { ChoiceField, MomentField, SeveralField } from '../../../form/fields.tsx';
import type { Form } from '../../../form/form.ts';
import { same } from '../../../form/same.ts';
import { idFor } from '../../../form/names.ts';
import { useYard } from '../../../frame/yard.tsx';
import { ButtonLink, Notice } from '../../../looks/looks.tsx';
import { boats } from '../../../texts/boats.ts';
import { FormDialog } from '../dialog/form-dialog.tsx';
import { nameIn, optionsOf, useList } from '../lists/lists.ts';
import { OptionalChoice } from '../lists/optional-choice.tsx';
import type { Procedure } from '../procedures/procedure-values.ts';
import { useRecordForm } from '../record/record-form.ts';
import { Rows } from '../rows/rows.tsx';
import { type Boat, type Job, jobs, type JobValues, type Part, type Refit } from './requests.ts';

const texts = boats.job;

const blank: JobValues = {
  procedure: '',
  after: [],
  destination: null,
  joins: [],
  waitsFor: [],
  words: [],
};

const valuesOf = (job: Job | null): JobValues => {
  if (job === null) return blank;
  const { procedure, after, destination, joins, waitsFor, words } = job;
  return { procedure, after, destination, joins, waitsFor, words };
};

/** What has made its tasks, and stays. */
const madeOf = ({ procedure, after, destination, joins }: JobValues): unknown => [
  procedure,
  after,
  destination,
  joins,
];

/** It was sent once, not answered, and made all the same; then something else was chosen. */
const madeBefore = (): Problem =>
  new Problem(409, { code: 'record.exists', detail: texts.madeBefore, cure: texts.madeBeforeCure });

/** A job on a part: what is to be done, and what it waits for. Once made, only the latter changes. */
export function JobDialog({
  refit,
  part,
  job,
  all,
  onSaved,
  onClose,
}: {
  readonly refit: Refit;
  readonly part: Part;
  readonly job: Job | null;
  readonly all: readonly Boat[];
  readonly onSaved: () => void;
  readonly onClose: () => void;
}) {
  const { id: yardId } = useYard();
  const procedures = useList('procedures');
  const form = useRecordForm<Job, JobValues>({
    draftKey: `${yardId} part ${part.id} job ${job?.id ?? ''}`,
    record: job,
    valuesOf,
    making: {
      idOf: (values) => {
        const taken = all.flatMap((one) =>
          one.refits.flatMap((of) => of.parts.flatMap((its) => its.jobs.map(({ id }) => id))),
        );
        return idFor(`${part.id} ${values.procedure}`, taken);
      },
      create: (sent) => jobs.create({ yardId, id: part.id }, sent),
    },
    change: async (values, before) => {
      if (!same(madeOf(values), madeOf(before))) throw madeBefore();
      return jobs.update({ yardId, id: before.id }, before.revision, values);
    },
    read: ({ id }) => jobs.get({ yardId, id }),
    onSaved,
  });
  const procedure = procedures.data?.find(({ id }) => id === form.values.procedure);
  const title =
    job === null ? texts.title(part.name) : texts.changing(nameIn(procedures.data, job.procedure));
  return (
    <FormDialog title={title} form={form} onClose={onClose}>
      {procedures.data?.length === 0 && (
        <Notice tone="heed">
          {texts.noProcedures}
          <ButtonLink to={`/yards/${yardId}/set-up/procedures`}>{texts.toProcedures}</ButtonLink>
        </Notice>
      )}
      {job === null && (
        <MadeOf
          form={form}
          refit={refit}
          part={part}
          procedures={procedures.data ?? []}
          procedure={procedure}
        />
      )}
      <WaitingFor form={form} procedure={procedure} />
    </FormDialog>
  );
}

/** What makes its tasks. */
function MadeOf({
  form,
  refit,
  part,
  procedures,
  procedure,
}: {
  readonly form: Form<JobValues>;
  readonly refit: Refit;
  readonly part: Part;
  readonly procedures: readonly Procedure[];
  readonly procedure: Procedure | undefined;
}) {
  const { id: yardId } = useYard();
  const spaces = useList('spaces');
  const { values, set, faultAt } = form;
  const before = refit.parts.flatMap((its) =>
    its.jobs.map((job) => ({
      value: job.id,
      label: texts.of(nameIn(procedures, job.procedure), its.name),
    })),
  );
  const others = refit.parts.filter(({ id }) => id !== part.id);
  const steps = procedure?.steps ?? [];
  const goesSomewhere = steps.some(({ move }) => move?.kind === 'destination');
  const joins = steps.some((step) => step.joins);
  return (
    <>
      <OptionalChoice
        label={texts.procedure}
        none={boats.part.noMaterial}
        value={values.procedure === '' ? null : values.procedure}
        options={optionsOf(procedures)}
        fault={faultAt('procedure')}
        onValue={(id) => set('procedure', id ?? '')}
      />
      {procedure !== undefined && (
        <a href={`/yards/${yardId}/set-up/procedures/${procedure.id}`}>{texts.look}</a>
      )}
      {before.length > 0 && (
        <SeveralField
          label={texts.after}
          values={values.after}
          onValues={(after) => set('after', [...after])}
          options={before}
        />
      )}
      {goesSomewhere && (
        <OptionalChoice
          label={texts.destination}
          hint={texts.destinationHint}
          none={texts.noDestination}
          value={values.destination}
          options={optionsOf(spaces.data)}
          fault={faultAt('destination')}
          onValue={(destination) => set('destination', destination)}
        />
      )}
      {joins && others.length > 0 && (
        <SeveralField
          label={texts.joins}
          values={values.joins}
          onValues={(ids) => set('joins', [...ids])}
          options={optionsOf(others)}
        />
      )}
    </>
  );
}

/** Deliveries and words. */
function WaitingFor({
  form,
  procedure,
}: {
  readonly form: Form<JobValues>;
  readonly procedure: Procedure | undefined;
}) {
  const { timeZone } = useYard();
  const deliveries = useList('deliveries');
  const { values, set, faultAt } = form;
  const steps = procedure?.steps ?? [];
  const holdPoints = steps.filter(({ crewMax, slots }) => crewMax === 0 && slots === null);
  return (
    <>
      {((deliveries.data?.length ?? 0) > 0 || values.waitsFor.length > 0) && (
        <Rows
          legend={texts.waitsFor}
          what={texts.wait}
          addLabel={texts.addWait}
          rows={values.waitsFor}
          onRows={(rows) => set('waitsFor', [...rows])}
          blank={() => ({ delivery: deliveries.data?.[0]?.id ?? '', step: null })}
          fault={faultAt('waitsFor')}
        >
          {(row, put, k) => (
            <>
              <ChoiceField
                label={texts.delivery}
                value={row.delivery}
                fault={faultAt(`waitsFor[${String(k)}].delivery`)}
                onValue={(delivery) => put({ delivery })}
                options={optionsOf(deliveries.data)}
              />
              <OptionalChoice
                label={texts.step}
                none={texts.wholeJob}
                value={row.step}
                options={optionsOf(steps)}
                fault={faultAt(`waitsFor[${String(k)}].step`)}
                onValue={(step) => put({ step })}
              />
            </>
          )}
        </Rows>
      )}
      {(holdPoints.length > 0 || values.words.length > 0) && (
        <Rows
          legend={texts.words}
          hint={texts.wordsHint}
          what={texts.word}
          addLabel={texts.addWord}
          rows={values.words}
          onRows={(rows) => set('words', [...rows])}
          blank={() => ({ step: holdPoints[0]?.id ?? '', expected: '' })}
          fault={faultAt('words')}
        >
          {(row, put, k) => (
            <>
              <ChoiceField
                label={texts.word}
                value={row.step}
                fault={faultAt(`words[${String(k)}].step`)}
                onValue={(step) => put({ step })}
                options={optionsOf(holdPoints)}
              />
              <MomentField
                label={texts.expected}
                zone={timeZone}
                value={row.expected === '' ? null : row.expected}
                fault={faultAt(`words[${String(k)}].expected`)}
                onValue={(expected) => put({ expected: expected ?? '' })}
              />
            </>
          )}
        </Rows>
      )}
    </>
  );
}
