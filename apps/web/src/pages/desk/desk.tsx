import type { ComponentType } from 'preact';
import { useParam } from '../../frame/params.ts';
import { Refusal } from '../../frame/refusal.tsx';
import { common } from '../../texts/common.ts';
import { AlarmPage } from './alarm.tsx';
import { BookingPage } from './booking.tsx';
import { ChangePage } from './change.tsx';
import { List } from './list.tsx';
import { ReportPage } from './report.tsx';
import { SnagPage } from './snag/snag.tsx';
import { WordPage } from './word.tsx';

/** What has a page of its own here; a plan is decided where plans are compared. */
const details: ReadonlyMap<string, ComponentType<{ readonly id: string }>> = new Map([
  ['alarm', AlarmPage],
  ['booking', BookingPage],
  ['change', ChangePage],
  ['report', ReportPage],
  ['snag', SnagPage],
  ['word', WordPage],
]);

/** What waits for the foreman's word, or one thing of it. */
export default function Desk() {
  const [kind, id] = [useParam('kind'), useParam('id')];
  if (kind === '') return <List />;
  const Page = details.get(kind);
  if (Page === undefined || id === '')
    return <Refusal title={common.notFound} cure={common.notFoundCure} />;
  return <Page key={id} id={id} />;
}
