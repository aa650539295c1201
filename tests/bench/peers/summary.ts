import { atMost, none, quantile, short, type Figure, type Row, type Table } from '../bench.ts';
import { MARKS } from './course.ts';

const OURS = 'ours';
/** Seconds that every peer is given, so that a proof nearly as quick as the quickest is seen. */
export const LEAST = 10;

interface Solved {
  readonly problem: string;
  readonly ours: Row;
  readonly peers: readonly Row[];
}

const number = (row: Row, key: string): number | null =>
  typeof row[key] === 'number' ? row[key] : null;

/** Problems with our solve and that of each peer there is: who of them is fastest is known of no other. */
export function paired(rows: readonly Row[]): Solved[] {
  const problems = [...new Set(rows.map(({ problem }) => String(problem)))];
  const others = new Set(rows.map(({ solver }) => solver).filter((solver) => solver !== OURS));
  return problems.flatMap((problem) => {
    const own = rows.filter((row) => row.problem === problem);
    const ours = own.find(({ solver }) => solver === OURS);
    const peers = own.filter(({ solver }) => solver !== OURS);
    const all = peers.length > 0 && peers.length === others.size;
    return ours !== undefined && all ? [{ problem, ours, peers }] : [];
  });
}

/** How many problems of each kind, a kind being a set of files or a size of refits. */
function coverage(solved: readonly Solved[]): string {
  const counts = new Map<string, number>();
  for (const { problem } of solved) {
    const [first, second] = problem.split('/');
    const kind =
      first === 'refit' ? `refits of ${second}` : problem.slice(0, problem.lastIndexOf('/'));
    counts.set(kind, (counts.get(kind) ?? 0) + 1);
  }
  return [...counts]
    .map(([kind, count]) => `${count} ${kind}`)
    .toSorted()
    .join(', ');
}

/** Seconds that a row's solver was meant to have. */
const limitOf = (row: Row): number => number(row, 'limit') ?? 60;

/**
 * Seconds to solve after which nothing that a peer says could change a comparison of plans or of
 * proofs, by the rows of its problem: this engine has the optimum by then, and another peer has been
 * quicker to prove it. Infinity: it could always.
 */
export function enoughFor(rows: readonly Row[]): number {
  const ours = rows.find(({ solver }) => solver === OURS);
  const own = ours === undefined ? null : proofLess(ours, ['start']);
  const proofs = rows.flatMap((row) => (row.solver === OURS ? [] : (number(row, 'proof') ?? [])));
  return own === null || proofs.length === 0
    ? Infinity
    : Math.ceil(Math.max(LEAST, own, Math.min(...proofs)));
}

/**
 * The row of HiGHS, which is given the very model that COIN-BC is, where it could not be flattened in
 * time; null for another solver, or where it could be.
 */
export function tooLargeFor(solver: string, rows: readonly Row[]): Row | null {
  if (solver !== 'coin-bc') return null;
  const isTooLarge = (row: Row): boolean => row.flat === null && row.failure === null;
  return rows.find((row) => row.solver === 'highs' && isTooLarge(row)) ?? null;
}

/** Best plans after each mark, ours against each peer's, where either has one. */
function comparisons(solved: readonly Solved[]): { all: number; behind: string[] } {
  const behind: string[] = [];
  let all = 0;
  for (const { problem, ours, peers } of solved)
    for (const peer of peers)
      for (const mark of MARKS) {
        if (mark > limitOf(ours)) continue;
        const [own, other] = [number(ours, `after${mark}`), number(peer, `after${mark}`)];
        if (own === null && other === null) continue;
        all += 1;
        if (other !== null && (own === null || own > other))
          behind.push(`${problem} ${String(peer.solver)} ${mark} s: ${own ?? 'none'} to ${other}`);
      }
  return { all, behind };
}

/** Seconds to the proof from where `less` counts as not there; null where there was none. */
function proofLess(row: Row, less: readonly string[]): number | null {
  const proof = number(row, 'proof');
  return proof === null ? null : less.reduce((left, key) => left - (number(row, key) ?? 0), proof);
}

/** Our time to proof over the fastest peer's, on what a peer proves in its time; none of ours counts all of it. */
export function proofRatios(solved: readonly Solved[], less: readonly string[]): number[] {
  return solved.flatMap(({ ours, peers }) => {
    const proofs = peers.flatMap((peer) => {
      const alone = proofLess(peer, ['start', 'flat']);
      return alone !== null && alone <= limitOf(peer) ? (proofLess(peer, less) ?? []) : [];
    });
    if (proofs.length === 0) return [];
    const start = less.includes('start') ? 0 : (number(ours, 'start') ?? 0);
    // A clock has no finer steps.
    const fastest = Math.max(0.001, Math.min(...proofs));
    return [(proofLess(ours, less) ?? start + limitOf(ours)) / fastest];
  });
}

