import type { Schema } from '../../../api/client.ts';
import { SeveralField, TextField } from '../../../form/fields.tsx';
import type { Form } from '../../../form/form.ts';
import { Panel } from '../../../looks/looks.tsx';
import { people as texts } from '../../../texts/set-up-people.ts';
import css from '../set-up.module.css';
import { MoneyField } from '../rows/numbers.tsx';
import { WeekHours } from '../rows/week-hours.tsx';
import { Abilities } from './abilities.tsx';
import type { PersonValues } from './collection.ts';
import { DaysOffField } from './days-off-field.tsx';

type Role = Schema<'Person'>['roles'][number];
const roles = ['foreman', 'builder', 'owner'] as const satisfies readonly Role[];

/** All of a person but the name; what only builders have is asked of builders. */
export function PersonFields({ form }: { readonly form: Form<PersonValues> }) {
  const { values, set, faultAt } = form;
  const faultOf = (list: string) => (at: number, field: string) =>
    faultAt(`${list}[${String(at)}]${field === '' ? '' : `.${field}`}`);
  return (
    <>
      <SeveralField
        label={texts.roles}
        values={values.roles}
        onValues={(chosen) =>
          set(
            'roles',
            roles.filter((role) => chosen.includes(role)),
          )
        }
        options={roles.map((value) => ({ value, label: texts.rolesAbout[value] }))}
      />
      {faultAt('roles') !== undefined && <p class={css['fault']}>{faultAt('roles')}</p>}
      <TextField
        type="email"
        label={texts.email}
        hint={texts.emailHint}
        isOptional
        maxLength={254}
        value={values.email ?? ''}
        onValue={(email) => set('email', email === '' ? null : email)}
        fault={faultAt('email')}
      />
      {values.roles.includes('builder') && (
        <>
          <Abilities form={form} />
          <Panel title={texts.shifts}>
            <WeekHours
              legend={texts.shifts}
              isTitled
              hint={texts.shiftsHint}
              spans={values.shifts}
              onSpans={(shifts) => set('shifts', shifts)}
              faultAt={faultOf('shifts')}
              hasBreaks
            />
          </Panel>
          <DaysOffField
            exceptions={values.exceptions}
            onExceptions={(exceptions) => set('exceptions', exceptions)}
          />
          <Panel title={texts.pay}>
            <p class={css['soft']}>{texts.payHint}</p>
            <MoneyField
              label={texts.hourly}
              value={values.hourlyCost ?? 0}
              onValue={(cents) => set('hourlyCost', cents)}
              fault={faultAt('hourlyCost')}
            />
            <WeekHours
              legend={texts.overtime}
              hint={texts.overtimeHint}
              spans={values.overtime.map((span) => ({ ...span, breaks: [] }))}
              onSpans={(spans) =>
                set(
                  'overtime',
                  spans.map(({ weekday, from, to }) => ({ weekday, from, to })),
                )
              }
              faultAt={faultOf('overtime')}
            />
            {values.overtime.length > 0 && (
              <MoneyField
                label={texts.overtimeExtra}
                value={values.overtimeHourlyExtra ?? 0}
                onValue={(cents) => set('overtimeHourlyExtra', cents)}
                fault={faultAt('overtimeHourlyExtra')}
              />
            )}
          </Panel>
        </>
      )}
    </>
  );
}
