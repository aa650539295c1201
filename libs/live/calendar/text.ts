/** One content line of RFC 5545, 3.1: the name with its parameters, and the value as it is written. */
export type Line = readonly [name: string, value: string];

/** A component: its properties, and then, as the grammar of 3.6 has it, the components inside. */
export interface Component {
  readonly name: string;
  readonly lines: readonly Line[];
  readonly inside: readonly Component[];
}

/**
 * A TEXT value (3.3.11). Breaks of any system's are `\n`; other control characters, which the
 * grammar does not know, and halves of characters are left out.
 */
export function textOf(value: string): string {
  return value
    .toWellFormed()
    .replaceAll(/\r\n|[\r\n\u0085\u2028\u2029]/g, '\n')
    .replaceAll(/[^\P{Cc}\n\t]|\uFFFD/gu, '')
    .replaceAll(/[\\;,]/g, String.raw`\$&`)
    .replaceAll('\n', String.raw`\n`);
}

/** A DATE-TIME in UTC (3.3.5, form 2): the only form that can name both of two hours with one name. */
export const utcOf = (iso: string): string =>
  `${new Date(iso).toISOString().slice(0, 19).replaceAll(/[-:]/g, '')}Z`;

/** A DATE (3.3.4). */
export const dayOf = (date: string): string => date.replaceAll('-', '');

const octets = (text: string): number => Buffer.byteLength(text);

/** Lines of at most 75 octets without their break (3.1); no character is cut in two. */
function folded(line: string): string {
  if (octets(line) <= 75) return line;
  let out = '';
  let room = 75;
  for (const character of line) {
    const size = octets(character);
    if (size > room) {
      out += '\r\n ';
      room = 74;
    }
    out += character;
    room -= size;
  }
  return out;
}

/** The component as it goes over the wire: every line ends with CR LF, the last one too. */
export function written(component: Component): string {
  return linesOf(component)
    .map((line) => `${folded(line)}\r\n`)
    .join('');
}

function linesOf({ name, lines, inside }: Component): string[] {
  return [
    `BEGIN:${name}`,
    ...lines.map(([property, value]) => `${property}:${value}`),
    ...inside.flatMap(linesOf),
    `END:${name}`,
  ];
}
