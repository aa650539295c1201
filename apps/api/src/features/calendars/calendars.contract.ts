import { z } from 'zod';
import { id, name } from '#planning/yard/scalars.ts';
import { pageShape } from '../../platform/paging/page.ts';
import { named } from '../../platform/shapes/names.ts';
import { inputShape, outputShape } from '../../platform/shapes/shape.ts';

export const calendarKind = named(
  'CalendarKind',
  z
    .enum(['builder', 'owner', 'space'])
    .describe(
      'builder: a person’s work, with alarms at its windows; owner: milestones of their boats; space: what takes it.',
    ),
);
export type CalendarKind = z.output<typeof calendarKind>;

const moment = z.iso.datetime();

const calendarSchema = z.object({
  id: z.string(),
  personId: id.describe(
    'Whose it is: it says what they may read, and ends when they come in no more.',
  ),
  person: z.string(),
  kind: calendarKind,
  spaceId: id.nullable().describe('Of a space’s.'),
  name: z.string(),
  state: named('CalendarState', z.enum(['open', 'revoked'])),
  createdAt: moment,
  lastReadAt: moment.nullable().describe('To the minute; null: never read.'),
  revokedAt: moment.nullable(),
});

export const Calendar = outputShape('Calendar', calendarSchema);
export const CalendarPage = pageShape(Calendar);
export const NewCalendar = outputShape(
  'NewCalendar',
  calendarSchema.extend({
    url: z
      .string()
      .nullable()
      .describe(
        'What to subscribe to. Whoever has it reads the calendar, so it is shown only here. Null where the command is repeated.',
      ),
  }),
);

export const CalendarInput = inputShape(
  'CalendarInput',
  z.strictObject({
    kind: calendarKind,
    spaceId: id.nullable().default(null).describe('Of kind space: which.'),
    personId: id
      .nullable()
      .default(null)
      .describe('Null: for yourself; the foreman also for others.'),
    name: name
      .nullable()
      .default(null)
      .describe('As clients show it; null: made from what it is of.'),
  }),
);

export type Calendar = z.output<typeof Calendar.schema>;
export type NewCalendar = z.output<typeof NewCalendar.schema>;
export type CalendarInput = z.output<typeof CalendarInput.schema>;
