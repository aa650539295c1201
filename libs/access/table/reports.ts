import { crew, foreman, row, type Rule } from '../rule.ts';

/** What phones told of work: kept whatever became of it. */
export const reports: readonly Rule[] = [
  row(
    'reports.send',
    ['POST yards/{yardId}/reports', 'Mutation.sendReports'],
    crew,
    'yard',
    'work',
  ),
  row('reports.list', ['GET yards/{yardId}/reports', 'Query.reports'], crew, 'yard', 'read'),
  row('reports.get', ['GET yards/{yardId}/reports/{id}', 'Query.report'], crew, 'report', 'read'),
  row(
    'reports.settle',
    ['POST yards/{yardId}/reports/{id}/settle', 'Mutation.settleReport'],
    foreman,
    'report',
    'manage',
  ),
];
