import { z } from 'zod';
import { outputShape } from '../../platform/shapes/shape.ts';

export const YardEvent = outputShape(
  'YardEvent',
  z.object({
    id: z.string().describe('Ascending in the yard; follow on after it.'),
    kind: z.string().describe('What happened, `task-claimed` say.'),
    subject: z.string().describe('Which kind of record it is about.'),
    subjectId: z.string(),
    at: z.iso.datetime(),
    byMemberId: z.string().nullable().describe('Null where the service itself did it.'),
    payload: z.string().describe('More about it, JSON.'),
  }),
);
export type YardEvent = z.output<typeof YardEvent.schema>;
