import { foreman, row, type Rule } from '../rule.ts';

/** What was changed, by whom. */
export const audit: readonly Rule[] = [
  row('audit.list', ['GET yards/{yardId}/audit', 'Query.audit'], foreman, 'yard', 'read'),
];
