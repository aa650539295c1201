import { crew, foreman, members, row, type Rule } from '../rule.ts';

/** The yard itself. */
export const yard: readonly Rule[] = [
  row('yards.list', ['GET yards', 'Query.yards'], 'signed-in', 'account', null),
  row('yards.create', ['POST yards'], 'signed-in', 'account', null),
  row('yard.get', ['GET yards/{yardId}', 'Query.yard'], members, 'yard', 'read'),
  row('yard.update', ['PATCH yards/{yardId}', 'Mutation.updateYard'], foreman, 'yard', 'manage'),
  row('yard.export', ['GET yards/{yardId}/export'], foreman, 'yard', 'read'),
  row('yard.warnings', ['GET yards/{yardId}/warnings', 'Query.yardWarnings'], crew, 'yard', 'read'),
  row('yard.outdoor', ['GET yards/{yardId}/outdoor', 'Query.outdoor'], crew, 'yard', 'read'),
  row(
    'yard.import-outdoor',
    ['PUT yards/{yardId}/outdoor', 'Mutation.importOutdoor'],
    foreman,
    'yard',
    'manage',
  ),
];
