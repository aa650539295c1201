import { SeveralField, TextField } from '../../../form/fields.tsx';
import type { Form } from '../../../form/form.ts';
import { idFor } from '../../../form/names.ts';
import { procedures } from '../../../texts/procedures.ts';
import { Rows } from '../rows/rows.tsx';
import css from './procedures.module.css';
import type { Choice, ProcedureValues } from './procedure-values.ts';

const texts = procedures.choices;
type Branch = Choice['branches'][number];

const blankBranch = (branches: readonly Branch[]): Branch => ({
  id: idFor(
    'way',
    branches.map(({ id }) => id),
  ),
  name: '',
  steps: [],
  links: [],
});

/** Where exactly one of several ways is taken. */
export function ChoiceFields({ form }: { readonly form: Form<ProcedureValues> }) {
  const { steps, links, choices } = form.values;
  const nameOf = (id: string): string => steps.find((step) => step.id === id)?.name ?? id;
  const stepOptions = steps.map(({ id, name }) => ({ value: id, label: name }));
  const linkOptions = links.map(({ id, from, to }) => ({
    value: id,
    label: procedures.wait.of(nameOf(from), nameOf(to)),
  }));
  return (
    <section class={css['section']} aria-label={texts.title}>
      <h2>{texts.title}</h2>
      <p class={css['soft']}>{texts.lead}</p>
      {steps.length === 0 ? (
        <p class={css['soft']}>{texts.noSteps}</p>
      ) : (
        <Rows<Choice>
          legend={texts.legend}
          what={texts.what}
          addLabel={texts.add}
          rows={choices}
          onRows={(rows) => form.set('choices', [...rows])}
          blank={() => {
            const first = blankBranch([]);
            return {
              id: idFor(
                'choice',
                choices.map(({ id }) => id),
              ),
              name: '',
              branches: [first, blankBranch([first])],
            };
          }}
          fault={form.faultAt('choices')}
        >
          {(choice, change, k) => {
            const at = (path: string): string | undefined =>
              form.faultAt(`choices[${String(k)}]${path}`);
            return (
              <>
                <TextField
                  label={texts.name}
                  required
                  maxLength={120}
                  value={choice.name}
                  onValue={(name) => change({ name })}
                  fault={at('.name') ?? at('')}
                />
                <Rows<Branch>
                  legend={texts.branch}
                  what={texts.branch}
                  addLabel={texts.addBranch}
                  rows={choice.branches}
                  onRows={(branches) => change({ branches: [...branches] })}
                  blank={() => blankBranch(choice.branches)}
                  least={2}
                  fault={at('.branches')}
                >
                  {(branch, put, n) => (
                    <>
                      <TextField
                        label={texts.branchName}
                        required
                        maxLength={120}
                        value={branch.name}
                        onValue={(name) => put({ name })}
                        fault={at(`.branches[${String(n)}].name`)}
                      />
                      <SeveralField
                        label={texts.steps}
                        values={branch.steps}
                        onValues={(ids) => put({ steps: [...ids] })}
                        options={stepOptions}
                      />
                      {links.length > 0 && (
                        <SeveralField
                          label={texts.links}
                          values={branch.links}
                          onValues={(ids) => put({ links: [...ids] })}
                          options={linkOptions}
                        />
                      )}
                    </>
                  )}
                </Rows>
              </>
            );
          }}
        </Rows>
      )}
    </section>
  );
}
