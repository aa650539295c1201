import { CheckField, ChoiceField } from '../../../form/fields.tsx';
import type { Form } from '../../../form/form.ts';
import { idFor } from '../../../form/names.ts';
import { procedures } from '../../../texts/procedures.ts';
import { Rows } from '../rows/rows.tsx';
import css from '../set-up.module.css';
import { MomentChoice } from './moment-choice.tsx';
import type { Link, ProcedureValues, Step } from './procedure-values.ts';

const texts = procedures.wait;

/** What a step waits for: each earlier step with the window in which it may follow. */
export function WaitFields({
  step,
  form,
  others,
}: {
  readonly step: Step;
  readonly form: Form<ProcedureValues>;
  readonly others: readonly Step[];
}) {
  const { links, choices } = form.values;
  const mine = links.filter(({ to }) => to === step.id);
  const rest = links.filter(({ to }) => to !== step.id);
  const put = (changed: readonly Link[]): void => {
    const all = [...rest, ...changed];
    form.set('links', all);
    const stays = new Set(all.map(({ id }) => id));
    if (changed.length >= mine.length) return;
    form.set(
      'choices',
      choices.map((choice) => ({
        ...choice,
        branches: choice.branches.map((branch) => ({
          ...branch,
          links: branch.links.filter((id) => stays.has(id)),
        })),
      })),
    );
  };
  const blank = (): Link => {
    const from = others.at(-1)?.id ?? '';
    const id = idFor(
      `${from} to ${step.id}`,
      links.map((link) => link.id),
    );
    return {
      id,
      from,
      to: step.id,
      opens: { kind: 'after', minutes: 0 },
      closes: null,
      sweep: 'unknown',
    };
  };
  if (others.length === 0) return <p class={css['soft']}>{texts.nothing}</p>;
  return (
    <>
      {mine.length === 0 && <p class={css['soft']}>{texts.nothing}</p>}
      <Rows<Link>
        legend={texts.legend}
        what={texts.what}
        addLabel={texts.add}
        rows={mine}
        onRows={put}
        blank={blank}
      >
        {(link, change) => {
          const at = links.findIndex(({ id }) => id === link.id);
          const fault = (path: string): string | undefined =>
            form.faultAt(`links[${String(at)}]${path}`);
          return (
            <>
              <ChoiceField
                label={texts.from}
                value={link.from}
                fault={fault('.from') ?? fault('')}
                onValue={(from) => change({ from })}
                options={others.map(({ id, name }) => ({ value: id, label: name }))}
              />
              <MomentChoice
                end="opens"
                label={texts.opens}
                value={link.opens}
                onValue={(opens) => change({ opens })}
                fault={(path) => fault(`.opens${path}`)}
              />
              <MomentChoice
                end="closes"
                label={texts.closes}
                value={link.closes}
                onValue={(closes) => change({ closes })}
                fault={(path) => fault(`.closes${path}`)}
              />
              {(link.closes !== null || link.sweep === 'same') && (
                <CheckField
                  label={texts.sameSweep}
                  value={link.sweep === 'same'}
                  onValue={(isSame) => change({ sweep: isSame ? 'same' : 'unknown' })}
                />
              )}
            </>
          );
        }}
      </Rows>
    </>
  );
}
