import { z } from 'zod';
import { alarmKindSchema } from '#live/alarms/kinds.ts';
import { id, instant } from '#planning/yard/scalars.ts';
import { pageQuerySchema, pageShape } from '../../platform/paging/page.ts';
import { named } from '../../platform/shapes/names.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';

const moment = z.iso.datetime();
const kind = named('AlarmKind', alarmKindSchema);

/** What was told, on whatever way it comes. */
const told = {
  id: z.string(),
  kind,
  taskId: id.nullable().describe('What it is about.'),
  words: z.string().describe('Times are the yard’s.'),
  rungAt: moment,
};

/** Whether one of those whom it is for has seen it. */
const listener = named(
  'AlarmListener',
  z.object({
    id,
    name: z.string(),
    shownAt: moment.nullable(),
    acknowledgedAt: moment.nullable(),
  }),
);

export const Alarm = outputShape(
  'Alarm',
  z.object({
    ...told,
    dueAt: instant,
    shownAt: moment.nullable().describe('To the caller.'),
    acknowledgedAt: moment.nullable().describe('By the caller.'),
    audience: z.array(listener),
  }),
);
export type Alarm = z.output<typeof Alarm.schema>;
export const AlarmPage = pageShape(Alarm);

export const RungAlarm = outputShape(
  'RungAlarm',
  z.object({ eventId: z.string().describe('Follow on after it.'), ...told }),
);
export type RungAlarm = z.output<typeof RungAlarm.schema>;

export const AlarmShown = outputShape(
  'AlarmShown',
  z.object({
    first: z
      .boolean()
      .describe('Of one person’s devices the first is told true: it alone shows the alarm.'),
    alarm: Alarm.schema,
  }),
);
export type AlarmShown = z.output<typeof AlarmShown.schema>;

export const AlarmsQuery = inputShape(
  'AlarmsQuery',
  pageQuerySchema.extend({
    all: z
      .string()
      .regex(/^(true|false|)$/, 'use true or false')
      .optional()
      .describe('The foreman’s: everybody’s, `?all`.'),
  }),
);
export type AlarmsQuery = z.output<typeof AlarmsQuery.schema>;
