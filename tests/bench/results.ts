import type { Figure, Table } from './bench.ts';
import { isComplete, type Report } from './report.ts';

const cell = (text: string | number): string => String(text).replaceAll('|', '\\|');

const row = (cells: readonly (string | number)[]): string => `| ${cells.map(cell).join(' | ')} |`;

const table = ({ head, lines }: Table): string =>
  [row(head), row(head.map(() => '---')), ...lines.map(row)].join('\n');

function verdict({ target, met }: Figure, complete: boolean): string {
  if (target === undefined) return '';
  return `${met === true ? 'met' : '**missed**'}${complete ? '' : ' so far'}`;
}

const missed = (figures: readonly Figure[]): number =>
  figures.filter(({ met }) => met === false).length;

const aimed = (figures: readonly Figure[]): number =>
  figures.filter(({ target }) => target !== undefined).length;

const part = (report: Report): string =>
  isComplete(report) ? 'complete' : `**partial**: ${report.done} of ${report.of}`;

const limit = ({ most }: Report): string =>
  most === null ? "the bench's own" : `**${most} s** a solve at the most`;

function section(report: Report, present: string | undefined): string {
  const { bench, about, command, commits, from, to, machine, figures } = report;
  const since =
    present === undefined || present === report.engine ? '' : ' (the engine has changed since)';
  const facts = [
    `Run: ${part(report)}; commit ${commits}${since}; ${from} to ${to}`,
    `Limit: ${limit(report)}`,
    `Machine: ${machine.cores} cores (${machine.processor}), ${machine.memory} GiB, Node ${machine.node}`,
    `Again: \`${command}\``,
  ];
  const shown = figures.map((figure) => [
    figure.what,
    figure.value,
    figure.target ?? '',
    verdict(figure, isComplete(report)),
  ]);
  const blocks = [
    `## ${bench}`,
    `${about}.`,
    facts.map((fact) => `- ${fact}`).join('\n'),
    table({
      head: ['figure', 'value', 'target', ''],
      lines: shown.map((line) => line.map(String)),
    }),
  ];
  if (report.table !== null && report.table.lines.length > 0) blocks.push(table(report.table));
  return blocks.join('\n\n');
}

/**
 * The results page. `present` are the engine's hashes of today by bench, to tell which runs are of
 * another engine.
 */
export function resultsPage(
  reports: readonly Report[],
  present: ReadonlyMap<string, string>,
): string {
  const summary = reports.map((report) => {
    const { bench, figures, commits, to } = report;
    const misses = missed(figures);
    return [
      bench,
      part(report),
      commits,
      to.slice(0, 10),
      String(aimed(figures) - misses),
      misses === 0 ? '0' : `**${misses}**`,
    ];
  });
  return `${[
    '# Results of the benches',
    'The last run of each piece, written by `npm run bench -- --report`. A commit with a plus had uncommitted changes. Where a general solver stands beside this engine, both ran in the same piece on the same machine, each solve in a fresh process.',
    table({
      head: ['bench', 'run', 'commit', 'ended', 'targets met', 'missed'],
      lines: summary,
    }),
    ...reports.map((report) => section(report, present.get(report.bench))),
  ].join('\n\n')}\n`;
}
