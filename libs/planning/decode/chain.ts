import { celsiusAt } from '#cure/clock/series.ts';
import type { BindingChain, ChainLink } from '#scheduling/model/plan.ts';
import type { Lag } from '#scheduling/model/problem.ts';
import { duration } from '../compile/rows.ts';
import { becoming } from './film.ts';
import { shortName, spanOf, type Reading } from './reading.ts';
import { sentences, type WaitFacts } from './sentences.ts';
import type { ChainStep } from './sheet.ts';

/** Coldest and warmest of a space over some minutes, to half degrees. */
function between(
  reading: Reading,
  space: string,
  from: number,
  to: number,
): { low: number; high: number } {
  const series = reading.films.series(space);
  let [low, high] = [Infinity, -Infinity];
  for (let minute = from; minute <= to; minute += series.step) {
    const celsius = celsiusAt(series, minute);
    low = Math.min(low, celsius);
    high = Math.max(high, celsius);
  }
  const half = (value: number): number => Math.round(value * 2) / 2;
  return { low: half(low), high: half(high) };
}

function filmSentence(
  reading: Reading,
  lag: Lag,
  link: ChainLink,
  facts: WaitFacts,
): string | null {
  const { rows, problem, placed } = reading;
  const source = rows.links.get(lag.source.slice('link:'.length));
  const task = rows.tasks.get(problem.activities[lag.from].id);
  const placement = placed[lag.from];
  if (task === undefined || task.material === null || placement === undefined) return null;
  if (source?.opens?.kind !== 'milestone') return null;
  const span = spanOf(reading, task, placement);
  const laid = lag.fromAnchor === 'start' ? span.start : span.finish;
  const { low, high } = between(reading, task.space, laid, link.until);
  const material = rows.materials.get(task.material)?.name ?? task.material;
  const because = sentences.cures(
    material,
    rows.spaceName(task.space),
    low,
    high,
    duration(Math.max(0, link.until - laid)),
  );
  return sentences.film(facts, becoming[source.opens.milestone], because);
}

function lagSentence(reading: Reading, lag: Lag, link: ChainLink, facts: WaitFacts): string {
  if (lag.bound === 'close') {
    const window = sentences.inside[lag.kind] ?? `inside the ${lag.kind} window`;
    return lag.from === link.to
      ? sentences.notBefore(facts, window)
      : sentences.closing(facts, window);
  }
  const film = filmSentence(reading, lag, link, facts);
  if (film !== null) return film;
  const moment = reading.rows.links.get(lag.source.slice('link:'.length))?.opens;
  const minutes = moment?.kind === 'after' ? moment.minutes : 0;
  return minutes === 0 ? sentences.sequence(facts) : sentences.wait(facts, minutes);
}

function sentenceOf(reading: Reading, link: ChainLink, facts: WaitFacts): string {
  const { problem, map, rows } = reading;
  const { reason } = link;
  const task = rows.tasks.get(problem.activities[link.to].id);
  switch (reason.kind) {
    case 'lag':
      return lagSentence(reading, problem.lags[reason.lag], link, facts);
    case 'builder':
      return sentences.builder(facts, rows.personName(map.people[reason.builder]));
    case 'resource': {
      const { kind, id } = map.resources[reason.resource];
      return kind === 'room'
        ? sentences.room(facts, rows.spaceName(id))
        : sentences.tool(facts, rows.toolName(id));
    }
    case 'air': {
      const space = rows.spaceName(map.spaces[reason.space]);
      return task?.air === 'dusty'
        ? sentences.openFilm(facts, space)
        : sentences.dust(facts, space);
    }
    case 'calendar':
      return sentences.calendar(facts);
    case 'forbidden': {
      const material = rows.materials.get(task?.material ?? '')?.name ?? 'the material';
      return sentences.forbidden(facts, material, rows.spaceName(task?.space ?? ''));
    }
    case 'release': {
      const { refit, release } = problem.activities[link.to];
      const boatThere = refit === null ? 0 : problem.refits[refit].release;
      return release > boatThere ? sentences.now(facts) : sentences.release(facts);
    }
    case 'fixed':
      return sentences.fixed(facts);
  }
}

/** Where a chain's first task has no cause: it says so, rather than begin in the middle. */
function looseStart({ problem, placed, rows, at }: Reading, chain: BindingChain): ChainStep[] {
  const first = chain.links.at(0)?.from ?? null;
  const placement = first === null ? undefined : placed[first];
  if (first === null || placement === undefined) return [];
  const id = problem.activities[first].id;
  const facts = { to: shortName(rows, id), from: null, until: at.words(placement.start) };
  return [
    {
      fromTask: null,
      toTask: id,
      until: at.when(placement.start),
      reason: 'loose',
      text: sentences.loose(facts),
    },
  ];
}

/** A refit's binding chain, each link as facts and a sentence. */
export function chainSteps(reading: Reading, chain: BindingChain): ChainStep[] {
  const { problem, rows, at } = reading;
  const steps = chain.links.map((link) => {
    const [from, to] = [
      link.from === null ? null : problem.activities[link.from].id,
      problem.activities[link.to].id,
    ];
    const facts: WaitFacts = {
      to: shortName(rows, to),
      from: from === null ? null : shortName(rows, from),
      until: at.words(link.until),
    };
    const { reason } = link;
    return {
      fromTask: from,
      toTask: to,
      until: at.when(link.until),
      reason: reason.kind === 'lag' ? `lag:${problem.lags[reason.lag].kind}` : reason.kind,
      text: sentenceOf(reading, link, facts),
    };
  });
  return [...looseStart(reading, chain), ...steps];
}
