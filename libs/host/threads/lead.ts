import type { RootProof } from '#scheduling/bounds/root.ts';
import { isPure } from '#scheduling/search/exact/pure.ts';
import type { Board, Exchange, Shown, Standing } from '#scheduling/search/portfolio/board.ts';
import { openPortfolio, unopened } from '#scheduling/search/portfolio/portfolio.ts';
import { ledgerOf, type Ledger } from '#scheduling/search/portfolio/ledger.ts';
import { rosterOf } from '#scheduling/search/portfolio/roster.ts';
import { partsOf, type Part } from '#scheduling/search/portfolio/rounds.ts';
import { ALONE, laneOf, placesOf, type Lane } from './lanes.ts';
import { clauseLimits, memoryWatch } from './memory.ts';
import type { Finding, Order } from './messages.ts';
import { mustStop, overdue, tellShortOfMemory } from './watch.ts';
import { workplaceOf } from './work.ts';

/** What one round came to. */
interface Ended {
  readonly iterations: number;
  /** What a searcher shows that was stopped in its part, last of all that did anything. */
  readonly cut: Shown | null;
}

/** Takes findings in in the searchers' order, up to the one that decides the problem. */
function takeIn(
  board: Board,
  findings: readonly Finding[],
  retired: Set<number>,
  ledger: Ledger,
  before: number,
): Ended {
  const sorted = [...findings].sort((a, b) => a.seat - b.seat);
  let iterations = before;
  for (const [k, finding] of sorted.entries()) {
    iterations += finding.used;
    if (finding.cut && k === sorted.length - 1) return { iterations, cut: finding };
    const brought = board.take(finding, iterations);
    ledger.enter(finding.seat, finding.used, finding.effort, brought);
    if (board.settled) break;
    if (finding.state.done) retired.add(finding.seat);
  }
  return { iterations, cut: null };
}

/**
 * Works through the rounds of a portfolio with this thread and others. What is found is the same
 * as by `createPortfolio`, iteration for iteration, unless time, a wish to stop or a limit of memory
 * comes in between.
 * `see` is called often, `pause` at barriers, `prove` once where something is proved beforehand. Rejects
 * if a thread fails.
 */
export async function runPortfolio(
  order: Order,
  see: (standing: Standing) => void,
  pause: (standing: Standing) => void,
  prove: (proof: RootProof) => void = () => undefined,
): Promise<Standing> {
  const { problem, seed, warmStart, memoryMB, allMB, signals } = order;
  const most = order.iterations ?? Infinity;
  if (mustStop(signals)) return unopened(problem);
  const seats = rosterOf(problem);
  const limits = clauseLimits(allMB, seats.length);
  const { desk, board } = openPortfolio(problem, seed, warmStart, seats, limits);
  if (!isPure(problem)) prove(desk.root());
  const places = placesOf(seats, order.threads);
  const lanes = Array.from({ length: Math.max(0, ...places) }, () =>
    laneOf({ role: 'further', problem, seed, warmStart, memoryMB, allMB, signals }),
  );
  const workplace = workplaceOf(desk, signals, memoryWatch(memoryMB));
  const ledger = ledgerOf(seats);
  const retired = new Set<number>();
  let iterations = 0;
  let cut: Shown | null = null;
  let left = !board.settled;
  /** A thread was not waited for: what it says later belongs to no round. */
  let isBehind = false as boolean;

  /** A thread whose memory is full takes its searchers with it; the others go on. */
  const askLane = async (
    lane: Lane,
    theirs: readonly Part[],
    exchange: Exchange,
  ): Promise<readonly Finding[]> => {
    const findings = await lane.round(theirs, exchange);
    if (findings !== null) return findings;
    tellShortOfMemory(signals);
    places.forEach((place, seat) => {
      if (theirs.some((part) => places[part.seat] === place)) retired.add(seat);
    });
    return [];
  };

  const oneRound = async (parts: readonly Part[], exchange: Exchange): Promise<Finding[]> => {
    const others = lanes.flatMap((lane, k) => {
      const theirs = parts.filter(({ seat }) => places[seat] === k + 1);
      return theirs.length === 0 ? [] : [askLane(lane, theirs, exchange)];
    });
    // Awaited below: a failure in the meantime is not to be taken for one that nobody expects.
    for (const other of others) other.catch(() => undefined);
    const own = parts.filter(({ seat }) => places[seat] === 0);
    const findings = workplace.work(own, exchange, (shown, used) => {
      see(board.preview(shown, iterations + used));
    });
    if (others.length === 0) return findings;
    // What a thread in the middle of a long step may have found since the last barrier is not waited for.
    const over = new AbortController();
    const late = overdue(signals, over.signal);
    late.catch(() => undefined);
    try {
      const theirs = await Promise.all(others.map((other) => Promise.race([other, late])));
      isBehind ||= theirs.includes(null);
      return [...findings, ...theirs.flatMap((those) => those ?? [])];
    } finally {
      over.abort();
    }
  };

  try {
    for (let round = 0; left && cut === null && !isBehind && !mustStop(signals); round += 1) {
      if (round === ALONE) for (const lane of lanes) lane.start();
      const exchange = board.exchange();
      const planned = exchange.plan !== null;
      const parts = partsOf(seats, round, retired, most - iterations, ledger, planned);
      const findings = await oneRound(parts, exchange);
      ({ iterations, cut } = takeIn(board, findings, retired, ledger, iterations));
      left = parts.length > 0 && !board.settled && iterations < most;
      const standing = board.standing(iterations, parts.length === 0 || board.settled);
      see(standing);
      pause(standing);
    }
    if (cut !== null) return board.preview(cut, iterations);
    return board.standing(iterations, !left && iterations < most);
  } finally {
    for (const lane of lanes) lane.end();
  }
}
