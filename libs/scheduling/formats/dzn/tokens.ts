import { malformed } from '../text.ts';

export interface Token {
  readonly file: string;
  readonly line: number;
  readonly text: string;
}

const PIECE = /\s+|%[^\n]*|\[\||\|\]|[[\]{}|,;=]|[A-Za-z_]\w*|-?\d+(?:\.\d+)?/y;

/** Names, numbers and signs of a data file, blanks and `%` comments left out. Throws `input.malformed`. */
export function tokensOf(text: string, file: string): Token[] {
  const tokens: Token[] = [];
  let line = 1;
  PIECE.lastIndex = 0;
  while (PIECE.lastIndex < text.length) {
    const at = PIECE.lastIndex;
    const found = PIECE.exec(text)?.[0];
    if (found === undefined) {
      throw malformed(
        { file, line },
        text[at],
        `"${text[at]}" cannot stand here`,
        'Write names, whole numbers, lists [..], tables [|..|] and sets {..} only.',
      );
    }
    if (/^\s/.test(found)) line += found.split('\n').length - 1;
    else if (!found.startsWith('%')) tokens.push({ file, line, text: found });
  }
  return tokens;
}
