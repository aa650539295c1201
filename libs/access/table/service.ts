import { row, type Rule } from '../rule.ts';

/** The service itself. */
export const service: readonly Rule[] = [
  row('service.health', ['GET health'], 'anyone', 'service', null),
];