/** What two of them say and cannot both be true. */
function contradictions(solved: readonly Solved[]): string[] {
  return solved.flatMap(({ problem, ours, peers }) => {
    const all = [ours, ...peers];
    const values = all.flatMap((row) => number(row, 'best') ?? []);
    const found = all.flatMap((row) => {
      const best = number(row, 'best');
      if (row.proved === 'infeasible' && values.length > 0) return [`${problem}: a plan, and none`];
      return row.proved === 'optimal' && best !== null && values.some((value) => value < best)
        ? [`${problem}: ${String(row.solver)} has ${best} as the optimum, not the least`]
        : [];
    });
    return [...new Set(found)];
  });
}

const median = (rows: readonly Row[], key: string): number =>
  quantile(
    rows.flatMap((row) => number(row, key) ?? []),
    0.5,
  );

function bySolver(rows: readonly Row[]): Figure[] {
  const solvers = [...new Set(rows.map(({ solver }) => String(solver)))];
  return solvers.map((solver) => {
    const own = rows.filter((row) => row.solver === solver);
    const tell = (key: string): string => {
      const value = median(own, key);
      return Number.isNaN(value) ? '-' : String(short(value));
    };
    const flattened = own.filter((row) => number(row, 'flat') !== null).length;
    const cut = own.filter(
      (row) => row.proof === null && row.flat !== null && Number(row.seconds) < limitOf(row),
    ).length;
    const untried = own.filter((row) => row.untried === true).length;
    const failed = own.filter((row) => typeof row.failure === 'string').length;
    return {
      what: solver,
      value: [
        `proved ${own.filter((row) => number(row, 'proof') !== null).length} of ${own.length}`,
        `a plan for ${own.filter((row) => number(row, 'best') !== null).length}`,
        `medians: start ${tell('start')} s, flattening ${tell('flat')} s, first plan ${tell('first')} s, proof ${tell('proof')} s`,
        ...(solver === OURS ? [] : [`not flattened in time ${own.length - flattened}`]),
        ...(cut > 0 ? [`stopped early ${cut}`] : []),
        ...(untried > 0 ? [`not tried ${untried}`] : []),
        ...(failed > 0 ? [`failed ${failed}`] : []),
      ].join('; '),
    };
  });
}

export function peersFigures(rows: readonly Row[]): Figure[] {
  const solved = paired(rows);
  const { all, behind } = comparisons(solved);
  const wrong = contradictions(solved);
  const ratio = (less: readonly string[]): number => quantile(proofRatios(solved, less), 0.5);
  const tables = rows.filter(({ table }) => typeof table === 'string');
  const refused = (ours: boolean): number =>
    rows.filter((row) => (row.solver === OURS) === ours && Number(row.wrong ?? 0) > 0).length;
  return [
    { what: 'problems that all were given', value: solved.length },
    { what: 'of them by kind', value: coverage(solved) },
    { what: 'comparisons of plans after 1, 10 and 60 s', value: all },
    {
      ...atMost('behind in % of them', all === 0 ? NaN : (100 * behind.length) / all, 2),
      what: `behind in % of them (${behind.length})`,
    },
    { what: 'problems that a peer proves in 60 s', value: proofRatios(solved, []).length },
    atMost('median of our time to proof over the fastest peer', ratio([]), 0.05, 'at most 1/20'),
    atMost('the same without start-up', ratio(['start']), 0.05, 'at most 1/20'),
    {
      what: 'the same without start-up and flattening',
      value: short(ratio(['start', 'flat'])),
    },
    none('statements that contradict one another', wrong.length),
    none('answers that contradict the published tables', tables.length),
    none('our plans that the checker refuses', refused(true)),
    none("peers' plans that the checker refuses", refused(false)),
    ...bySolver(rows),
    ...wrong.map((value) => ({ what: 'contradiction', value })),
    ...tables.map(({ problem, solver, table }) => ({
      what: 'against the table',
      value: `${String(problem)} ${String(solver)}: ${String(table)}`,
    })),
    ...rows.flatMap(({ problem, solver, complaint }) =>
      typeof complaint === 'string'
        ? [{ what: 'refused', value: `${String(problem)} ${String(solver)}: ${complaint}` }]
        : [],
    ),
    ...behind.map((value) => ({ what: 'behind', value })),
  ];
}

function told(row: Row | undefined): string {
  if (row === undefined) return '';
  const [best, proof] = [number(row, 'best'), number(row, 'proof')];
  const value = best === null ? '-' : String(best);
  if (proof !== null)
    return `${row.proved === 'infeasible' ? 'none' : value}, proved ${short(proof)} s`;
  return row.solver !== OURS && number(row, 'flat') === null ? 'not flattened' : value;
}

/** A line for each problem: best plan, and seconds to the proof from the start of the process. */
export function peersTable(rows: readonly Row[]): Table {
  const solvers = [...new Set(rows.map(({ solver }) => String(solver)))];
  return {
    head: ['problem', ...solvers],
    lines: [...new Set(rows.map(({ problem }) => String(problem)))].map((problem) => [
      problem,
      ...solvers.map((solver) =>
        told(rows.find((row) => row.problem === problem && row.solver === solver)),
      ),
    ]),
  };
}
