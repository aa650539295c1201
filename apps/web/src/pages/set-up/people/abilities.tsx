import { ChoiceField } from '../../../form/fields.tsx';
import type { Form } from '../../../form/form.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Panel, ProblemNotice } from '../../../looks/looks.tsx';
import { people as texts } from '../../../texts/set-up-people.ts';
import { Needed } from '../rows/numbers.tsx';
import { Rows } from '../rows/rows.tsx';
import { useList } from '../lists/lists.ts';
import type { PersonValues } from './collection.ts';

const levels = [1, 2, 3] as const;

/** What somebody can do, how well, and how fast. */
export function Abilities({ form }: { readonly form: Form<PersonValues> }) {
  const yard = useYard();
  const { data, problem, again } = useList('skills');
  const { values, set, faultAt } = form;
  const free = (data ?? []).filter(({ id }) => !values.abilities.some(({ skill }) => skill === id));
  return (
    <Panel title={texts.abilities}>
      <ProblemNotice problem={problem} again={again} />
      {data?.length === 0 && (
        <p>
          {texts.noSkills} <a href={`/yards/${yard.id}/set-up/skills`}>{texts.toSkills}</a>
        </p>
      )}
      {data !== undefined && data.length > 0 && (
        <Rows
          legend={texts.abilities}
          isTitled
          hint={texts.abilitiesHint}
          what={texts.ability}
          addLabel={texts.addAbility}
          rows={values.abilities}
          onRows={(rows) => set('abilities', [...rows])}
          blank={() => ({ skill: (free.at(0) ?? data[0]).id, level: 2, speed: 100 })}
        >
          {(row, change, at) => {
            const path = `abilities[${String(at)}]`;
            return (
              <>
                <ChoiceField
                  label={texts.ability}
                  value={row.skill}
                  onValue={(skill) => change({ skill })}
                  options={data.map(({ id, name }) => ({ value: id, label: name }))}
                  fault={faultAt(`${path}.skill`)}
                />
                <ChoiceField
                  label={texts.level}
                  value={String(row.level)}
                  onValue={(level) => change({ level: Number(level) })}
                  options={levels.map((level) => ({
                    value: String(level),
                    label: texts.levels[level],
                  }))}
                />
                <Needed
                  label={texts.speed}
                  unit="%"
                  min={10}
                  max={300}
                  step={1}
                  value={row.speed}
                  onValue={(speed) => change({ speed })}
                  fault={faultAt(`${path}.speed`)}
                />
              </>
            );
          }}
        </Rows>
      )}
    </Panel>
  );
}
