import { type Answer, codeOf, outcomeOf } from '../requests/send.ts';
import { leaksOf } from '../world/leaks.ts';
import { wage } from '../world/yard-file.ts';
import type { World } from '../world/make-world.ts';
import type { Made } from './making.ts';

export interface Verdict {
  /** What is wrong with the answer; null: nothing. */
  readonly fault: string | null;
  /** The call came as far as its own operation: let in, and its input was well formed. */
  readonly passed: boolean;
}

/** Looks at the answers for what must never be in one. */
export function judging(
  world: World,
  planted: readonly string[],
): (made: Made, answer: Answer) => Verdict {
  const { here, there } = world;
  const theirs = leaksOf(there);
  const ours = leaksOf(here);
  const neighbours = [here.people.neighbour.memberId, `${here.mark}-heron`, 'Heron'];
  const isPlanted = new Set(planted);

  const leaksIn = ({ caller, request }: Made, text: string): string[] => {
    const asked = `${readable(request.url)} ${request.body ?? ''}`;
    const home = caller.member?.yardId;
    const isOwner = caller.member?.roles.every((role) => role === 'owner') ?? false;
    return [
      ...(home === there.yardId ? [] : theirs(asked, text).filter((id) => !isPlanted.has(id))),
      ...(home === here.yardId ? [] : ours(asked, text)),
      ...(isOwner
        ? [...neighbours, String(wage)].filter(
            (word) => text.includes(word) && !asked.includes(word),
          )
        : []),
    ];
  };

  return (made, answer) => {
    const code = codeOf(answer);
    const isFault =
      answer.status >= 500 || code === 'service.fault' || code === 'service.unavailable';
    const leaks = leaksIn(made, answer.text);
    const fault = isFault
      ? `${answer.status} ${answer.text.slice(0, 300)}`
      : leaks.length > 0
        ? `leaks ${leaks.slice(0, 3).join(', ')}`
        : innards.test(answer.text)
          ? `shows its inside: ${innards.exec(answer.text)?.[0] ?? ''}`
          : null;
    return { fault, passed: passed(made, answer, code) };
  };
}

/** Stack traces, SQL and names of the tables' columns or of the driver. */
const innards =
  /\n\s+at .+:\d+:\d+|node_modules|\bprisma\b|\bSELECT .+ FROM\b|violates .+ constraint|pg_catalog/i;

function readable(url: string): string {
  try {
    return decodeURIComponent(url);
  } catch {
    return url;
  }
}

const before = /^(input\.|access\.(sign-in|role|scope|second-factor|forged|often)$)/;

function passed({ isMeant, isWrong }: Made, answer: Answer, code: string | null): boolean {
  if (outcomeOf(answer) === 'fault' || (code !== null && before.test(code))) return false;
  // Of a call that means it, "not found" is the operation's own word; else it may be the guard's or the router's.
  return isMeant || (isWrong && code !== 'record.missing');
}
