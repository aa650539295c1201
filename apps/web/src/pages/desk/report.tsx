import { useState } from 'preact/hooks';
import { Saying } from '../../deciding/saying.tsx';
import { api, asked, type Schema } from '../../api/client.ts';
import { problemOf } from '../../api/problem.ts';
import { useResource } from '../../api/resource.ts';
import { MomentField, TextField } from '../../form/fields.tsx';
import { useForm } from '../../form/form.ts';
import { useYard } from '../../frame/yard.tsx';
import { Button, Notice, Panel, ProblemNotice, Row, Stack } from '../../looks/looks.tsx';
import { dayAndClock } from '../../show/time.ts';
import { desk as texts } from '../../texts/desk.ts';
import { Detail, Facts } from './detail.tsx';
import { reportDetails, reportWords } from './report-words.ts';
import { useTaskNames } from './task-names.ts';

type Report = Schema<'Report'>;
type Settling = Schema<'SettleReportInput'>;

/** A report that contradicts what is known: it is carried out on the foreman's word, or not at all. */
export function ReportPage({ id }: { readonly id: string }) {
  const { id: yardId, timeZone: zone } = useYard();
  const read = useResource<Report | null>(
    `report ${yardId} ${id}`,
    (signal) =>
      asked(
        api.GET('/api/v1/yards/{yardId}/reports/{id}', {
          params: { path: { yardId, id } },
          signal,
        }),
      ).catch((error: unknown) => {
        if (problemOf(error).status === 404) return null;
        throw error;
      }),
    { yardId, on: ({ subjectId }) => subjectId === id },
  );
  const command = read.data?.command;
  const names = useTaskNames(
    yardId,
    command !== undefined && 'taskId' in command ? [command.taskId] : [],
  );
  return (
    <Detail<Report>
      kind="report"
      title={(report) => texts.report.title(report.member.name, reportWords(report.command, names))}
      read={read}
    >
      {(report) => (
        <>
          <Panel>
            <Facts
              rows={[
                [texts.report.at, dayAndClock(report.at, zone)],
                ...reportDetails(report.command),
              ]}
            />
            <p>
              {texts.report.phone(
                dayAndClock(report.phoneAt, zone),
                dayAndClock(report.receivedAt, zone),
              )}
            </p>
          </Panel>
          {report.reasons.length > 0 && (
            <Notice tone="heed" title={texts.report.why}>
              <ul>
                {report.reasons.map(({ code, message, cure }) => (
                  <li key={`${code} ${message}`}>
                    {message} {cure}
                  </li>
                ))}
              </ul>
            </Notice>
          )}
          {report.outcome === 'held' ? (
            <Settle report={report} onSettled={read.put} />
          ) : (
            <Notice
              tone="well"
              title={report.outcome === 'done' ? texts.report.done : texts.report.dismissed}
              isNews
            >
              {report.note !== '' && <p>{report.note}</p>}
            </Notice>
          )}
        </>
      )}
    </Detail>
  );
}

/** `at` null: now. */
interface Settled {
  readonly at: string | null;
  readonly override: string;
  readonly note: string;
}

function settle(yardId: string, id: string, body: Settling): Promise<Report> {
  return asked(
    api.POST('/api/v1/yards/{yardId}/reports/{id}/settle', {
      params: { path: { yardId, id } },
      // How far this clock is off is told with it.
      body: { ...body, sentAt: new Date().toISOString() },
    }),
  );
}

function Settle({
  report,
  onSettled,
}: {
  readonly report: Report;
  readonly onSettled: (report: Report) => void;
}) {
  const { id: yardId, timeZone: zone } = useYard();
  const [isDismissing, setDismissing] = useState(false);
  const isStart = report.command.kind === 'start';
  const form = useForm<Settled>(
    { at: report.at, override: '', note: '' },
    async ({ at, override, note }) => {
      const settled = await settle(yardId, report.id, {
        as: 'done',
        note: note.trim(),
        ...(at === null ? {} : { at }),
        ...(override.trim() === '' ? {} : { override: { reason: override.trim() } }),
      });
      onSettled(settled);
    },
  );
  return (
    <Panel>
      <p>{texts.report.passing}</p>
      <form onSubmit={form.submit}>
        <Stack>
          <MomentField
            label={texts.report.at}
            hint={texts.report.asDoneHint}
            zone={zone}
            {...form.at('at')}
          />
          {isStart && (
            <TextField
              label={texts.report.override}
              hint={texts.report.overrideHint}
              isOptional
              lines={2}
              maxLength={500}
              {...form.at('override')}
              fault={form.faultAt('override.reason')}
            />
          )}
          <TextField
            label={texts.report.note}
            isOptional
            lines={2}
            maxLength={1000}
            {...form.at('note')}
          />
          <ProblemNotice problem={form.problem} />
          <Row>
            <Button kind="do" type="submit" isBusy={form.isBusy}>
              {texts.report.asDone}
            </Button>
            <Button onPress={() => setDismissing(true)}>{texts.report.dismiss}</Button>
          </Row>
        </Stack>
      </form>
      {isDismissing && (
        <Saying
          title={texts.report.dismissThis}
          label={texts.report.dismissNote}
          hint={texts.report.dismissHint}
          required
          doIt={texts.report.dismiss}
          kind="harm"
          act={async (note) => {
            onSettled(await settle(yardId, report.id, { as: 'dismissed', note }));
          }}
          onDone={() => setDismissing(false)}
          onClose={() => setDismissing(false)}
        />
      )}
    </Panel>
  );
}
