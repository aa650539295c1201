import type { Fault, Head, Verdict } from '#persistence/audit/verify.ts';

/** A chain in words. */
const nameOf = (chain: string): string => (chain === '' ? 'The accounts' : `The yard "${chain}"`);

export const headLine = (chain: string, head: Head | null): string =>
  head === null
    ? `${nameOf(chain)}: no changes yet.`
    : `${nameOf(chain)}: ${String(head.number)} ${head.hash}`;

export interface Report {
  readonly lines: readonly string[];
  readonly whole: boolean;
}

/** What came of looking through a chain, and for a hash that was noted before (null: none was). */
export function reportOf(chain: string, noted: string | null, verdict: Verdict): Report {
  const { rows, head, fault, found } = verdict;
  const name = nameOf(chain);
  if (fault !== null) {
    return { whole: false, lines: [`${name}: ${faultWords(fault)}`, fits(rows)] };
  }
  if (noted !== null && found === null) {
    const why =
      'No change has the hash that was noted: the end was cut off after that, or all of it written anew.';
    return { whole: false, lines: [`${name}: ${why}`, `  ${headLine(chain, head)}`] };
  }
  if (head === null) return { whole: true, lines: [headLine(chain, head)] };
  const at = found === null ? '' : `, among them the noted one (change ${String(found)})`;
  return {
    whole: true,
    lines: [
      `${name}: ${count(rows)}, each fits the one before it${at}.`,
      `  newest: ${String(head.number)} ${head.hash}`,
    ],
  };
}

/** What a chain cannot show of itself. */
export const endWords =
  'A chain shows what was altered, taken out or put in, but not whether its end was cut off: note ' +
  'the newest hash now and then, outside this machine, and give it to verify as --head.';

const count = (rows: bigint): string => `${String(rows)} change${rows === 1n ? '' : 's'}`;

const fits = (rows: bigint): string =>
  rows === 0n ? '  None before it fits.' : `  Before it, ${count(rows)} fit.`;

function faultWords(fault: Fault): string {
  const number = String(fault.number);
  if (fault.kind === 'missing') {
    return `change ${number} is missing; the next one that there is has number ${String(fault.next)}.`;
  }
  const { at, memberId, change, record, key } = fault.row;
  const by = memberId === null ? 'nobody signed in' : `"${memberId}"`;
  return (
    `change ${number} does not fit: it, or what stood before it, was altered. It now says: ` +
    `${change} of ${record} ${key} by ${by} at ${at.toISOString()}.`
  );
}
