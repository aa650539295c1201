import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import { api, asked, type Schema } from '../../../api/client.ts';
import { useYard } from '../../../frame/yard.tsx';
import { Button, Notice } from '../../../looks/looks.tsx';
import { useKeptResource } from '../../../offline/kept-resource.ts';
import { unsent } from '../../../offline/queue.ts';
import { type Notice as Told, noticesHere } from '../../../session/notices.ts';
import { now as texts } from '../../../texts/now.ts';
import { moment, useIsSeen } from '../moments.ts';
import css from '../now.module.css';
import type { Acting } from '../work/acting.ts';
import type { Calm } from '../work/calm.ts';

type Alarm = Schema<'Alarm'>;

/** So many stand on the page at once; the others are a press away. */
const atOnce = 2;

/** Those that are open come first. */
const most = 30;

/** Noted elsewhere, or void since the window moved: its notice on this device tells what is not so any more. */
function closeAllBut(open: readonly Alarm[], yard: string, notices: readonly Told[]): void {
  const ids = new Set(open.map(({ id }) => id));
  for (const { yardId, alarmId, close } of notices) {
    if (yardId === yard && !ids.has(alarmId)) close();
  }
}

/** What has rung for whoever looks, until they have taken note of it. */
export function Alarms({ acting, calm }: { readonly acting: Acting; readonly calm: Calm }) {
  const { id: yardId, timeZone } = useYard();
  const [isWhole, setWhole] = useState(false);
  const [noted, setNoted] = useState<readonly string[]>([]);
  const alarms = useKeptResource<readonly Alarm[]>(
    `alarms ${yardId}`,
    async (signal) => {
      const path = { yardId };
      // Before the reading: what comes after it is not known to be over.
      const notices = await noticesHere().catch(() => []);
      const { items } = await asked(
        api.GET('/api/v1/yards/{yardId}/alarms', {
          params: { path, query: { first: most } },
          signal,
        }),
      );
      const open = items.filter(({ acknowledgedAt }) => acknowledgedAt === null);
      if (open.length < most) closeAllBut(open, yardId, notices);
      return open;
    },
    { yardId, on: ({ subject }) => subject === 'alarm' },
  );
  useShown(yardId, alarms.data);
  const waiting = unsent.value.flatMap(({ deed }) => (deed.kind === 'noted' ? [deed.alarmId] : []));
  const open = (alarms.data ?? []).filter(({ id }) => !noted.includes(id) && !waiting.includes(id));
  const shown = isWhole ? open : open.slice(0, atOnce);
  const key = shown.map(({ id }) => id).join(' ');
  const { hold } = calm;
  const drawn = useRef(key);
  useLayoutEffect(() => {
    // They push down, or let up, what is pressed below.
    if (drawn.current !== key) hold();
    drawn.current = key;
  }, [key, hold]);
  if (open.length === 0) return null;
  const note =
    ({ id, words }: Alarm) =>
    () => {
      setNoted((before) => [...before, id]);
      void acting.tell({ kind: 'noted', alarmId: id }, texts.alarms.told(words)).then(({ how }) => {
        if (how === 'done') alarms.again();
        if (how === 'refused') setNoted((before) => before.filter((one) => one !== id));
      });
    };
  return (
    <section class={css['section']} aria-label={texts.alarms.title}>
      {shown.map((alarm) => (
        <Notice key={alarm.id} tone={tones[alarm.kind]} isNews>
          <p>
            <strong>{moment(alarm.rungAt, timeZone)}</strong> {alarm.words}
          </p>
          <Button
            wide
            isBusy={!calm.isCalm}
            label={texts.alarms.notedOf(alarm.words)}
            onPress={() => calm.once(note(alarm))}
          >
            {texts.alarms.noted}
          </Button>
        </Notice>
      ))}
      {open.length > shown.length && (
        <Button wide onPress={() => setWhole(true)}>
          {texts.alarms.others(open.length - shown.length)}
        </Button>
      )}
    </section>
  );
}

const tones: Readonly<Record<Alarm['kind'], 'harm' | 'heed' | 'plain'>> = {
  opens: 'plain',
  lapses: 'plain',
  overrun: 'heed',
  unbegun: 'heed',
  closes: 'heed',
  'pot-life': 'harm',
  missed: 'harm',
  'too-cold': 'harm',
};

/**
 * The service is told which alarms this person has before them: no other device need show them. A page
 * that nobody looks at tells nothing, or the phone in the pocket would stay silent for its sake.
 */
function useShown(yardId: string, alarms: readonly Alarm[] | undefined): void {
  const told = useRef(new Set<string>());
  const isSeen = useIsSeen();
  useEffect(() => {
    if (!isSeen) return;
    const fresh = (alarms ?? []).filter(
      ({ id, shownAt }) => shownAt === null && !told.current.has(id),
    );
    for (const { id } of fresh) {
      told.current.add(id);
      void asked(
        api.POST('/api/v1/yards/{yardId}/alarms/{id}/shown', {
          params: { path: { yardId, id } },
        }),
      ).then(
        ({ first }) => {
          if (first && 'vibrate' in navigator) navigator.vibrate(300);
        },
        // Out of reach it is told at the next reading.
        () => told.current.delete(id),
      );
    }
  }, [yardId, alarms, isSeen]);
}
