import { useState } from 'preact/hooks';
import type { Schema } from '../../../api/client.ts';
import { ChoiceField } from '../../../form/fields.tsx';
import { useYard } from '../../../frame/yard.tsx';
import { Dialog } from '../../../looks/looks.tsx';
import { now as texts } from '../../../texts/now.ts';
import { moment } from '../moments.ts';
import css from '../now.module.css';
import own from './tell.module.css';
import type { Acting } from '../work/acting.ts';
import type { Film } from './films.ts';

const findings = [
  'still-wet',
  'tacky',
  'clogs',
  'dry',
] as const satisfies readonly Schema<'TackTestInput'>['found'][];

/** A finger on a film: the latest is chosen already, so one press on what it finds tells it. */
export function TackTest({
  films,
  acting,
  onClose,
}: {
  readonly films: readonly Film[];
  readonly acting: Acting;
  readonly onClose: (told: boolean) => void;
}) {
  const { timeZone } = useYard();
  const [chosen, choose] = useState(films[0]?.taskId ?? '');
  const film = films.find(({ taskId }) => taskId === chosen) ?? films.at(0);
  if (film === undefined) {
    return (
      <Dialog title={texts.tell.tack} onClose={() => onClose(false)}>
        <p>{texts.tack.none}</p>
      </Dialog>
    );
  }
  const told = (found: (typeof findings)[number]) => () => {
    onClose(true);
    const command = { kind: 'tack-test', taskId: film.taskId, found, note: '' } as const;
    const words = texts.tack.told(found, film.task);
    void acting.tell({ kind: 'report', command, claimId: null }, words);
  };
  return (
    <Dialog title={texts.tell.tack} onClose={() => onClose(false)}>
      <ChoiceField
        label={texts.tack.which}
        value={film.taskId}
        onValue={choose}
        options={films.map(({ taskId, task, part, boat, laidAt }) => ({
          value: taskId,
          label: [task, part, boat, texts.tack.laid(moment(laidAt, timeZone))].join(' · '),
        }))}
      />
      <h3>{texts.tack.how}</h3>
      <div class={own['answers']}>
        {findings.map((found) => (
          <button key={found} type="button" class={own['answer']} onClick={told(found)}>
            <span class={own['finding']} data-found={found} aria-hidden="true" />
            <strong>{texts.tack.found[found]}</strong>
            <span>{texts.tack.hint[found]}</span>
          </button>
        ))}
      </div>
      <Expected film={film} />
    </Dialog>
  );
}

/** What the plan reckons with, and how a hand finds it out. */
function Expected({ film: { marks, isAsPlanned } }: { readonly film: Film }) {
  const { timeZone } = useYard();
  if (marks.length === 0) return null;
  return (
    <section>
      <h3>{isAsPlanned ? texts.tack.expected : texts.tack.inOrder}</h3>
      <ul class={css['plain']}>
        {marks.map(({ milestone, words, when, touchTest }) => (
          <li key={milestone}>
            {words}
            {isAsPlanned && ` ${when === null ? texts.tack.notBefore : moment(when.at, timeZone)}`}
            {touchTest !== null && <span class={css['soft']}> {touchTest}</span>}
          </li>
        ))}
      </ul>
    </section>
  );
}
